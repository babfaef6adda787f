import type { DayOut } from '../../core/season/days.ts';
import type { ControlMode } from '../../core/season/plan.ts';
import type { SeasonRemedy } from '../../core/season/what-would-help.ts';
import {
  capital,
  counted,
  day,
  dayOfYear,
  decimals,
  plugIn,
  sizeDb,
  type TemperatureUnit,
  temperature,
} from '../format.ts';
import type { AsMeasured } from './as-measured.ts';
import type { SeasonView } from './season-view.ts';

export const modeWords: Record<ControlMode, string> = {
  manual: 'manual',
  thermal: 'thermal',
  auto: 'automatic',
};

/** The air that a cable's temperature stands for: at the hot end the sun is taken off again. */
const coldEnd = (view: SeasonView, cableC: number | null): number =>
  cableC === null ? view.air.coldC : Math.max(view.air.coldC, cableC);
const hotEnd = (view: SeasonView, cableC: number | null): number =>
  cableC === null ? view.air.hotC : Math.min(view.air.hotC, cableC - view.sunC);

/** Inside the year, the air at which something ends; null where the year does not go so far. */
const coldOut = (view: SeasonView, cableC: number | null): number | null =>
  cableC !== null && cableC > view.cable.coldC ? cableC : null;
const hotOut = (view: SeasonView, cableC: number | null): number | null =>
  cableC !== null && cableC < view.cable.hotC ? cableC - view.sunC : null;

const range = (fromC: number, toC: number, unit: TemperatureUnit): string =>
  `${temperature(fromC, unit).replace(/[^\d\u2212]+.*$/, '')} to ${temperature(toC, unit)}`;

/** "Holds all year, −28 to 41 °C" or "Holds only from −21 to 41 °C". */
export function seasonHeadline(view: SeasonView, unit: TemperatureUnit): string {
  const from = coldEnd(view, view.tolerance.coldC);
  const to = hotEnd(view, view.tolerance.hotC);
  if (view.help.holds) return `Holds all year, ${range(from, to, unit)}`;
  if (from >= to) return 'Does not hold on any day of such a year';
  return `Holds only from ${range(from, to, unit)}`;
}

const firstDay = (day: DayOut | null, unit: TemperatureUnit): string =>
  day === null
    ? ''
    : `, first on a day like ${dayOfYear(day.date)}, ${temperature(day.cableC, unit)} ${day.end === 'hot' ? 'in the cable' : ''}`.trimEnd();

/** Where the control runs out and where the level leaves its tolerance, each with the first such day. */
export function seasonSentences(view: SeasonView, unit: TemperatureUnit): readonly string[] {
  const { days, plan, limit, tolerance } = view;
  const said: string[] = [];
  const ends = (
    coldC: number | null,
    hotC: number | null,
    below: string,
    first: DayOut | null,
    count: number | null,
  ) => {
    const parts = [
      ...(coldC === null ? [] : [`below ${temperature(coldC, unit)}`]),
      ...(hotC === null ? [] : [`above ${temperature(hotC, unit)}`]),
    ];
    if (parts.length === 0) return;
    const often =
      count === null || count === 0 ? '' : `, on ${counted(count, 'day', 'days')} of ${view.dayCount}`;
    said.push(`${below} ${parts.join(' and ')}${firstDay(first, unit)}${often}.`);
  };
  ends(
    coldOut(view, limit.coldC),
    hotOut(view, limit.hotC),
    'The control runs out',
    days?.firstAtLimit ?? null,
    days?.daysAtLimit ?? null,
  );
  ends(
    coldOut(view, tolerance.coldC),
    hotOut(view, tolerance.hotC),
    `The level leaves ±${sizeDb(plan.design.toleranceDb)}`,
    days?.firstOutOfTolerance ?? null,
    days?.daysOutOfTolerance ?? null,
  );
  if (said.length === 0 && view.leftColdDb !== null && view.leftHotDb !== null)
    said.push(
      `On the coldest day the control still has ${sizeDb(view.leftColdDb)} to go down, on the hottest ${sizeDb(view.leftHotDb)} to go up.`,
    );
  return said;
}

/** "98 %", never all and never none: that would be more than anybody knows. */
export function chanceWords(holds: number): string {
  const percent = holds * 100;
  if (percent > 99.5) return 'over 99\u00A0%';
  if (percent < 0.5) return 'under 1\u00A0%';
  return `${Math.round(percent)}\u00A0%`;
}

const enough = (fromDb: number, toDb: number, sign: 1 | -1): string => {
  const [least, most] = sign > 0 ? [Math.max(0, fromDb), toDb] : [Math.max(0, -toDb), -fromDb];
  return most - least < 0.05 ? '' : ` (${decimals(least, 1)} to ${sizeDb(most)} does)`;
};

/** One thing that alone would be enough, with the smallest figure that is. */
export function remedyWords(remedy: SeasonRemedy): string {
  switch (remedy.kind) {
    case 'reserve': {
      const more = remedy.moveDb >= 0;
      return `Set the control ${sizeDb(remedy.moveDb)} ${more ? 'further below' : 'nearer to'} its maximum${enough(remedy.fromDb, remedy.toDb, more ? 1 : -1)}.`;
    }
    case 'pad':
      return `${capital(remedy.position)} ${plugIn(remedy.from)} to ${plugIn(remedy.to)}: the control moves ${sizeDb(remedy.moveDb)} ${remedy.moveDb > 0 ? 'down' : 'up'} in its range at the same output.`;
    case 'range': {
      const parts = [
        ...(remedy.moreUpDb > 0 ? [`${sizeDb(remedy.moreUpDb)} further up`] : []),
        ...(remedy.moreDownDb > 0 ? [`${sizeDb(remedy.moreDownDb)} further down`] : []),
      ];
      return `A control that reaches ${parts.join(' and ')}.`;
    }
    case 'tracking':
      return `A thermal control that follows ${decimals(remedy.thermalTracking, 2)} of the cable.`;
    case 'mode':
      return `The same control in ${modeWords[remedy.mode]}.`;
  }
}

/** How far the control reaches, and on whose word. */
export function reachWords(
  view: SeasonView,
  { endedAt, downIsMeasured }: AsMeasured,
  from: 'set-up' | 'file',
  now: string,
): string {
  const { upDb, downDb } = view.plan.gainControl;
  const [up, down] = [`${sizeDb(upDb)} up`, `${sizeDb(downDb)} down`];
  const when = day(endedAt, now);
  if (from === 'file') return `${up} and ${down} by the station file, not as the set-up of ${when} left it.`;
  return downIsMeasured
    ? `${up} and ${down}, as measured at the set-up of ${when}.`
    : `${up} as measured at the set-up of ${when}; ${down} by the station file, as no range test was made.`;
}
