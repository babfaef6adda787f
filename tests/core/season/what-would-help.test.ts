import { describe, expect, it } from 'vitest';
import type { Station } from '../../../core/files/station.ts';
import { limitTemperatures, toleranceTemperatures } from '../../../core/season/limits.ts';
import { type GainControl, seasonPlan } from '../../../core/season/plan.ts';
import { type SeasonRemedy, whatWouldHelp } from '../../../core/season/what-would-help.ts';
import { harbourStation } from './harbour-station.ts';

const planOf = (station: Station) => {
  const plan = seasonPlan(station);
  if (!plan.ok) throw new Error(plan.help);
  return plan.value;
};
const cable = { coldC: -30, hotC: 55 };
const help = (control: Partial<GainControl>, lossDb = 60) => {
  const station = harbourStation(control, { lossDb });
  return whatWouldHelp(station, planOf(station), cable);
};
const holds = (control: Partial<GainControl>, lossDb = 60) => {
  const { hotC, coldC } = toleranceTemperatures(planOf(harbourStation(control, { lossDb })));
  return (hotC ?? 999) >= cable.hotC - 1e-9 && (coldC ?? -999) <= cable.coldC + 1e-9;
};
const found = <K extends SeasonRemedy['kind']>(remedies: readonly SeasonRemedy[], kind: K) =>
  remedies.find((one): one is Extract<SeasonRemedy, { kind: K }> => one.kind === kind);

// 60 dB * 0.002 = 0.12 dB a degree; 35 degrees up: 4.2 dB; 50 degrees down: 6 dB.
describe('what would help', () => {
  it('is nothing where it holds', () => {
    expect(help({ upDb: 4, downDb: 6 })).toMatchObject({ holds: true, remedies: [] });
    expect(help({ upDb: 4, downDb: 6 }).hotDemandDb).toBeCloseTo(4.2, 12);
    expect(help({ upDb: 4, downDb: 6 }).coldDemandDb).toBeCloseTo(6, 12);
  });

  it('is more reserve, by exactly what is missing beyond the tolerance', () => {
    const { holds: held, remedies } = help({ upDb: 2, downDb: 8 });
    expect(held).toBe(false);
    const reserve = found(remedies, 'reserve');
    // 4.2 - 1 - 2 = 1.2 dB; at most 8 + 1 - 6 = 3 dB.
    expect(reserve?.moveDb).toBeCloseTo(1.2, 10);
    expect(reserve?.fromDb).toBeCloseTo(1.2, 10);
    expect(reserve?.toDb).toBeCloseTo(3, 10);
    expect(holds({ upDb: 3.2, downDb: 6.8 })).toBe(true);
    expect(holds({ upDb: 3.19, downDb: 6.81 })).toBe(false);
    expect(holds({ upDb: 5.01, downDb: 4.99 })).toBe(false);
  });

  it('is the pad of the kit in front of the stage that changes least', () => {
    const { remedies } = help({ upDb: 2, downDb: 8 });
    expect(found(remedies, 'pad')).toMatchObject({ position: 'input pad', from: 6, to: 4, moveDb: 2 });
    expect(remedies.filter((one) => one.kind === 'pad')).toHaveLength(1);
  });

  it('is less reserve where the cold end is short', () => {
    const { remedies } = help({ upDb: 6, downDb: 3 });
    expect(found(remedies, 'reserve')?.moveDb).toBeCloseTo(-2, 10);
    expect(found(remedies, 'pad')).toMatchObject({ from: 6, to: 8 });
  });

  it('is a control of more range where no setting does', () => {
    const { remedies } = help({ upDb: 2, downDb: 3 });
    expect(found(remedies, 'reserve')).toBeUndefined();
    expect(found(remedies, 'pad')).toBeUndefined();
    const range = found(remedies, 'range');
    expect(range?.moreUpDb).toBeCloseTo(1.2, 10);
    expect(range?.moreDownDb).toBeCloseTo(2, 10);
    expect(holds({ upDb: 3.2, downDb: 5 })).toBe(true);
  });

  it('is a closer tracking, or the automatic mode, for a thermal control', () => {
    const { remedies } = help({ mode: 'thermal', thermalTracking: 0.5, upDb: 6, downDb: 8 });
    const tracking = found(remedies, 'tracking')?.thermalTracking ?? 0;
    expect(tracking).toBeCloseTo(1 - 1 / 6, 10);
    expect(holds({ mode: 'thermal', thermalTracking: tracking + 1e-9, upDb: 6, downDb: 8 })).toBe(true);
    expect(holds({ mode: 'thermal', thermalTracking: tracking - 1e-3, upDb: 6, downDb: 8 })).toBe(false);
    expect(found(remedies, 'mode')).toEqual({ kind: 'mode', mode: 'auto' });
  });

  it('is the automatic mode for a manual control, where that has the range', () => {
    expect(help({ mode: 'manual' }).remedies).toEqual([{ kind: 'mode', mode: 'auto' }]);
    expect(help({ mode: 'manual', upDb: 1, downDb: 1 }).remedies).toEqual([]);
  });

  it('keeps the control off its limit as well, where a remedy goes to the full demand', () => {
    const ends = limitTemperatures(planOf(harbourStation({ upDb: 4.2, downDb: 6 }, { lossDb: 60 })));
    expect(ends.hotC).toBeCloseTo(55, 9);
    expect(ends.coldC).toBeCloseTo(-30, 9);
  });
});
