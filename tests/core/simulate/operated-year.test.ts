import { describe, expect, it } from 'vitest';
import type { ClimateDay } from '../../../core/files/climate.ts';
import { installedOf, type Station } from '../../../core/files/station.ts';
import { chanceFrom } from '../../../core/season/chance.ts';
import { seasonDays } from '../../../core/season/days.ts';
import { seasonPlan } from '../../../core/season/plan.ts';
import { cableTemperatures } from '../../../core/season/sun.ts';
import { modulePositionDb, type TimedHand } from '../../../core/simulate/gain-module.ts';
import { simulatedPortDbmv } from '../../../core/simulate/level.ts';
import { operatedStation } from '../../../core/simulate/operated.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';

const demo = quillmere.find(({ station }) => station.id === 'qm4-19-lighthouse-rise');
if (demo === undefined) throw new Error('the lighthouse is gone');
const { station, scenario } = demo;
const SUN_C = 12;
const LONG_AFTER_MS = 3_600_000;

/** Invented weather of a cold harbour: a year around 2 degrees C with spells, from a seed. */
function yearOf(seed: number): ClimateDay[] {
  const chance = chanceFrom(seed);
  let spellC = 0;
  return Array.from({ length: 365 }, (_, day) => {
    spellC = 0.8 * spellC + 3 * chance.normal();
    const meanC = 2 - 20 * Math.cos((2 * Math.PI * (day - 20)) / 365) + spellC;
    const date = new Date(Date.UTC(2026, 0, 1 + day)).toISOString().slice(0, 10);
    return { date, minC: meanC - 6, maxC: meanC + 7 };
  });
}
/** The output at the top with a cable of that temperature, and whether the control stands at a stop. */
function settledAt(hands: readonly TimedHand[], cableC: number) {
  const operated = operatedStation(station, scenario, hands, cableC)?.(LONG_AFTER_MS);
  if (operated === undefined) throw new Error('no gain control');
  const { controlDb, module } = operated;
  const pluggedIn = installedOf(station);
  const probe = { station, portName: 'forward output', pluggedIn, ambientC: cableC, controlDb };
  const positionDb = modulePositionDb(module);
  const { upDb, downDb } = module.reach;
  return {
    levelDbmv: simulatedPortDbmv(operated.scenario, probe, 870) ?? Number.NaN,
    atStop: Math.min(Math.abs(positionDb - upDb), Math.abs(positionDb + downDb)) < 1e-6,
  };
}
/** The days of a simulated year on which the settled station is at a stop, or off its set level by more than 1 dB. */
function lived(hands: readonly TimedHand[], days: readonly ClimateDay[], setAtC: number) {
  const setDbmv = settledAt(hands, setAtC).levelDbmv;
  const hours = (day: ClimateDay) => {
    const cable = cableTemperatures({ coldC: day.minC, hotC: day.maxC }, station.span?.sky, SUN_C);
    return [cable.coldC, cable.hotC].map((cableC) => settledAt(hands, cableC));
  };
  const where = (out: (hour: ReturnType<typeof settledAt>) => boolean) =>
    days.filter((day) => hours(day).some(out)).map(({ date }) => date);
  return {
    atStop: where(({ atStop }) => atStop),
    outside: where(({ levelDbmv }) => Math.abs(levelDbmv - setDbmv) > 1),
  };
}
function named(gainControl: NonNullable<Station['gainControl']>, days: readonly ClimateDay[]) {
  const plan = seasonPlan({ ...station, gainControl });
  if (!plan.ok) throw new Error(plan.help);
  return seasonDays(plan.value, days, SUN_C);
}

const asDesigned = station.gainControl;
if (asDesigned === undefined) throw new Error('the lighthouse has no gain control');

// The module is operated by hands and lives through the year by itself; the season view is held against it.
describe('a simulated year at the station that lacks reserve', () => {
  const days = yearOf(4);
  const cold: Omit<TimedHand, 'hand'> = { atMs: 0, ambientC: -18 };
  /** A set-up in the frost: a new module, the maximum, back by 4 dB and by 2 dB for the day, then automatic. */
  const setUp: TimedHand[] = [
    { ...cold, hand: { act: 'mode', mode: 'manual' } },
    { ...cold, hand: { act: 'exchange', upDb: 4.2, downDb: 6.3 } },
    { ...cold, hand: { act: 'turn', turnDb: 99 } },
    { ...cold, hand: { act: 'turn', turnDb: -4 } },
    { ...cold, hand: { act: 'turn', turnDb: -2 } },
    { ...cold, hand: { act: 'mode', mode: 'auto' } },
  ];

  it('fails first on the day that the season view names, while nobody has been there', () => {
    const view = named(asDesigned, days);
    const { atStop, outside } = lived([], days, asDesigned.setAtC);
    expect(outside.length).toBeGreaterThan(0);
    expect(view.firstOutOfTolerance?.date).toBe(outside[0]);
    expect(view.daysOutOfTolerance).toBe(outside.length);
    expect(view.firstAtLimit?.date).toBe(atStop[0]);
    expect(view.daysAtLimit).toBe(atStop.length);
  });

  it('holds all year after the set-up, as the season view says from what the set-up measured', () => {
    // 6.0 dB below the maximum and 4.5 above the low end, on a day of -18: what the range test and the reserve give.
    const view = named({ ...asDesigned, upDb: 6, downDb: 4.5, setAtC: -18 }, days);
    expect(view.firstOutOfTolerance).toBeNull();
    expect(lived(setUp, days, -18).outside).toEqual([]);
    expect(view.daysAtLimit).toBe(lived(setUp, days, -18).atStop.length);
  });

  it('fails where the same module was set up without its reserve, again on the day that is named', () => {
    const greedy = setUp.map((one) =>
      one.hand.act === 'turn' && one.hand.turnDb < 0 ? { ...one, hand: { ...one.hand, turnDb: -0.5 } } : one,
    );
    const view = named({ ...asDesigned, upDb: 1, downDb: 9.5, setAtC: -18 }, days);
    const { outside } = lived(greedy, days, -18);
    expect(outside.length).toBeGreaterThan(0);
    expect(view.firstOutOfTolerance).toMatchObject({ date: outside[0], end: 'hot' });
    expect(view.daysOutOfTolerance).toBe(outside.length);
  });
});
