import { expect, it } from 'vitest';
import { columnsOf, type Table } from '../../../core/files/pasted/table.ts';
import { rowsOfTable } from '../../../core/files/table-rows.ts';

const table = (cells: readonly string[], ...rows: string[][]): Table => {
  const header = { line: 1, cells };
  const body = rows.map((row, i) => ({ line: i + 2, cells: row }));
  return { separator: '\t', layout: 'rows', header, columns: columnsOf(header).columns, body, titles: [] };
};
const silent = { frequency: null, level: null, isIn50Ohm: false, parts: 1 } as const;
const nothing = { prose: silent, foot: silent, told: {}, sibling: null } as const;
const bare = table(['Frequency', 'Level'], ['57', '96.5']);

it('takes a unit from beside only where the table has none, and says so', () => {
  expect(rowsOfTable(bare, nothing, 'x')).toMatchObject({ ok: false, code: 'no-unit' });
  const prose = {
    ...nothing,
    prose: { frequency: null, level: 'dBuV', isIn50Ohm: false, parts: 1 },
  } as const;
  expect(rowsOfTable(bare, prose, 'x')).toMatchObject({
    ok: true,
    value: {
      rows: [{ levelDbmv: 36.5 }],
      levelUnit: 'dBuV',
      notes: ['the unit of level, dBµV, stands in a line above the table'],
    },
  });
  const own = table(['Frequency', 'Level (dBmV)'], ['57', '36.5']);
  expect(rowsOfTable(own, prose, 'x')).toMatchObject({ ok: true, value: { levelUnit: 'dBmV', notes: [] } });
  expect(rowsOfTable(bare, { ...nothing, told: { levelUnit: 'dBuV' } }, 'x')).toMatchObject({
    ok: true,
    value: { notes: [] },
  });
});

it('takes a unit from below where nothing above has one, and says so', () => {
  const foot = { frequency: null, level: 'dBuV', isIn50Ohm: false, parts: 1 } as const;
  expect(rowsOfTable(bare, { ...nothing, foot }, 'x')).toMatchObject({
    value: {
      rows: [{ levelDbmv: 36.5 }],
      notes: ['the unit of level, dBµV, stands in a line below the table'],
    },
  });
});

it('refuses a line below that contradicts the heading', () => {
  const own = table(['Frequency', 'Level (dBmV)'], ['57', '36.5']);
  const foot = { frequency: null, level: 'dBuV', isIn50Ohm: false, parts: 1 } as const;
  expect(rowsOfTable(own, { ...nothing, foot }, 'x')).toMatchObject({ ok: false, code: 'wrong-unit' });
});

it('says what stood beside levels, and leaves out what is sent with its word', () => {
  const own = table(['Dir', 'MHz', 'dBmV'], ['DS', '603', '1.5 (OK)'], ['US', '37', '44']);
  expect(rowsOfTable(own, nothing, 'x')).toMatchObject({
    value: {
      rows: [{ levelDbmv: 1.5 }, { levelDbmv: null, reason: '"US" says that it is sent, no reading' }],
      notes: ['"(OK)" beside a level says how good it is, no part of it'],
    },
  });
});

it('refuses tenths with a fraction', () => {
  const own = table(['MHz', 'Level (dBmV/10)'], ['603', '36.1']);
  expect(rowsOfTable(own, nothing, 'x')).toMatchObject({ ok: false, code: 'wrong-unit' });
});

it('says of a slot that is not locked why it has no level', () => {
  const own = table(
    ['MHz', 'dBmV', 'Lock'],
    ['603', '1.5', 'Locked'],
    ['609', '', 'Not locked'],
    ['615', '', 'Locked'],
  );
  const read = rowsOfTable(own, nothing, 'x');
  expect(read.ok && read.value.rows.map(({ reason }) => reason)).toEqual([
    undefined,
    'not locked',
    'no level',
  ]);
});

it('names no voltage as its reason, and the lock where that says it', () => {
  const some = table(
    ['MHz', 'Level (mV)', 'Lock'],
    ['603', '0', 'Not locked'],
    ['609', '0', 'Locked'],
    ['615', '1', 'Locked'],
  );
  const micro = table(['MHz', 'Level'], ['603', '0 \u00b5V'], ['615', '1000 \u00b5V']);
  const reasons = [some, micro].map((one) => {
    const read = rowsOfTable(one, nothing, 'x');
    return read.ok && read.value.rows.map(({ levelDbmv, reason }) => reason ?? levelDbmv);
  });
  expect(reasons).toEqual([
    ['not locked', "0 mV is no level: a signal's voltage is above 0", 0],
    ["0 \u00b5V is no level: a signal's voltage is above 0", 0],
  ]);
});

it('says how a voltage and a power in 50 ohm were taken', () => {
  const notes = (unit: string) => {
    const read = rowsOfTable(table(['MHz', `Level (${unit})`], ['603', '1']), nothing, 'x');
    return read.ok && read.value.notes.join();
  };
  expect(notes('mV')).toMatch(/root mean square in 75 ohm/);
  expect(notes('dBm, 50 ohm')).toMatch(/the loss of a matching pad is not in it/);
  expect(notes('dBmV')).toBe('');
});
