import type { SheetSource } from '../../core/bridge/conditions.ts';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { Design } from '../../core/files/station.ts';
import type { SweepFit } from '../../core/line/fit-sweep.ts';
import { positionOf } from '../../core/line/position.ts';
import type { StationStanding } from '../../core/line/standing.ts';
import type { Judged } from '../../core/line/verdicts.ts';
import { chanceWords } from '../../core/uncertainty/conformity.ts';
import { type Figure, goodToDb, sharesOf } from '../../core/uncertainty/shares.ts';
import {
  bareLevel,
  bareMhz,
  counted,
  level,
  mhz,
  oneDecimal,
  plusMinus,
  signedDb,
  sizeDb,
} from '../format.ts';
import { type How, plainHow } from './how.ts';

/** Where the numbers of uncertainty of the shown sweep come from; null where nothing is known of the meter. */
export type Seen = SheetSource | null;

const sheetWords = (seen: Seen): string | null => {
  switch (seen?.from) {
    case undefined:
      return null;
    case 'station':
      return 'The meter\u2019s numbers are those of this station\u2019s notes.';
    case 'model':
      return `The meter\u2019s numbers are those of the sheet of ${seen.model}, in the settings.`;
    case 'defaults':
      return 'This meter has no sheet of its own: the numbers for any meter were taken, common practice without a published source unless the settings say otherwise.';
  }
};

const FIT_SOURCE = 'Line: ordinary least squares. ';
const JCGM =
  'Uncertainty: JCGM 100:2008, 5.1.2. Chance: JCGM 106:2012, 7.2 to 7.4 (section numbers from memory); good or not from 95 in 100.';

