import { describe, expect, it } from 'vitest';
import { termIn, termOf, terms, topics } from '../../../renderer/help/glossary.ts';

/** What a technician may look for, by the trade's own words; each must be explained. */
const asked =
  'level tilt flatness pad equalizer cable-simulator test-point as-found as-left span reserve pilot gain-control thermal-control ambient-compensation range cnr mer ctb cso ripple suck-out roll-off uncertainty guard-band undecided control-chart drift hash-chain void correction dbmv dbuv dbm noise-figure proposal trim visit sweep'.split(
    ' ',
  );

describe('the glossary', () => {
  it.each(asked)('explains %s', (id) => {
    expect(termOf(id)?.id).toBe(id);
  });

  it.each(terms.map((term) => [term.name, term] as const))(
    'says %s in two sentences, with formula and source',
    (_, term) => {
      // A sentence ends with a point before a capital letter or the end; "0.11 %" has a point in it.
      expect(term.words.match(/\.(?= \p{Lu}|$)/gu)).toHaveLength(2);
      expect(term.words.endsWith('.')).toBe(true);
      expect(term.words.length).toBeLessThan(330);
      expect(term.formula).not.toBe('');
      expect(term.source).toMatch(/[.]$|\d|\u201D$/);
    },
  );

  it('names each term once, and only terms that there are', () => {
    expect(new Set(terms.map(({ id }) => id)).size).toBe(terms.length);
    expect(new Set(terms.map(({ name }) => name.toLowerCase())).size).toBe(terms.length);
    for (const { id, see } of terms) {
      expect(see.filter((other) => termOf(other) === undefined || other === id)).toEqual([]);
      expect(see.length).toBeGreaterThan(0);
    }
    expect(topics.every((topic) => topic.terms.length > 0)).toBe(true);
  });

  it('knows which term a popover speaks of', () => {
    expect(termIn('Tilt of the span at 20 \u00B0C')?.id).toMatch(/^(tilt|span)$/);
    expect(termIn('Worst channel of 07 Mill Lane')?.id).toBe('worst-channel');
    expect(termIn('Reserve that is left')?.id).toBe('reserve');
    expect(termIn('Range of the control')?.id).toBe('range');
    expect(termIn('Stage input')?.id).toBe('stage-input');
    expect(termIn('CNR behind the cascade')?.id).toMatch(/^(cnr|cascade)$/);
    expect(termIn('What the sun adds')).toBeNull();
    expect(termIn('Padding')).toBeNull();
  });
});
