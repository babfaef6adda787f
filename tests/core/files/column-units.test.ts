import { expect, it } from 'vitest';
import { frequencyReader, levelReader } from '../../../core/files/column-units.ts';
import { headerWord } from '../../../core/files/header-words.ts';

const column = (header: string) => ({ index: 0, header, word: headerWord(header) });
const cell = (digits: string, unit = '') => ({ digits, unit, where: `at ${digits}` });

it('takes the unit of frequency from the header, the cells, or the only one that fits', () => {
  const unitOf = (header: string, cells: ReturnType<typeof cell>[]) => {
    const reader = frequencyReader(column(header), cells, 'head');
    return reader.ok ? reader.value.unit : reader.where;
  };
  expect(unitOf('frequency_khz', [cell('5')])).toBe('kHz');
  expect(unitOf('frequency', [cell('57', 'MHz')])).toBe('in the cells');
  expect(unitOf('frequency', [cell('57'), cell('1002')])).toBe('MHz');
  expect(unitOf('frequency', [cell('1100'), cell('2000')])).toBe('head');
  expect(unitOf('frequency', [cell('57', 'MHz'), cell('63')])).toBe('at 63');
});

it('never judges the unit of level by the size of the numbers', () => {
  expect(levelReader(column('level'), [cell('96.5')], 'head')).toMatchObject({ ok: false, where: 'head' });
  expect(levelReader(column('level'), [cell('96.5', 'dBuV'), cell('5')], 'head')).toMatchObject({
    ok: false,
    where: 'at 5',
  });
  expect(levelReader(column('level'), [], 'head')).toMatchObject({ ok: false });
});

it('refuses a cell that contradicts its header', () => {
  const reader = levelReader(column('level_dbmv'), [cell('5', 'dBuV')], 'head');
  if (!reader.ok) throw new Error(reader.code);
  expect(reader.value.read(cell('5', 'dBuV'))).toMatchObject({ ok: false, code: 'wrong-unit' });
  expect(reader.value.read(cell('5', 'dBmV'))).toEqual({ ok: true, value: 5 });
  expect(reader.value.read(cell('20000'))).toMatchObject({ ok: false, code: 'out-of-range' });
});
