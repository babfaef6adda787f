import { expect, it } from 'vitest';
import { jsonTree } from '../../../../core/files/pasted/json-tree.ts';

const lineOf = (text: string) => {
  const tree = jsonTree(text, 'a.json');
  return tree === null || tree.ok ? tree : `${tree.code}: ${tree.where}`;
};

it('keeps numbers as they are written, and the line of each value', () => {
  expect(jsonTree('[\n {"a": 57.250},\n {"a": 1e999, "b": " x\\u00b5 "}\n]', 'a.json')).toEqual({
    ok: true,
    value: {
      kind: 'list',
      line: 1,
      items: [
        { kind: 'object', line: 2, entries: [['a', { kind: 'number', line: 2, text: '57.250' }]] },
        {
          kind: 'object',
          line: 3,
          entries: [
            ['a', { kind: 'number', line: 3, text: '1e999' }],
            ['b', { kind: 'text', line: 3, text: 'xµ' }],
          ],
        },
      ],
    },
  });
  expect(jsonTree('{}', 'a.json')).toEqual({ ok: true, value: { kind: 'object', line: 1, entries: [] } });
});

it('reads an object a line', () => {
  expect(jsonTree('{"a":1}\n\n{"a":2}\n', 'a.json')).toMatchObject({
    value: { items: [{ line: 1 }, { line: 3 }] },
  });
});

it('is none where the text begins otherwise', () => {
  for (const text of [
    'frequency_mhz,level_dbmv\n',
    '[2026-03-02 12:03:55] 57 MHz',
    '[table][tr]',
    '[channel 1]\na=1',
  ])
    expect(jsonTree(text, 'a.txt')).toBeNull();
});

it('refuses what is broken off, what names a key twice, and what is too deep', () => {
  expect(lineOf('[{"a":1},\n{"a":')).toBe('not-json: a.json, line 2');
  expect(lineOf('[{"a":1},\n{"a":2,"a":3}]')).toBe('bad-key: a.json, line 2');
  expect(lineOf(`${'['.repeat(30)}${']'.repeat(30)}`)).toBe('not-json: a.json');
  expect(lineOf(`${'['.repeat(90_000)}`)).toMatch(/^not-json/);
});
