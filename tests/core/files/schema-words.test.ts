import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { schemaWords, valueAt } from '../../../core/files/schema-words.ts';
import { readStation } from '../../../core/files/station.ts';

const wordsFor = (schema: z.ZodType, raw: unknown): string | null => {
  const issue = schema.safeParse(raw).error?.issues[0];
  return issue === undefined ? null : schemaWords(issue, valueAt(raw, issue.path));
};

// Contract, section 3: exit 2 is one line of what, where and what would help; section 2: unknown keys by name.
describe('the words of a schema', () => {
  const loss = z.strictObject({ db: z.number().min(0).max(60) });
  it.each([
    ['nothing', loss, {}, 'is missing; write a number'],
    ['a text', loss, { db: '3' }, 'a text in quotes stands here; write a number'],
    ['a list', loss, { db: [3] }, 'a list stands here; write a number'],
    ['null', loss, { db: null }, 'null stands here; write a number'],
    ['too little', loss, { db: -1 }, 'must be at least 0'],
    ['too much', loss, { db: 61 }, 'must be at most 60'],
    ['nothing of what is above 0', z.number().positive(), 0, 'must be above 0'],
    ['no entry', z.array(z.number()).min(1), [], 'must hold at least 1 entry'],
    ['no letter', z.string().min(1), '', 'must have at least 1 letter'],
    ['a half', z.int(), 1.5, 'a number stands here; write a whole number'],
    [
      'a stranger',
      loss,
      { db: 1, bd: 2 },
      'no such key is known: "bd"; take it out, or look at its spelling',
    ],
    ['another word', z.enum(['a', 'b']), 'c', 'must be "a" or "b"'],
    ['no word', z.strictObject({ k: z.enum(['a', 'b']) }), {}, 'is missing; write "a" or "b"'],
    ['what fits', loss, { db: 1 }, null],
  ])('tell of %s', (_what, schema, raw, words) => {
    expect(wordsFor(schema, raw)).toBe(words);
  });

  it('reach a position of a station file', () => {
    const ports = [{ name: 'out', direction: 'forward', through: [] }];
    const positions = [{ name: 'pad', kind: 'filter', installed: 0, values: [0] }];
    const text = JSON.stringify({ format: 'tiltwright-station/1', id: 's', name: 'S', ports, positions });
    expect(readStation(text, 's.json')).toMatchObject({
      ok: false,
      where: 's.json, positions.0.kind',
      help: 'must be "pad" or "equalizer" or "cable-simulator"',
    });
  });

  it('find nothing where nothing stands, and nothing that every object has', () => {
    expect(valueAt({ a: [{ b: 1 }] }, ['a', 0, 'b'])).toBe(1);
    expect(valueAt({ a: 1 }, ['a', 'b'])).toBeUndefined();
    expect(valueAt({}, ['constructor'])).toBeUndefined();
  });
});
