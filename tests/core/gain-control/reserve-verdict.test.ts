import { describe, expect, it } from 'vitest';
import { MeterUncertainty } from '../../../core/files/meter-uncertainty.ts';
import { reserveVerdict } from '../../../core/gain-control/reserve-verdict.ts';
import { budgetOf } from '../../../core/uncertainty/budget.ts';

const budget = (given: object = {}) => budgetOf({ meter: MeterUncertainty.parse(given), ambientC: null });

describe('a measured reserve against the rule', () => {
  // By hand: u = sqrt 2 x 0.125 = 0.17678 dB; 4.1 lies 2.2627 of them below 4.5 and 3.3941 above 3.5. The shares of a
  // normal spread beyond: 0.01183 and 0.00034 (math.erfc(x / sqrt 2) / 2 in Python 3).
  it('is good where it surely lies near what is asked for', () => {
    const judged = reserveVerdict(4.1, 4, budget());
    expect(judged).toMatchObject({ verdict: 'pass', side: 'large', measuredDb: 4.1, askedDb: 4 });
    expect(judged.uDb).toBeCloseTo(0.17678, 5);
    expect(judged.probability).toBeCloseTo(1 - 0.01183 - 0.00034, 4);
  });

  it('is undecided at the limit: half of it lies beyond', () => {
    const judged = reserveVerdict(3.5, 4, budget());
    expect(judged).toMatchObject({ verdict: 'undecided', side: 'small' });
    expect(judged.probability).toBeCloseTo(0.5, 6);
  });

  it('fails where it is surely too small or too large', () => {
    expect(reserveVerdict(2, 4, budget())).toMatchObject({ verdict: 'fail', side: 'small' });
    expect(reserveVerdict(6, 4, budget())).toMatchObject({ verdict: 'fail', side: 'large' });
  });

  it('counts nothing that both readings have in common', () => {
    const far = budget({ accuracyDb: 5, testPointToleranceDb: 3, temperatureDbPerC: 0.5, acrossBandDb: 4 });
    expect(reserveVerdict(4.1, 4, far)).toEqual(reserveVerdict(4.1, 4, budget()));
  });

  it('is decided by the reading alone with a meter that repeats exactly', () => {
    const exact = budget({ repeatabilityDb: 0 });
    expect(reserveVerdict(4.5, 4, exact)).toMatchObject({ verdict: 'pass', probability: 1, uDb: 0 });
    expect(reserveVerdict(4.51, 4, exact)).toMatchObject({ verdict: 'fail', probability: 0 });
    expect(reserveVerdict(4, 4, exact).side).toBe('even');
  });
});
