import { demandPerDegreeDb, toleranceAtControlTopDb } from '../../core/season/limits.ts';
import type { SeasonChance, SeasonUncertainty } from '../../core/season/monte-carlo.ts';
import type { SeasonPlan } from '../../core/season/plan.ts';
import { RATED_C } from '../../core/season/span.ts';
import { SUN_OFFSET_C } from '../../core/season/sun.ts';
import { LEAST_SWING_C, type Swing } from '../../core/watch/swing.ts';
import { mhz, plusMinus, sizeDb, type TemperatureUnit, temperature, whole } from '../format.ts';
import { aDegree, degrees } from './degrees.ts';
import { type How, PRACTICE, plainHow } from './how.ts';

/** On what a year's figures rest. */
export const seasonSource = (unit: TemperatureUnit): string =>
  `The cable: loss \u00B7 \u221A(f / top) \u00B7 (1 + coefficient \u00B7 (T \u2212 ${temperature(RATED_C, unit)})). The control at the top frequency acts as c \u00B7 \u221A(f / top). The coefficient: the station file, else 0.0011 a \u00B0F (tech tip \u201CCoaxial Cable Attenuation Changes versus Temperature\u201D, publisher not shown).`;

/** How much of the cable's change the control follows. */
export const followedWords = ({ gainControl, thermalTracking }: SeasonPlan): string => {
  switch (gainControl.mode) {
    case 'manual':
      return 'A manual control follows nothing.';
    case 'auto':
      return 'An automatic control follows all of it, until it is at an end.';
    case 'thermal':
      return `A thermal control follows ${thermalTracking ?? 0} of it, until it is at an end.`;
  }
};

const perDegree = (plan: SeasonPlan, unit: TemperatureUnit): string =>
  `${aDegree(demandPerDegreeDb(plan), unit, 4)}`;

/** Between which temperatures the output stays inside its tolerance. */
export const howHolds = (
  plan: SeasonPlan,
  ends: Readonly<{ coldC: number | null; hotC: number | null }>,
  unit: TemperatureUnit,
): How => {
  const { setAtC, upDb, downDb } = plan.gainControl;
  const end = (atC: number | null) => (atC === null ? 'never' : temperature(atC, unit));
  return plainHow({
    title: 'Where the level stays inside',
    value: `${end(ends.coldC)} to ${end(ends.hotC)}, in the cable`,
    words: `From ${temperature(setAtC, unit)}, where it was set, the span in front changes by ${perDegree(plan, unit)}, in dB at ${mhz(plan.gainControl.topMhz)}. ${followedWords(plan)}`,
    formula: `(${sizeDb(upDb)} up, ${sizeDb(downDb)} down, and the tolerance of ${sizeDb(toleranceAtControlTopDb(plan))}) / change a degree`,
    judged: `The output may leave the design by \u00B1${sizeDb(plan.design.toleranceDb)} at ${mhz(plan.design.highMhz)}, where the error is largest.`,
    source: seasonSource(unit),
  });
};

/** Where the control is at its end. */
export const howLimits = (
  plan: SeasonPlan,
  ends: Readonly<{ coldC: number | null; hotC: number | null }>,
  unit: TemperatureUnit,
): How => {
  const { setAtC, upDb, downDb } = plan.gainControl;
  const end = (atC: number | null) => (atC === null ? 'never' : temperature(atC, unit));
  return plainHow({
    title: 'Where the control runs out',
    value: `cold ${end(ends.coldC)}, hot ${end(ends.hotC)}, in the cable`,
    words: `What it can still do from ${temperature(setAtC, unit)}, where it was set: ${sizeDb(upDb)} up, ${sizeDb(downDb)} down. ${followedWords(plan)}`,
    formula: `reach / (followed part \u00B7 ${perDegree(plan, unit)})`,
    source: seasonSource(unit),
  });
};

