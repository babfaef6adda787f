import { expect, it } from 'vitest';
import { MeterUncertainty } from '../../../core/files/meter-uncertainty.ts';
import { predictTurned, TURNED_WITHIN_DB, turnedReading } from '../../../core/propose/predict-turned.ts';
import { propose } from '../../../core/propose/propose.ts';
import { rows, station } from './mill-lane.ts';

const design = station.ports[0]?.design;
if (design === undefined) throw new Error('no design');
const levels = (turns: Parameters<typeof predictTurned>[2], some = [54, 462, 870]) =>
  predictTurned(
    some.map((frequencyMhz) => ({ frequencyMhz, levelDbmv: 40 })),
    design,
    turns,
  ).map(({ levelDbmv }) => levelDbmv);

// By hand: a gain trim does the same everywhere; a slope trim read at the top does all there, half in the middle of a
// design that is straight in frequency, and nothing at its low end.
it('raises each channel by what the turns do there', () => {
  expect(levels([{ name: 'gain', kind: 'gain', atMhz: 870, byDb: -0.7 }])).toEqual([39.3, 39.3, 39.3]);
  expect(levels([{ name: 'slope', kind: 'slope', atMhz: 870, byDb: 2 }])).toEqual([40, 41, 42]);
  expect(
    levels([
      { name: 'gain', kind: 'gain', atMhz: 870, byDb: 1 },
      { name: 'slope', kind: 'slope', atMhz: 54, byDb: -2 },
    ]),
  ).toEqual([39, 40, 41]);
});

it('leaves rows without a level as they are', () => {
  const silent = [{ frequencyMhz: 100, levelDbmv: null }];
  expect(predictTurned(silent, design, [{ name: 'gain', kind: 'gain', atMhz: 870, byDb: 1 }])).toEqual(
    silent,
  );
});

it('gives what the proposal says that its turns give', () => {
  const trims = [
    { name: 'gain', kind: 'gain' as const, rangeDb: [-3, 3] as [number, number], atMhz: 870 },
    { name: 'slope', kind: 'slope' as const, rangeDb: [-3, 3] as [number, number], atMhz: 870 },
  ];
  const bare = {
    ...station,
    positions: station.positions.map((one) => ({ ...one, values: [one.installed] })),
  };
  const proposal = propose({ rows, station: bare, trims });
  if (!proposal.ok) throw new Error(proposal.help);
  const { withTrims } = proposal.value.recommended;
  expect(withTrims?.moves.length).toBeGreaterThan(0);
  const after = predictTurned(rows, design, withTrims?.moves ?? []);
  const target = (mhz: number) => 36 + (10 * (mhz - 54)) / 816;
  const worst = Math.max(
    ...after.map(({ frequencyMhz, levelDbmv }) => Math.abs((levelDbmv ?? 0) - target(frequencyMhz ?? 0))),
  );
  expect(worst).toBeCloseTo(withTrims?.worstDb ?? Number.NaN, 9);
});

// JCGM 100:2008, 4.3.7: a half-width a has the standard uncertainty a / sqrt 3; two of them add by their squares.
it('is uncertain by the hand at each trim and by what the meter repeats to', () => {
  const meter = { ...MeterUncertainty.parse({}), repeatabilityDb: 0.1 };
  const turns = ['a', 'b'].map((name) => ({ name, kind: 'gain' as const, atMhz: 870, byDb: 1 }));
  const { repeatDb, partsDb } = turnedReading({ meter, ambientC: 20 }, turns);
  expect(repeatDb).toBeCloseTo(0.1 * Math.SQRT2, 12);
  expect(partsDb).toBeCloseTo(TURNED_WITHIN_DB * Math.sqrt(2 / 3), 12);
});
