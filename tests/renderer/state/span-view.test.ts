import { describe, expect, it } from 'vitest';
import type { CascadeLink } from '../../../core/bridge/cascade-calls.ts';
import { installedOf } from '../../../core/files/station.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';
import { quillmereNotes } from '../../../core/simulate/quillmere-notes.ts';
import { viewNoise } from '../../../renderer/state/noise-view.ts';
import { viewSpan } from '../../../renderer/state/span-view.ts';
import { cascadeWords, noiseHeadline } from '../../../renderer/state/span-words.ts';

const links: readonly CascadeLink[] = quillmere.flatMap(({ station }) => {
  const figures = quillmereNotes[station.id];
  return figures === undefined
    ? []
    : [
        {
          ...{ station, pluggedIn: installedOf(station), output: null, input: null },
          notes: { format: 'tiltwright-station-notes/1' as const, ...figures },
        },
      ];
});
const warmth = { coldC: -30, nowC: 20, hotC: 45 };

describe('the spans of Quillmere', () => {
  it('lose what each station file says, by cable and length', () => {
    expect(links).toHaveLength(5);
    links.forEach((link, i) => {
      const span = link.notes?.span;
      if (span === undefined) throw new Error('no span');
      const view = viewSpan(links.slice(0, i + 1), span, warmth);
      if ('missing' in view) throw new Error(view.missing);
      expect(Math.abs(view.figures.lossHighDb - (view.fileLossDb ?? 0))).toBeLessThan(0.05);
      expect(view.check).toBeNull();
      expect(view.curves.map(({ day }) => day)).toEqual(['cold', 'now', 'hot']);
      expect(view.slopeLackingDb + view.fitted.slopeDb).toBeCloseTo(view.figures.tiltDb, 9);
    });
  });
  it('are refused in words for a cable that nobody knows', () =>
    expect(viewSpan(links, { cable: '.9', lengthM: 3 }, warmth)).toMatchObject({
      missing: expect.stringContaining('.750'),
    }));
});

describe('the noise of Quillmere', () => {
  it('is told for the whole cascade, and is in order', () => {
    const view = viewNoise(links);
    if (view === null) throw new Error('no view');
    expect(cascadeWords(view)).toBe('5\u00A0stations in cascade, behind the node');
    expect(noiseHeadline(view)).toMatch(/^\d\.\d\u00A0dB in hand, least of all in C[ST][OB]$/);
  });
  it('says which station lacks its figures, and tells nothing by half', () => {
    const some = links.map((link, i) => (i === 1 ? { ...link, notes: null } : link));
    const view = viewNoise(some);
    if (view === null) throw new Error('no view');
    expect(view.withoutFigures).toEqual(['07 Mill Lane']);
    expect(noiseHeadline(view)).toBe('The cascade can\u2019t be told yet');
  });
  it('names the figure that lacks', () => {
    const hot = links.map((link) => ({
      ...link,
      notes: link.notes?.amplifier
        ? { ...link.notes, amplifier: { ...link.notes.amplifier, ctbDbc: -60 } }
        : link.notes,
    }));
    const view = viewNoise(hot);
    if (view === null) throw new Error('no view');
    expect(noiseHeadline(view)).toMatch(/^Triple beat, CTB lacks \d/);
  });
});