/** What the cable asks for over the year. */
export const howDemand = (
  plan: SeasonPlan,
  demand: Readonly<{ coldDemandDb: number; hotDemandDb: number }>,
  unit: TemperatureUnit,
): How =>
  plainHow({
    title: 'What the cable asks for',
    value: `${sizeDb(demand.coldDemandDb)} down, ${sizeDb(demand.hotDemandDb)} up`,
    words: `How much less the span loses on the coldest day, and how much more on the hottest, than at ${temperature(plan.gainControl.setAtC, unit)}, where the control was set.`,
    formula: `${sizeDb(plan.span.lossDb)} \u00B7 \u221A(${plan.gainControl.topMhz} / ${plan.span.topMhz}) \u00B7 ${aDegree(plan.span.perDegreeC, unit)} \u00B7 (T \u2212 ${temperature(plan.gainControl.setAtC, unit)})`,
    source: seasonSource(unit),
  });

/** The chance of holding all year. */
export const howChance = (
  chance: SeasonChance,
  spread: SeasonUncertainty,
  plan: SeasonPlan,
  unit: TemperatureUnit,
  said: string,
): How =>
  plainHow({
    title: 'Chance of holding all year',
    value: said,
    words: `${whole(chance.runs)} such years are drawn, each with figures as uncertain as these are, and counted how many hold. Always the same draw, so that the same figures give the same chance.`,
    formula: 'years that hold / years drawn',
    items: [
      { name: 'Loss of the span', text: `${plusMinus(spread.spanLossDb)}\u00A0dB` },
      { name: 'Where the control was set', text: `${plusMinus(spread.reserveDb)}\u00A0dB` },
      { name: 'Thermometer', text: `\u00B1${degrees(spread.setAtC, unit)}` },
      {
        name: 'Coefficient',
        text: `\u00B1${((spread.perDegreeC / plan.span.perDegreeC) * 100).toFixed(0)}\u00A0%`,
      },
      { name: 'Too hot for it', text: `${Math.round(chance.failsHot * 100)} of 100` },
      { name: 'Too cold for it', text: `${Math.round(chance.failsCold * 100)} of 100` },
    ],
    source: `Propagation of distributions by a Monte Carlo method, JCGM 101:2008. The four spreads, standard deviations: ${PRACTICE.toLowerCase()}`,
  });

/** By how much full sun warms a cable. */
export const howSun = (sunC: number, unit: TemperatureUnit): How =>
  plainHow({
    title: 'What the sun adds',
    value: degrees(sunC, unit),
    words:
      'By how much full sun makes a dark cable in the air warmer than the air. It is added at the hot end only; a buried cable is taken as warm as the air.',
    formula: 'cable = air + sun, on the hottest day',
    source: `The figure that stands in the bar above. The ${degrees(SUN_OFFSET_C, unit)} it begins with: from memory, no published source.`,
  });

/** How much of the weather the control took out. */
export const howSwing = (
  swing: Swing,
  frequencyMhz: number,
  span: Readonly<{ lossDb: number; topMhz: number; perDegreeC: number }>,
  unit: TemperatureUnit,
): How =>
  plainHow({
    title: 'What the control took out',
    value: `${Math.round(Math.max(0, swing.takenOut) * 100)}\u00A0%`,
    words: `The line through the levels of ${mhz(frequencyMhz)} over the temperatures that were noted, ${temperature(swing.coldestC, unit)} to ${temperature(swing.hottestC, unit)}, against what the cable alone would have made of it.`,
    formula: `1 \u2212 ${sizeDb(swing.levelDb)} / ${sizeDb(swing.withoutControlDb)}; the cable: ${sizeDb(span.lossDb)} \u00B7 \u221A(${frequencyMhz} / ${span.topMhz}) \u00B7 ${aDegree(span.perDegreeC, unit)} \u00B7 ${degrees(swing.hottestC - swing.coldestC, unit)}`,
    judged: `More than half counts as working. It is told from ${degrees(LEAST_SWING_C, unit)} between the coldest and the hottest on.`,
    source: `Readings: ordinary least squares. The half and the ${degrees(LEAST_SWING_C, unit)}: ${PRACTICE.toLowerCase()}`,
  });
