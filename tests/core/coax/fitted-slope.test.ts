import { expect, it } from 'vitest';
import { fittedSlope } from '../../../core/coax/fitted-slope.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';

const station = quillmere.find((one) => one.station.id === 'qm4-07-mill-lane')?.station;
if (station === undefined) throw new Error('no station');

// Contract, section 2: an equalizer v takes away v (1 - sqrt(f/top)); sqrt(54/870) = 0.249136, so 0.750864 dB a dB.
it('adds up the equalizers that the signal has passed', () => {
  const pluggedIn = { 'input equalizer': 12, 'interstage equalizer': 6, 'input pad': 9 };
  const { parts, slopeDb } = fittedSlope(station, 'forward output', pluggedIn, 54, 870);
  expect(parts.map(({ position }) => position)).toEqual(['input equalizer', 'interstage equalizer']);
  expect(slopeDb).toBeCloseTo(18 * 0.750864, 4);
});

it('counts a cable simulator against them, and takes what the file says where nothing else is known', () => {
  const positions = station.positions.map((one) =>
    one.name === 'interstage equalizer'
      ? { ...one, kind: 'cable-simulator' as const, topMhz: 870, insertionLossDb: 1, installed: 3 }
      : one,
  );
  const { parts } = fittedSlope({ ...station, positions }, 'forward output', {}, 54, 870);
  expect(parts.at(-1)).toMatchObject({ kind: 'cable-simulator', valueDb: 3 });
  expect(parts.at(-1)?.slopeDb).toBeCloseTo(-3 * 0.750864, 4);
});

it('is nothing at a port that is fed through no part, or that there is not', () => {
  for (const port of ['forward input', 'attic'])
    expect(fittedSlope(station, port, {}, 54, 870)).toEqual({ parts: [], slopeDb: 0 });
});
