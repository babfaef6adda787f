import { expect, it } from 'vitest';
import { z } from 'zod';
import { readJsonFile } from '../../../core/files/json-file.ts';

const shape = z.strictObject({
  format: z.literal('spoon/1'),
  handle: z.union([
    z.strictObject({ lengthM: z.number() }),
    z.strictObject({ lengthM: z.number(), bent: z.boolean(), ring: z.string() }),
  ]),
});
const kind = { noun: 'spoon', format: 'spoon/1', code: 'not-a-spoon' } as const;
const read = (text: string) => readJsonFile(shape, kind, text, 'tea.json');

it('reads what fits, with a byte order mark too', () => {
  const spoon = { format: 'spoon/1', handle: { lengthM: 0.12 } };
  expect(read(`\uFEFF${JSON.stringify(spoon)}`)).toEqual({ ok: true, value: spoon });
});

it('says how such a file begins when it is no JSON', () => {
  const refused = read('{ "format": ');
  expect(refused).toMatchObject({ ok: false, code: 'not-json', where: 'tea.json' });
  expect(refused.ok ? '' : refused.help).toContain('a spoon starts with { "format": "spoon/1"');
});

it('names the file and the key, and an unknown key by its name', () => {
  expect(read('{ "format": "fork/1", "handle": { "lengthM": 1 } }')).toMatchObject({
    code: 'not-a-spoon',
    where: 'tea.json, format',
  });
  const unknown = read('{ "format": "spoon/1", "handle": { "lengthM": 1 }, "colour": "red" }');
  expect(unknown.ok ? '' : unknown.help).toContain('"colour"');
});

it('looks into a choice of shapes for the one that came nearest', () => {
  expect(read('{ "format": "spoon/1", "handle": { "lengthM": "long" } }')).toMatchObject({
    where: 'tea.json, handle.lengthM',
  });
});
