import { expect, it } from 'vitest';
import { clashRefusal } from '../../../../core/files/pasted/tables.ts';

it('names both headings and the line', () => {
  const clash = { role: 'level', one: 'Level A', other: 'Level B', line: 3 } as const;
  expect(clashRefusal({ clash }, 'a.csv')).toEqual({
    ok: false,
    code: 'two-columns',
    where: 'a.csv, line 3',
    help: 'both "Level A" and "Level B" name a level; keep the one that counts',
  });
  expect(clashRefusal({ clash: null }, 'a.csv')).toBeNull();
});
