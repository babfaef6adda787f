import { conditionsOf } from '../../core/bridge/conditions.ts';
import type { StationSheet } from '../../core/bridge/records.ts';
import type { SetUpRecord } from '../../core/bridge/set-up-calls.ts';
import type { ReserveVerdict } from '../../core/gain-control/reserve-verdict.ts';
import type { Conditions } from '../../core/uncertainty/budget.ts';
import { goodToDb } from '../../core/uncertainty/shares.ts';
import { oneDecimal, plusMinus, sureWords } from '../format.ts';
import type { JudgedBy } from './sheet-view.ts';

/** What a set-up's readings are judged with: the meter is the one that read the sweeps of its visit. */
export function setUpConditions(
  { sweeps }: StationSheet,
  { visitId, plan }: SetUpRecord,
  { settings, notes }: JudgedBy,
): Conditions {
  const meter = sweeps.find((sweep) => sweep.visitId === visitId && sweep.meter !== null)?.meter ?? null;
  return conditionsOf(settings, notes, { meter, ambientC: plan.ambientC });
}

function verdictWord({ verdict, side }: ReserveVerdict): string {
  switch (verdict) {
    case 'pass':
      return 'good';
    case 'fail':
      return side === 'small' ? 'too small' : 'too large';
    case 'undecided':
      return 'undecided';
  }
}

/** "Reserve 4.1 ±0.3 dB of 4.0: good, 99 % sure." What was measured is good to that, 95 of 100 times. */
export const reserveSaid = (reserve: ReserveVerdict): string =>
  `Reserve ${oneDecimal(reserve.measuredDb)} ${plusMinus(goodToDb(reserve.uDb))}\u00A0dB of ${oneDecimal(reserve.askedDb)}: ${verdictWord(reserve)}, ${sureWords(reserve.verdict, reserve.probability)}.`;