/** How each figure of a standing came about, for its popover. */
export function howFigures(standing: StationStanding, design: Design, unit: LevelUnitName, seen: Seen) {
  const { fit, levelLow, levelHigh, tilt, flatness, worst, uncertainty, signals } = standing;
  const s = fit.shape === 'linear' ? (f: string) => f : (f: string) => `\u221A${f}`;
  const across = `(${s('f')} \u2212 ${s(bareMhz(fit.lowMhz))}) / (${s(bareMhz(fit.highMhz))} \u2212 ${s(bareMhz(fit.lowMhz))})`;
  // Decibels can be added to a level in decibels, not to millivolts.
  const summed = unit === 'mV' ? 'dBmV' : unit;
  const line = `${level(fit.lowDbmv, summed)} + ${oneDecimal(fit.tiltDb)} dB \u00B7 ${across}`;
  const rows = counted(fit.count, 'channel', 'channels');
  const moved =
    signals === undefined
      ? ''
      : ' Each kind of signal was first moved onto one line by what it is carried below it.';

  const make = (
    figure: Figure,
    judged: Judged,
    parts: Pick<How, 'title' | 'words' | 'formula'> &
      Readonly<{ value: string; inUnit: string; limits: string; source: string }>,
  ): How => {
    const { uDb, probability } = judged;
    const position = positionOf(worst.frequencyMhz, design.shape, design.lowMhz, design.highMhz);
    return {
      title: parts.title,
      value: uDb === undefined ? parts.inUnit : `${parts.inUnit} ${plusMinus(goodToDb(uDb))}\u00A0dB`,
      words: `${parts.words}${moved}`,
      formula: parts.formula,
      judged:
        probability === undefined
          ? `${parts.limits}.`
          : `${parts.limits}. The chance that it lies inside is ${chanceWords(probability)}.`,
      items: [],
      shares:
        uncertainty === undefined ? [] : sharesOf(figure, uncertainty.budget, uncertainty.errors, position),
      uDb: uDb ?? null,
      sheet: sheetWords(seen),
      source: `${parts.source}${uDb === undefined ? '' : JCGM}`,
    };
  };
  const either = `${sizeDb(design.toleranceDb)} either way is allowed`;
  const levelParts = (title: string, atMhz: number, valueDbmv: number, targetDbmv: number) => ({
    title,
    words: `The straight line through ${rows}, read off at ${mhz(atMhz)}.`,
    formula: `L(f) = ${line}`,
    value: bareLevel(valueDbmv, unit),
    inUnit: level(valueDbmv, unit),
    limits: `The design wants ${level(targetDbmv, unit)}; ${either}`,
    source: FIT_SOURCE,
  });
  return {
    worst: make('worst', worst, {
      title: 'Worst channel',
      words: `Of all channels the one farthest from what the design wants there: the one at ${mhz(worst.frequencyMhz)}. It and the flatness decide the verdict.`,
      formula: 'greatest |level \u2212 target(f)|',
      value: signedDb(worst.deviationDb),
      inUnit: signedDb(worst.deviationDb),
      limits: `The design allows ${sizeDb(design.toleranceDb)} either way`,
      source: 'Rule: common practice, no published source. ',
    }),
    levelHigh: make(
      'level-high',
      levelHigh,
      levelParts('Level, high', fit.highMhz, levelHigh.valueDbmv, levelHigh.targetDbmv),
    ),
    levelLow: make(
      'level-low',
      levelLow,
      levelParts('Level, low', fit.lowMhz, levelLow.valueDbmv, levelLow.targetDbmv),
    ),
    tilt: make('tilt', tilt, {
      title: 'Tilt',
      words: `What the line through ${rows} rises from ${mhz(fit.lowMhz)} to ${mhz(fit.highMhz)}. Errors that all channels share fall out.`,
      formula: `${bareLevel(fit.highDbmv, summed)} \u2212 ${level(fit.lowDbmv, summed)} = ${oneDecimal(fit.tiltDb)} dB`,
      value: oneDecimal(tilt.valueDb),
      inUnit: sizeSigned(tilt.valueDb),
      limits: `The design wants ${oneDecimal(tilt.targetDb)} dB; twice the tolerance, ${sizeDb(2 * design.toleranceDb)} either way, is allowed, because two ends inside theirs can differ by no more`,
      source: FIT_SOURCE,
    }),
    flatness: make('flatness', flatness, {
      title: 'Flatness',
      words: `Peak to valley of ${rows} about their own line.`,
      formula: 'greatest \u2212 least of (level \u2212 L(f))',
      value: oneDecimal(flatness.valueDb),
      inUnit: sizeDb(flatness.valueDb),
      limits: `The design allows ${sizeDb(flatness.targetDb)}`,
      source: FIT_SOURCE,
    }),
  };
}

/** How each figure of a line came about where no design says what it should be. */
export function howLine(fit: SweepFit, unit: LevelUnitName) {
  const rows = counted(fit.count, 'channel', 'channels');
  const make = (title: string, value: string, words: string, formula: string): How =>
    plainHow({
      title,
      value,
      words: `${words} No design says what it should be.`,
      formula,
      source: FIT_SOURCE.trim(),
    });
  const at = (title: string, valueDbmv: number, atMhz: number) =>
    make(
      title,
      level(valueDbmv, unit),
      `The straight line through ${rows}, read off at ${mhz(atMhz)}.`,
      'L(f) = a + b \u00B7 x(f)',
    );
  return {
    levelHigh: at('Level, high', fit.highDbmv, fit.highMhz),
    levelLow: at('Level, low', fit.lowDbmv, fit.lowMhz),
    tilt: make(
      'Tilt',
      sizeSigned(fit.tiltDb),
      `What the line through ${rows} rises from ${mhz(fit.lowMhz)} to ${mhz(fit.highMhz)}.`,
      'L(high) \u2212 L(low)',
    ),
    flatness: make(
      'Flatness',
      sizeDb(fit.flatnessDb),
      `Peak to valley of ${rows} about their own line.`,
      'greatest \u2212 least of (level \u2212 L(f))',
    ),
  };
}

const sizeSigned = (valueDb: number): string => `${oneDecimal(valueDb)}\u00A0dB`;
