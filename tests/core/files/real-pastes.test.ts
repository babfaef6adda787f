import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';
import { refusalLine } from '../../../core/result.ts';
import { root } from '../../support/source-files.ts';

const folder = join(root, '../shared/real-levels');
const there = existsSync(folder);
const read = (text: string, name: string) => {
  const sweep = readSweepCsv(text, name);
  if (!sweep.ok) throw new Error(refusalLine(sweep));
  return sweep.value;
};
const readingsOf = (text: string, name: string) =>
  read(text, name).rows.map(({ frequencyMhz, levelDbmv, merDb = null }) => ({
    frequencyMhz,
    levelDbmv,
    merDb,
  }));
/** The same of the folder's own table, without any code of ours: a range, a 0 and nothing are no frequency. */
const tableOf = (name: string) => {
  const numberIn = (cell = '') => (/^-?\d+(\.\d+)?$/.test(cell) ? Number(cell) : null);
  const [head, ...lines] = textOf(name).trimEnd().split('\n');
  expect(head).toBe('frequency_mhz,level_dbmv,modulation,mer_db');
  return lines.map((line) => {
    const [mhz, level, , mer] = line.split(',');
    return { frequencyMhz: numberIn(mhz) || null, levelDbmv: numberIn(level), merDb: numberIn(mer) };
  });
};
const textOf = (name: string) => readFileSync(join(folder, name), 'utf8');
const raws = there ? readdirSync(join(folder, 'raw')) : [];
const paired = raws.filter((name) => existsSync(join(folder, name.replace('.txt', '.csv'))));

// Outside truth: the tables that the folder's makers wrote out of the same pages by hand.
describe.skipIf(!there)('real pastes (skipped where ../shared/real-levels is absent)', () => {
  it('are there', () => expect(paired.length).toBeGreaterThanOrEqual(7));

  it.each(paired)('%s gives the levels of its CSV, row by row', (name) => {
    const table = tableOf(name.replace('.txt', '.csv'));
    expect(readingsOf(textOf(`raw/${name}`), name)).toEqual(table);
    expect(table.filter(({ frequencyMhz }) => frequencyMhz !== null).length).toBeGreaterThan(20);
  });

  it('001 with decimal commas and semicolons is the same sweep', () => {
    const text = textOf('raw/001.txt').replace(/\./g, ',').replace(/\t/g, ';');
    expect(readingsOf(text, '001.txt')).toEqual(tableOf('001.csv'));
  });

  it('016 says no unit of level: refused, until a person says it', () => {
    const text = textOf('raw/016.txt');
    const refused = readSweepCsv(text, '016.txt');
    expect(refused).toMatchObject({ ok: false, code: 'no-unit', where: '016.txt, line 1, column "pow"' });
    const told = readSweepCsv(text, '016.txt', { levelUnit: 'dBmV' });
    if (!told.ok) throw new Error(refusalLine(told));
    expect(told.value.rows).toHaveLength(24);
    expect(told.value.rows[0]).toMatchObject({ frequencyMhz: 834, levelDbmv: 8, merDb: 36, kind: 'qam' });
  });

  it('013 joins its two tables and says where the unit came from', () => {
    const { understood } = read(textOf('raw/013.txt'), '013.txt');
    expect(
      understood.tables.map(({ line, rowCount, direction, taken }) => [line, rowCount, direction, taken]),
    ).toEqual([
      [2, 32, 'downstream', true],
      [37, 2, 'downstream', true],
    ]);
    expect(understood.notes).toEqual([
      '2 tables were joined',
      'the unit of level, dBmV, stands in another table under the same heading',
    ]);
  });

  it('009 lies on its side', () => {
    const { rows, understood } = read(textOf('raw/009.txt'), '009.txt');
    expect(understood.tables[0]?.layout).toBe('sides');
    expect(rows.at(-1)).toMatchObject({ frequencyMhz: 920, levelDbmv: 0.7, kind: 'ofdm', label: '34' });
  });
});
