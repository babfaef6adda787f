import { describe, expect, it } from 'vitest';
import { MeterUncertainty } from '../../../core/files/meter-uncertainty.ts';
import type { Design } from '../../../core/files/station.ts';
import { targetDbmv } from '../../../core/line/design-line.ts';
import { standingAgainstDesign } from '../../../core/line/standing.ts';
import { channelUncertaintyAt, judged, standingUncertainty, together } from '../../../core/line/verdicts.ts';

const design: Design = {
  ...{ lowMhz: 54, lowDbmv: 36, highMhz: 870, highDbmv: 46, shape: 'linear' },
  ...{ toleranceDb: 1, flatnessDb: 2.5 },
};
const uncertainty = { meter: MeterUncertainty.parse({}), ambientC: 23 };
const sweep = (offDb: (place: number, i: number) => number) =>
  Array.from({ length: 137 }, (_, i) => {
    const frequencyMhz = 54 + 6 * i;
    return { frequencyMhz, levelDbmv: targetDbmv(design, frequencyMhz) + offDb(i / 136, i) };
  });
const standing = (offDb: (place: number, i: number) => number) => {
  const result = standingAgainstDesign(sweep(offDb), design, { uncertainty });
  if (!result.ok) throw new Error(result.code);
  return result.value;
};

describe('judged', () => {
  const limits = { fromDb: -1, toDb: 1 };
  it('without an uncertainty is pass or fail alone', () => {
    expect(judged(1, null, limits)).toEqual({ verdict: 'pass' });
    expect(judged(1.01, null, limits)).toEqual({ verdict: 'fail' });
  });
  it('with one is undecided near the limit, with the chance', () => {
    expect(judged(0.2, 0.3, limits).verdict).toBe('pass');
    expect(judged(1.1, 0.3, limits)).toMatchObject({ verdict: 'undecided', uDb: 0.3 });
    expect(judged(2, 0.3, limits).verdict).toBe('fail');
    expect(judged(1, 0.3, limits).probability).toBeCloseTo(0.5, 6);
  });
});

it('together is as the worse part, and as likely as the least likely', () => {
  expect(
    together([judged(0, 0.1, { fromDb: null, toDb: 1 }), judged(1, 0.1, { fromDb: null, toDb: 1 })]),
  ).toEqual({
    verdict: 'undecided',
    probability: 0.5,
  });
  expect(together([{ verdict: 'fail' }, { verdict: 'undecided' }])).toEqual({ verdict: 'fail' });
  expect(together([{ verdict: 'pass' }, { verdict: 'pass' }])).toEqual({ verdict: 'pass' });
});

describe('a standing with an uncertainty', () => {
  it('passes what is well inside, fails what is well outside, and leaves open what is near', () => {
    expect(standing(() => 0.1).verdict).toBe('pass');
    expect(standing(() => -2.5).verdict).toBe('fail');
    const near = standing(() => -0.9);
    expect(near).toMatchObject({ verdict: 'undecided', worst: { verdict: 'undecided' } });
    expect(near.probability).toBeGreaterThan(0.05);
    expect(near.headline).toMatch(
      /^Undecided: 0\.9 dB low at \d+ MHz of 1\.0 dB, and this reading is good to ±0\.\d dB$/,
    );
  });
  it('says how likely, how uncertain and from what, for every part', () => {
    const {
      levelLow,
      levelHigh,
      tilt,
      flatness,
      worst,
      uncertainty: from,
    } = standing((place) => 0.3 * place);
    for (const part of [levelLow, levelHigh, tilt, flatness, worst]) {
      expect(part.probability).toBeGreaterThan(0);
      expect(part.uDb).toBeGreaterThan(0);
    }
    // What all channels share moves no tilt.
    expect(tilt.uDb).toBeLessThan(levelHigh.uDb ?? 0);
    expect(from?.budget.contributions.length).toBe(5);
  });
  it('names flatness where that is what is open', () => {
    const open = standing((_, i) => (i === 40 ? 0.95 : i === 90 ? -0.6 : 0));
    expect(open.headline).toContain('Undecided');
    const wide = standingAgainstDesign(
      sweep((_, i) => (i % 2 === 0 ? 1.2 : -1.2)),
      { ...design, toleranceDb: 6 },
      { uncertainty },
    );
    expect(wide).toMatchObject({
      value: {
        verdict: 'undecided',
        headline: expect.stringMatching(/^Undecided: flatness 2\.4 of 2\.5 dB/),
      },
    });
  });
  it('is without one exactly as it was: no chance, no undecided', () => {
    const plain = standingAgainstDesign(
      sweep(() => -0.9),
      design,
    );
    expect(JSON.stringify(plain)).not.toMatch(/probability|uDb|undecided|uncertainty/);
  });
});

it('standingUncertainty needs two frequencies; a channel is most uncertain at the ends', () => {
  expect(standingUncertainty([0.5], [0], uncertainty)).toBeNull();
  const rows = sweep(() => 0);
  const made = standingUncertainty(
    rows.map((_, i) => i / (rows.length - 1)),
    rows.map(() => 0),
    uncertainty,
  );
  if (made === null) throw new Error('none');
  expect(channelUncertaintyAt(made.budget, design, 870)).toBeGreaterThan(
    channelUncertaintyAt(made.budget, design, 462),
  );
});
