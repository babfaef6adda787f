import { describe, expect, it } from 'vitest';
import { adviseGainControl, type GainControlAsked, middleIn } from '../../../core/gain-control/advise.ts';

const advice = (asked: GainControlAsked) => {
  const result = adviseGainControl(asked);
  if (!result.ok) throw new Error(result.help);
  return result.value;
};

describe('advice on a gain control', () => {
  it('leaves null what was not asked for', () => {
    expect(advice({ topMhz: 870 })).toMatchObject({
      reserveDb: 4,
      reserveBasis: 'practice',
      ambientOffsetDb: null,
      ambientBasis: null,
      spanOffsetDb: null,
      range: null,
    });
  });

  it('joins the parts; the same day in C and in F is the same', () => {
    const asked = { topMhz: 750, spanDb: 22, rangeUpDb: 4, rangeDownDb: 6 };
    const inC = advice({ ...asked, ambientC: 40 });
    expect(inC).toMatchObject({ reserveDb: 3.5, ambientOffsetDb: 2, ambientBasis: 'practice' });
    expect(inC.spanOffsetDb).toBeCloseTo(1.062864, 12);
    expect(inC.range).toEqual({ verdict: 'pass', upDb: 4, downDb: 6, totalDb: 10 });
    expect(advice({ ...asked, ambientF: 104 }).spanOffsetDb).toBeCloseTo(1.062864, 12);
    // 60 °F: the middle is told in the degrees in which the day was told.
    expect(advice({ topMhz: 870, spanDb: 60, ambientF: -22 }).notes.join(' ')).toContain('against 60 °F.');
    expect(advice({ topMhz: 870, spanDb: 60, ambientC: -30 }).notes.join(' ')).toContain('against 15.6 °C.');
    expect([middleIn({}), middleIn({ ambientF: 0 })]).toEqual(['15.6 °C', '60 °F']);
  });

  it('says that its rules are practice', () => {
    expect(advice({ topMhz: 870 }).notes.join(' ')).toContain('common practice, no published source');
  });

  it('says so where rule and physics differ by more than 1 dB, and only there', () => {
    // 10 dB at 40 C: physics +0.48, the rule +2.
    expect(advice({ topMhz: 870, ambientC: 40, spanDb: 10 }).notes.join(' ')).toMatch(/disagree by 1\.5 dB/);
    expect(advice({ topMhz: 870, ambientC: 40, spanDb: 22 }).notes.join(' ')).not.toMatch(/disagree/);
  });

  it('says that the range limits are those of 750 to 870 MHz', () => {
    const range = { rangeUpDb: 4, rangeDownDb: 6 };
    expect(advice({ topMhz: 1000, ...range }).notes.join(' ')).toMatch(/750 to 870 MHz/);
    expect(advice({ topMhz: 1000 }).notes.join(' ')).not.toMatch(/750 to 870 MHz/);
    for (const topMhz of [750, 870])
      expect(advice({ topMhz, ...range }).notes.join(' ')).not.toMatch(/750 to 870 MHz/);
  });

  it.each<[GainControlAsked, string]>([
    [{ topMhz: 0 }, 'bad-top'],
    [{ topMhz: Number.NaN }, 'bad-top'],
    [{ topMhz: 870, ambientC: 20, ambientF: 68 }, 'bad-ambient'],
    [{ topMhz: 870, ambientC: Number.NaN }, 'bad-ambient'],
    [{ topMhz: 870, ambientF: -500 }, 'bad-ambient'],
    [{ topMhz: 870, spanDb: 22 }, 'bad-span'],
    [{ topMhz: 870, ambientC: 20, spanDb: -1 }, 'bad-span'],
    [{ topMhz: 870, ambientC: 20, spanDb: 22, perDegreeC: 2 }, 'bad-span'],
    [{ topMhz: 870, rangeUpDb: 4 }, 'bad-range'],
    [{ topMhz: 870, rangeUpDb: 4, rangeDownDb: -6 }, 'bad-range'],
    [{ topMhz: 870, rangeUpDb: 4, rangeDownDb: 6, uncertaintyDb: -1 }, 'bad-range'],
  ])('refuses %o as %s', (asked, code) => {
    const result = adviseGainControl(asked);
    expect(result.ok ? 'taken' : result.code).toBe(code);
  });
});
