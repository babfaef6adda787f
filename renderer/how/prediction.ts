import type { Design } from '../../core/files/station.ts';
import type { RowTarget } from '../../core/line/row-targets.ts';
import type { Choice } from '../../core/propose/objective.ts';
import type { PredictedPoint } from '../../core/propose/predicted-sweep.ts';
import { goodToDb } from '../../core/uncertainty/shares.ts';
import { counted, plusMinus, sizeDb } from '../format.ts';
import { type How, plainHow } from './how.ts';

/** What the predicted worst channel is good to: that of the point farthest from its target. Null where it isn't known. */
export function predictedGoodToDb(
  points: readonly PredictedPoint[],
  targets: ReadonlyMap<number, RowTarget> | null,
): number | null {
  let worst: { offDb: number; uDb: number } | null = null;
  for (const { frequencyMhz, levelDbmv, uDb } of points) {
    const target = targets?.get(frequencyMhz);
    if (target === undefined) continue;
    const offDb = Math.abs(levelDbmv - target.targetDbmv);
    if (worst === null || offDb > worst.offDb) worst = { offDb, uDb };
  }
  return worst === null ? null : goodToDb(worst.uDb);
}

/** How the loss of each kind of plug-in is reckoned, in one line each. */
export const PLUG_IN_LOSS =
  'Pad v: v. Equalizer v: insertion loss + v \u00B7 (1 \u2212 \u221A(f / top)). Cable simulator v: insertion loss + v \u00B7 \u221A(f / top). The station file\u2019s own curve goes before that.';

/** How the prediction came about, for its popover. */
export const howPrediction = (choice: Choice, count: number, design: Design, goodTo: number | null): How =>
  plainHow({
    title: 'Worst channel, predicted',
    value: `${sizeDb(choice.worstDb)}${goodTo === null ? '' : ` ${plusMinus(goodTo)}\u00A0dB`}`,
    words: `${counted(count, 'channel', 'channels')} of the sweep, each with the loss of what comes out added and the loss of what goes in taken away; then the one farthest from its target. Every combination that there are parts for was weighed, and the one with the fewest changes taken that is good enough.`,
    formula: 'after(f) = before(f) + loss(in now, f) \u2212 loss(to fit, f)',
    judged: `The design allows ${sizeDb(design.toleranceDb)} either way. A further change must buy a quarter of a dB.`,
    source: `${PLUG_IN_LOSS} What it is good to holds the meter\u2019s share and the tolerance of the parts (JCGM 100:2008, 5.1.2, from memory).`,
  });
