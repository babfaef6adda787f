import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { Design } from '../../core/files/station.ts';
import type { SweepFit } from '../../core/line/fit-sweep.ts';
import type { StationStanding } from '../../core/line/standing.ts';
import type { Judged } from '../../core/line/verdicts.ts';
import { goodToDb } from '../../core/uncertainty/shares.ts';
import { bareLevel, levelWord, oneDecimal, plusMinus, signedDecimal, sizeDb, sureWords } from '../format.ts';
import { howFigures, howLine, type Seen } from '../how/figures.ts';
import type { FindingRow } from './FindingTable.tsx';

type Part = Judged & Readonly<{ deviationDb: number }>;
type Texts = Pick<FindingRow, 'name' | 'value' | 'target' | 'how'>;

const row = (texts: Texts, { deviationDb, verdict, probability, uDb }: Part, unitOfU = ''): FindingRow => ({
  ...texts,
  goodTo: uDb === undefined ? '' : `${plusMinus(goodToDb(uDb))}${unitOfU}`,
  verdict,
  word:
    verdict === 'undecided' ? 'undecided' : verdict === 'pass' ? 'good' : deviationDb < 0 ? 'low' : 'high',
  sure: probability === undefined ? '' : sureWords(verdict, probability),
  pointing: deviationDb < 0 ? 'down' : 'up',
});

/** The figures of a standing as the table shows them; the worst channel first, because it decides. */
export function findingRows(
  standing: StationStanding,
  design: Design,
  unit: LevelUnitName,
  seen: Seen,
): readonly FindingRow[] {
  const { levelLow, levelHigh, tilt, flatness, worst } = standing;
  const how = howFigures(standing, design, unit, seen);
  const dbmv = levelWord(unit);
  // What a level is good to is a ratio: beside millivolts it needs its own unit.
  const besideDb = unit === 'mV' ? '\u00A0dB' : '';
  const of = (levelDbmv: number) => `of ${bareLevel(levelDbmv, unit)} ${dbmv}`;
  return [
    row(
      {
        name: 'Worst channel',
        value: signedDecimal(worst.deviationDb),
        target: `within \u00B1${oneDecimal(design.toleranceDb)} dB`,
        how: how.worst,
      },
      worst,
    ),
    row(
      {
        name: 'Level, high',
        value: bareLevel(levelHigh.valueDbmv, unit),
        target: of(levelHigh.targetDbmv),
        how: how.levelHigh,
      },
      levelHigh,
      besideDb,
    ),
    row(
      {
        name: 'Level, low',
        value: bareLevel(levelLow.valueDbmv, unit),
        target: of(levelLow.targetDbmv),
        how: how.levelLow,
      },
      levelLow,
      besideDb,
    ),
    row(
      {
        name: 'Tilt',
        value: oneDecimal(tilt.valueDb),
        target: `of ${oneDecimal(tilt.targetDb)} dB`,
        how: how.tilt,
      },
      tilt,
    ),
    row(
      {
        name: 'Flatness',
        value: oneDecimal(flatness.valueDb),
        target: `up to ${sizeDb(flatness.targetDb)}`,
        how: how.flatness,
      },
      flatness,
    ),
  ];
}

/** The same figures where no design says what they should be. */
export function lineRows(fit: SweepFit, unit: LevelUnitName): readonly FindingRow[] {
  const how = howLine(fit, unit);
  return (
    [
      ['Level, high', bareLevel(fit.highDbmv, unit), levelWord(unit), how.levelHigh],
      ['Level, low', bareLevel(fit.lowDbmv, unit), levelWord(unit), how.levelLow],
      ['Tilt', oneDecimal(fit.tiltDb), 'dB', how.tilt],
      ['Flatness', oneDecimal(fit.flatnessDb), 'dB', how.flatness],
    ] as const
  ).map(([name, value, target, itsHow]) => ({
    name,
    value,
    goodTo: '',
    target,
    verdict: 'unknown',
    word: '',
    sure: '',
    pointing: 'down',
    how: itsHow,
  }));
}
