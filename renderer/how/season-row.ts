import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { SeasonPlan } from '../../core/season/plan.ts';
import type { SeasonRow } from '../../core/season/rows.ts';
import { spanDemandDb } from '../../core/season/span.ts';
import {
  bareLevel,
  bareMhz,
  level,
  mhz,
  oneDecimal,
  signedDb,
  signedDecimal,
  type TemperatureUnit,
  temperature,
} from '../format.ts';
import { type How, plainHow } from './how.ts';
import { followedWords, seasonSource } from './season.ts';

/** A negative number inside a formula. */
const inside = (valueDb: number): string =>
  valueDb < 0 ? `(${signedDecimal(valueDb)})` : oneDecimal(valueDb);

/** One temperature of the year: what comes out at both ends of the band, and where the control stands for it. */
export function howSeasonRow(
  plan: SeasonPlan,
  row: SeasonRow,
  unit: TemperatureUnit,
  levelUnit: LevelUnitName,
): How {
  const { design, span, gainControl } = plan;
  // Decibels can be added to a level in decibels, not to millivolts.
  const summed = levelUnit === 'mV' ? 'dBmV' : levelUnit;
  const at = (frequencyMhz: number, targetDbmv: number) => {
    const demandDb = spanDemandDb(span, frequencyMhz, row.ambientC, gainControl.setAtC);
    return {
      name: mhz(frequencyMhz),
      text: `${bareLevel(targetDbmv, summed)} \u2212 ${inside(demandDb)} + ${inside(row.controlDb)} \u00B7 \u221A(${bareMhz(frequencyMhz)} / ${bareMhz(gainControl.topMhz)})`,
    };
  };
  return plainHow({
    title: `The output at ${temperature(row.ambientC, unit)}`,
    value: `${level(row.highDbmv, levelUnit)} at ${mhz(design.highMhz)}, ${level(row.lowDbmv, levelUnit)} at ${mhz(design.lowMhz)}`,
    words: `The design, less what the span takes more than at ${temperature(gainControl.setAtC, unit)}, where the control was set, and what the control adds: ${signedDb(row.controlDb)}${row.atLimit ? ', its end' : ''}. ${followedWords(plan)}`,
    formula: 'out = design \u2212 (loss now \u2212 loss when set) + c \u00B7 \u221A(f / top)',
    items: [at(design.highMhz, design.highDbmv), at(design.lowMhz, design.lowDbmv)],
    judged: `Inside within \u00B1${design.toleranceDb}\u00A0dB of the design.`,
    source: seasonSource(unit),
  });
}

/** Where the control was set: all that the year asks of it is counted from there. */
export const howSetAt = (plan: SeasonPlan, unit: TemperatureUnit, from: string): How =>
  plainHow({
    title: 'Where the control was set',
    value: temperature(plan.gainControl.setAtC, unit),
    words:
      'The temperature of the cable when the control was set. There it stands at 0 dB, and the output on its design.',
    formula: 'c = 0 at this temperature',
    source: from,
  });
