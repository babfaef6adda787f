import { expect, it } from 'vitest';
import { asAfter, asBefore, eased, onTheWay } from '../../../renderer/charts/change.ts';
import { chartCsv, chartRows, rowsIn } from '../../../renderer/charts/rows.ts';

const row = (frequencyMhz: number, levelDbmv: number | null) => ({ frequencyMhz, levelDbmv });
const rows = chartRows({
  design: null,
  shown: [row(57, 36), row(63, 35), row(69, null)],
  found: [row(57, 34), row(63, 34.5)],
  predicted: null,
  targets: null,
});

it('goes from before to after, and moves nothing that only one of them read', () => {
  expect(onTheWay(rows, 0).map(({ shownDbmv }) => shownDbmv)).toEqual([34, 34.5, null]);
  expect(onTheWay(rows, 0.5).map(({ shownDbmv }) => shownDbmv)).toEqual([35, 34.75, null]);
  expect(onTheWay(rows, 1)).toEqual(rows);
  expect([eased(-1), eased(0), eased(0.5), eased(2)]).toEqual([0, 0, 0.5, 1]);
});

it('shows each of the two for itself', () => {
  expect(asBefore(rows).map(({ shownDbmv, foundDbmv }) => [shownDbmv, foundDbmv])).toEqual([
    [34, null],
    [34.5, null],
    [null, null],
  ]);
  expect(asAfter(rows).every(({ foundDbmv }) => foundDbmv === null)).toBe(true);
});

it('draws what is in view and one beyond each end, so that lines run out of it', () => {
  expect(rowsIn(rows, { low: 60, high: 65 }).map(({ frequencyMhz }) => frequencyMhz)).toEqual([57, 63, 69]);
  expect(rowsIn(rows, { low: 66, high: 80 }).map(({ frequencyMhz }) => frequencyMhz)).toEqual([63, 69]);
  expect(rowsIn(rows, { low: 80, high: 90 })).toEqual([]);
});

it('writes what is drawn as CSV, empty where nothing was', () => {
  expect(chartCsv(rows)).toBe(
    'frequency_mhz,level_dbmv,before_dbmv,predicted_dbmv,design_dbmv,from_design_db\r\n57,36,34,,,\r\n63,35,34.5,,,\r\n69,,,,,\r\n',
  );
});
