import type { SweepFit } from '../../core/line/fit-sweep.ts';
import type { PartVerdict, StationStanding } from '../../core/line/standing.ts';
import { oneDecimal } from '../format.ts';
import type { FindingRow } from './FindingTable.tsx';

type Part = Readonly<{ deviationDb: number; verdict: PartVerdict }>;

const row = (name: string, value: number, target: string, { deviationDb, verdict }: Part): FindingRow => ({
  name,
  value: oneDecimal(value),
  target,
  verdict,
  word: verdict === 'pass' ? 'good' : deviationDb < 0 ? 'low' : 'high',
  pointing: deviationDb < 0 ? 'down' : 'up',
});

/** The four figures of a standing as the table shows them. */
export const findingRows = ({
  levelLow,
  levelHigh,
  tilt,
  flatness,
}: StationStanding): readonly FindingRow[] => [
  row('Level, high', levelHigh.valueDbmv, `of ${oneDecimal(levelHigh.targetDbmv)} dBmV`, levelHigh),
  row('Level, low', levelLow.valueDbmv, `of ${oneDecimal(levelLow.targetDbmv)} dBmV`, levelLow),
  row('Tilt', tilt.valueDb, `of ${oneDecimal(tilt.targetDb)} dB`, tilt),
  row('Flatness', flatness.valueDb, `up to ${oneDecimal(flatness.targetDb)} dB`, flatness),
];

/** The same figures where no design says what they should be. */
export const lineRows = (fit: SweepFit): readonly FindingRow[] =>
  (
    [
      ['Level, high', fit.highDbmv, 'dBmV'],
      ['Level, low', fit.lowDbmv, 'dBmV'],
      ['Tilt', fit.tiltDb, 'dB'],
      ['Flatness', fit.flatnessDb, 'dB'],
    ] as const
  ).map(([name, value, unit]) => ({
    name,
    value: oneDecimal(value),
    target: unit,
    verdict: 'unknown',
    word: '',
    pointing: 'down',
  }));
