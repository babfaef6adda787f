import { describe, expect, it } from 'vitest';
import type { ClimateDay } from '../../../core/files/climate.ts';
import { installedOf } from '../../../core/files/station.ts';
import { chanceFrom } from '../../../core/season/chance.ts';
import { type SeasonDays, seasonDays } from '../../../core/season/days.ts';
import { seasonPlan } from '../../../core/season/plan.ts';
import { cableTemperatures } from '../../../core/season/sun.ts';
import { simulatedPortDbmv } from '../../../core/simulate/level.ts';
import { type DemoStation, quillmere } from '../../../core/simulate/quillmere.ts';

/** Invented weather: a year around 8 degrees C with cold spells, from a seed. */
function yearOf(seed: number): ClimateDay[] {
  const chance = chanceFrom(seed);
  let spellC = 0;
  return Array.from({ length: 365 }, (_, day) => {
    spellC = 0.8 * spellC + 3 * chance.normal();
    const meanC = 8 - 16 * Math.cos((2 * Math.PI * (day - 20)) / 365) + spellC;
    const date = new Date(Date.UTC(2026, 0, 1 + day)).toISOString().slice(0, 10);
    return { date, minC: meanC - 5, maxC: meanC + 6 };
  });
}

const SUN_C = 12;

/** The days on which the simulated station, at its cold or its hot hour, is further from its set level than that. */
function daysOff(
  { station, scenario }: DemoStation,
  days: readonly ClimateDay[],
  furtherThanDb: number,
): string[] {
  const plan = seasonPlan(station);
  if (!plan.ok) throw new Error(plan.help);
  const { portName, design, span, gainControl } = plan.value;
  const levelAt = (ambientC: number) =>
    simulatedPortDbmv(
      scenario,
      { station, portName, pluggedIn: installedOf(station), ambientC },
      design.highMhz,
    ) ?? Number.NaN;
  const setDbmv = levelAt(gainControl.setAtC);
  return days
    .filter((day) => {
      const cable = cableTemperatures({ coldC: day.minC, hotC: day.maxC }, span.sky, SUN_C);
      return [cable.coldC, cable.hotC].some((c) => Math.abs(levelAt(c) - setDbmv) > furtherThanDb);
    })
    .map((day) => day.date);
}

const namedIn = (demo: DemoStation, days: readonly ClimateDay[]): SeasonDays => {
  const plan = seasonPlan(demo.station);
  if (!plan.ok) throw new Error(plan.help);
  return seasonDays(plan.value, days, SUN_C);
};

// The simulated network computes its levels by itself; the season view is held against it day by day.
describe('a simulated year of the demo network', () => {
  const year = yearOf(4);
  const controlled = quillmere.filter(({ station }) => station.gainControl !== undefined);
  const short = controlled.filter(({ station }) => (station.gainControl?.downDb ?? 9) < 1);

  it('has one station that lacks reserve, which fails on the day that the season view names', () => {
    expect(short).toHaveLength(1);
    for (const demo of short) {
      const named = namedIn(demo, year);
      const atLimit = daysOff(demo, year, 1e-9);
      const outside = daysOff(demo, year, 1);
      expect(named.firstAtLimit?.date).toBe(atLimit[0]);
      expect(named.firstAtLimit?.end).toBe('cold');
      expect(named.daysAtLimit).toBe(atLimit.length);
      expect(named.firstOutOfTolerance?.date).toBe(outside[0]);
      expect(named.daysOutOfTolerance).toBe(outside.length);
      expect(outside.length).toBeGreaterThan(0);
    }
  });

  it('holds at every other station, as the season view says', () => {
    const others = controlled.filter((demo) => !short.includes(demo));
    expect(others.length).toBeGreaterThan(2);
    for (const demo of others) {
      expect(namedIn(demo, year).firstOutOfTolerance).toBeNull();
      expect(daysOff(demo, year, 1)).toEqual([]);
      expect(namedIn(demo, year).firstAtLimit?.date).toBe(daysOff(demo, year, 1e-9)[0]);
    }
  });
});
