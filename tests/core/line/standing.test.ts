import { describe, expect, it } from 'vitest';
import type { Design } from '../../../core/files/station.ts';
import { targetDbmv } from '../../../core/line/design-line.ts';
import { standingAgainstDesign } from '../../../core/line/standing.ts';

const design: Design = {
  lowMhz: 54,
  lowDbmv: 36,
  highMhz: 870,
  highDbmv: 46,
  shape: 'linear',
  toleranceDb: 1,
  flatnessDb: 2.5,
};
const sweep = (offDb: (place: number, i: number) => number, of: Design = design) =>
  Array.from({ length: 137 }, (_, i) => {
    const frequencyMhz = 54 + 6 * i;
    return { frequencyMhz, levelDbmv: targetDbmv(of, frequencyMhz) + offDb((frequencyMhz - 54) / 816, i) };
  });
const standing = (offDb: (place: number, i: number) => number, of: Design = design) => {
  const result = standingAgainstDesign(sweep(offDb, of), of);
  if (!result.ok) throw new Error(result.code);
  return result.value;
};

describe('standingAgainstDesign', () => {
  it('passes a sweep on its design', () => {
    const stands = standing((_, i) => 0.4 * Math.sin(i));
    expect(stands.verdict).toBe('pass');
    expect(stands.headline).toBe('On design: worst channel 0.4 dB');
    expect(stands.levelHigh.valueDbmv).toBeCloseTo(46, 1);
    expect(stands.levelHigh.targetDbmv).toBe(46);
    expect(stands.tilt.targetDb).toBe(10);
    expect(stands.fit).toMatchObject({ shape: 'linear', lowMhz: 54, highMhz: 870 });
  });

  it('says what is low, with value, target and deviation', () => {
    const stands = standing((place) => -2.1 * place);
    expect(stands).toMatchObject({
      verdict: 'fail',
      headline: '2.1 dB low at 870 MHz, right at the low end',
      levelLow: { verdict: 'pass' },
      levelHigh: { verdict: 'fail', targetDbmv: 46 },
      tilt: { verdict: 'fail', targetDb: 10 },
      flatness: { verdict: 'pass', targetDb: 2.5 },
      worst: { frequencyMhz: 870, verdict: 'fail' },
    });
    expect(stands.levelHigh.deviationDb).toBeCloseTo(-2.1, 9);
    expect(stands.tilt.deviationDb).toBeCloseTo(-2.1, 9);
    expect(stands.worst.deviationDb).toBeCloseTo(-2.1, 9);
  });

  it('fails by one channel, though line and flatness are right', () => {
    const stands = standing((_, i) => (i === 48 ? 1.4 : 0));
    expect(stands.verdict).toBe('fail');
    expect(stands.headline).toBe('Level and tilt right, but 1.4 dB high at 342 MHz');
  });

  it('fails by flatness alone', () => {
    const wide: Design = { ...design, toleranceDb: 4 };
    const stands = standing((_, i) => (i % 2 === 0 ? 1.5 : -1.5), wide);
    expect(stands.flatness).toMatchObject({ verdict: 'fail', targetDb: 2.5 });
    expect(stands.flatness.deviationDb).toBeCloseTo(0.5, 1);
    expect(stands.headline).toBe('Level and tilt right, flatness 3.0 of 2.5 dB');
  });

  it('takes a level exactly at the tolerance as inside', () =>
    expect(standing(() => 1).verdict).toBe('pass'));

  it('passes no part and the whole at odds: both ends at opposite tolerances are still on design', () => {
    const stands = standing((place) => 1 - 2 * place);
    expect(stands).toMatchObject({
      verdict: 'pass',
      tilt: { verdict: 'pass' },
      levelLow: { verdict: 'pass' },
    });
  });

  it('stands by the rows inside the design only, and not by a missing carrier', () => {
    const rows = [
      ...sweep(() => 0).map((row, i) => (i === 30 ? { ...row, levelDbmv: 0 } : row)),
      { frequencyMhz: 1000, levelDbmv: 10 },
    ];
    const stands = standingAgainstDesign(rows, design);
    expect(stands).toMatchObject({ ok: true, value: { verdict: 'pass', fit: { count: 136 } } });
    const all = standingAgainstDesign(rows, design, { keepAll: true });
    expect(all).toMatchObject({ ok: true, value: { verdict: 'fail', worst: { frequencyMhz: 234 } } });
  });

  it('works in the design\u2019s shape', () => {
    const cable: Design = { ...design, shape: 'cable' };
    expect(standing(() => -3, cable)).toMatchObject({
      headline: '3.0 dB low all across',
      fit: { shape: 'cable' },
    });
  });

  it('refuses what can not be fitted', () => {
    expect(standingAgainstDesign([], design)).toMatchObject({ ok: false, code: 'too-few' });
    expect(standingAgainstDesign([{ frequencyMhz: 1000, levelDbmv: 1 }], design)).toMatchObject({
      ok: false,
      code: 'too-few',
    });
  });
});
