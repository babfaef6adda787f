import { expect, it } from 'vitest';
import { installedOf } from '../../../core/files/station.ts';
import { fitSweep } from '../../../core/line/fit-sweep.ts';
import { predictRows } from '../../../core/propose/predict.ts';
import { propose } from '../../../core/propose/propose.ts';
import { rows, station } from './mill-lane.ts';

const installed = installedOf(station);

it('adds what comes out and takes away what goes in, at each frequency', () => {
  const to = { ...installed, 'input pad': 5, 'input equalizer': 10 };
  const [row] = predictRows(
    [{ frequencyMhz: 217.5, levelDbmv: 38 }],
    station,
    'forward output',
    installed,
    to,
  );
  // 6 -> 5 dB of pad lifts by 1; equalizer 8 -> 10 takes 1 + 10/2 instead of 1 + 8/2: 1 dB more.
  expect(row?.levelDbmv).toBeCloseTo(38, 12);
});
it('changes nothing when nothing is changed, or on a path without the position', () => {
  expect(predictRows(rows, station, 'forward output', installed, installed)).toEqual(rows);
  expect(predictRows(rows, station, 'forward input', installed, { ...installed, 'input pad': 0 })).toEqual(
    rows,
  );
});
it('keeps rows that have no level or no frequency, and the rest of each row', () => {
  const odd = [
    { frequencyMhz: null, levelDbmv: 3 },
    { frequencyMhz: 100, levelDbmv: null, label: 'off' },
    { frequencyMhz: 100, levelDbmv: 30, kind: 'qam' as const },
  ];
  const after = predictRows(odd, station, 'forward output', installed, { ...installed, 'input pad': 4 });
  expect(after).toEqual([odd[0], odd[1], { frequencyMhz: 100, levelDbmv: 32, kind: 'qam' }]);
});
it('gives the line that the proposal promises', () => {
  const proposal = propose({ rows, station });
  if (!proposal.ok) throw new Error(proposal.code);
  const { recommended } = proposal.value;
  const after = predictRows(rows, station, 'forward output', installed, recommended.values);
  const fit = fitSweep(after, { lowMhz: 54, highMhz: 870 });
  if (!fit.ok) throw new Error(fit.code);
  expect(fit.value.lowDbmv).toBeCloseTo(recommended.fit.lowDbmv, 9);
  expect(fit.value.tiltDb).toBeCloseTo(recommended.fit.tiltDb, 9);
  expect(fit.value.flatnessDb).toBeCloseTo(recommended.flatnessDb, 9);
});
it('throws for a port that is not there', () =>
  expect(() => predictRows(rows, station, 'outlet', installed, installed)).toThrow(RangeError));
