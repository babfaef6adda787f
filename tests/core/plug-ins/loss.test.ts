import { describe, expect, it } from 'vitest';
import type { Position } from '../../../core/files/station.ts';
import { lossDb } from '../../../core/plug-ins/loss.ts';
import example from '../../data/published/cable-tilt-example.json' with { type: 'json' };

const pad: Position = { name: 'pad', kind: 'pad', installed: 0, values: [0] };
const equalizer: Position = {
  name: 'equalizer',
  kind: 'equalizer',
  topMhz: 870,
  insertionLossDb: 1,
  installed: 0,
  values: [0],
};
const simulator: Position = { ...equalizer, name: 'simulator', kind: 'cable-simulator' };

// Contract section 2, with square roots that come out even: sqrt(217.5 / 870) = 1/2, sqrt(54.375 / 870) = 1/4.
describe('the formulas of the station file', () => {
  it('a pad is the same everywhere', () =>
    expect([5, 54, 870, 1218].map((f) => lossDb(pad, 6, f))).toEqual([6, 6, 6, 6]));
  it('an equalizer takes most at the low end, only its insertion loss at the top and above', () => {
    expect(lossDb(equalizer, 8, 217.5)).toBe(5);
    expect(lossDb(equalizer, 8, 54.375)).toBe(7);
    expect(lossDb(equalizer, 8, 870)).toBe(1);
    expect(lossDb(equalizer, 8, 1218)).toBe(1);
  });
  it('a cable simulator takes most at the top, and goes on above', () => {
    expect(lossDb(simulator, 8, 217.5)).toBe(5);
    expect(lossDb(simulator, 8, 870)).toBe(9);
    expect(lossDb(simulator, 8, 3480)).toBe(17);
  });
  it('value 0 is a jumper without insertion loss', () => {
    expect(lossDb(equalizer, 0, 54)).toBe(0);
    expect(lossDb(simulator, 0, 870)).toBe(0);
  });
  it('a measured curve of this value goes before the formula', () => {
    const curved: Position = {
      ...equalizer,
      curves: {
        '8': [
          [54, 7.1],
          [870, 1.0],
        ],
      },
    };
    expect(lossDb(curved, 8, 462)).toBeCloseTo(4.05, 12);
    expect(lossDb(curved, 6, 217.5)).toBe(4);
  });
});

// cabl.com "CATV Formulas": 20 dB of .750 cable, 54 to 450 MHz: loss ratio 0.333, tilt 13.4 dB, EQ = tilt / (1 - ratio).
// That ratio is of the real cable. The contract's cable is pure sqrt(f), which gives 0.3464 and 13.07 dB: 0.3 dB less.
describe('the published example of 20 dB of cable, 54 to 450 MHz', () => {
  const { cableLossDb, lowMhz, highMhz, lossRatio, tiltDb } = example;
  const cable: Position = { ...simulator, topMhz: highMhz, insertionLossDb: 0 };
  const mend: Position = { ...equalizer, topMhz: highMhz, insertionLossDb: 1 };
  const tiltOf = (position: Position, valueDb: number) =>
    lossDb(position, valueDb, highMhz) - lossDb(position, valueDb, lowMhz);

  it('is reckoned as printed: tilt 20 dB * (1 - 0.333), equalizer value 20', () => {
    // The source rounds 13.34 up to 13.4.
    expect(Math.abs(cableLossDb * (1 - lossRatio) - tiltDb)).toBeLessThan(0.1);
    expect(tiltDb / (1 - lossRatio)).toBeCloseTo(cableLossDb, 0);
  });
  it('is 13.07 dB of tilt for cable straight in sqrt f, within 0.4 dB of the published one', () => {
    expect(lossDb(cable, 20, lowMhz) / lossDb(cable, 20, highMhz)).toBeCloseTo(0.3464, 4);
    expect(tiltOf(cable, 20)).toBeCloseTo(13.07, 2);
    expect(Math.abs(tiltOf(cable, 20) - tiltDb)).toBeLessThan(0.4);
  });
  it('an equalizer of value tilt / (1 - ratio) takes exactly that tilt away', () => {
    const ratio = Math.sqrt(lowMhz / highMhz);
    const valueDb = tiltOf(cable, 20) / (1 - ratio);
    expect(valueDb).toBeCloseTo(20, 9);
    expect(tiltOf(mend, valueDb)).toBeCloseTo(-tiltOf(cable, 20), 12);
  });
  it('the same value of cable and equalizer together are flat at value plus insertion loss', () => {
    for (const f of [54, 100, 250, 450])
      expect(lossDb(cable, 20, f) + lossDb(mend, 20, f)).toBeCloseTo(21, 12);
  });
});
