import { describe, expect, it } from 'vitest';
import type { Design } from '../../../core/files/station.ts';
import type { Trim } from '../../../core/files/station-notes.ts';
import { propose } from '../../../core/propose/propose.ts';
import { trimEffect, trimmed, unfitTrim } from '../../../core/propose/trims.ts';
import { rows, station } from './mill-lane.ts';

const design: Design = {
  ...{ lowMhz: 54, lowDbmv: 36, highMhz: 870, highDbmv: 46, shape: 'linear' },
  ...{ toleranceDb: 1, flatnessDb: 2.5 },
};
const gain: Trim = { name: 'gain', kind: 'gain', rangeDb: [-3, 3], atMhz: 867 };
const slope: Trim = { name: 'slope', kind: 'slope', rangeDb: [-4, 4], atMhz: 870 };
const atMhz = [54, 258, 462, 666, 870];

describe('trimEffect', () => {
  it('of a gain is the same everywhere, of a slope full where it is read and nothing at the other end', () => {
    expect([...trimEffect(gain, design, atMhz)]).toEqual([1, 1, 1, 1, 1]);
    expect([...trimEffect(slope, design, atMhz)]).toEqual([0, 0.25, 0.5, 0.75, 1]);
    expect([...trimEffect({ ...slope, atMhz: 54 }, design, atMhz)]).toEqual([1, 0.75, 0.5, 0.25, -0]);
  });
});

describe('trimmed', () => {
  it('by hand: 1.3 dB too much everywhere is turned down 1.3 dB', () => {
    const found = trimmed(new Float64Array(5).fill(1.3), atMhz, design, [gain]);
    expect(found?.worstDb).toBeCloseTo(0, 9);
    expect(found?.moves).toEqual([
      {
        name: 'gain',
        kind: 'gain',
        atMhz: 867,
        byDb: expect.closeTo(-1.3, 9),
        text: 'turn down 1.3 dB at 867 MHz',
      },
    ]);
  });
  it('keeps to the range', () => {
    const found = trimmed(new Float64Array(5).fill(5), atMhz, design, [gain]);
    expect(found?.moves[0]?.byDb).toBe(-3);
    expect(found?.worstDb).toBeCloseTo(2, 9);
  });
  it('shares one turn between trims that do the same', () => {
    const second = { ...gain, name: 'second gain' };
    const found = trimmed(new Float64Array(5).fill(5), atMhz, design, [gain, second]);
    expect(found?.moves.map(({ byDb }) => byDb)).toEqual([-3, expect.closeTo(-2, 9)]);
  });
  it('turns slope and gain together', () => {
    const found = trimmed(Float64Array.of(1, 0.25, -0.5, -1.25, -2), atMhz, design, [gain, slope]);
    expect(found?.worstDb).toBeCloseTo(0, 9);
    expect(found?.moves.map(({ text }) => text)).toEqual([
      'turn down 1.0 dB at 867 MHz',
      'turn up 3.0 dB at 870 MHz',
    ]);
  });
  it('asks for no turn that buys less than a tenth', () => {
    expect(trimmed(new Float64Array(5).fill(0.09), atMhz, design, [gain])).toBeNull();
    expect(trimmed(Float64Array.of(1, -1, 1, -1, 1), atMhz, design, [gain, slope])).toBeNull();
    expect(trimmed(new Float64Array(5).fill(3), atMhz, design, [])).toBeNull();
  });
});

it('come after the plug-ins in a proposal, and never make it worse', () => {
  const plain = propose({ rows, station });
  const withTrims = propose({
    rows,
    station,
    trims: [gain, slope, { ...gain, name: 'elsewhere', port: 'forward input' }],
  });
  if (!plain.ok || !withTrims.ok) throw new Error('refused');
  const { recommended } = withTrims.value;
  expect(recommended).toMatchObject(plain.value.recommended);
  expect(plain.value.recommended.withTrims).toBeUndefined();
  expect(recommended.withTrims?.worstDb).toBeLessThan(recommended.worstDb - 0.1);
  expect(recommended.withTrims?.moves.map(({ name }) => name)).not.toContain('elsewhere');
});

it('unfitTrim names the trim that makes no sense', () => {
  expect(unfitTrim([gain, slope])).toBeNull();
  expect(unfitTrim([{ ...gain, rangeDb: [1, 2] }])).toMatchObject({ where: 'trim "gain", range' });
  expect(unfitTrim([{ ...slope, atMhz: 0 }])).toMatchObject({ where: 'trim "slope", 0 MHz' });
  expect(unfitTrim([gain, gain, gain, gain, gain])).toMatchObject({ where: '5 trims' });
});
