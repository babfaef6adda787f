import type { HistorySweep, QualityTrend } from '../../core/bridge/quality-calls.ts';
import type { Comparison } from '../../core/drift/compare-sweeps.ts';
import { LEAST_PER_YEAR_DB } from '../../core/drift/drift-trend.ts';
import type { Design } from '../../core/files/station.ts';
import { RESERVE_WITHIN_DB } from '../../core/gain-control/reserve-verdict.ts';
import { counted, mhz, oneDecimal, plusMinus, signedDb, sizeDb } from '../format.ts';
import { type How, PRACTICE, plainHow } from './how.ts';

const RULE = `The rule: ${PRACTICE.toLowerCase()} Chance: JCGM 106:2012, 7.2 to 7.4 and 8.3 (section numbers from memory).`;
const WORST = 'greatest |level \u2212 target(f)|';

type SweepFigures = NonNullable<HistorySweep['figures']>;

/** What one sweep of a history came to. */
export const howSweepFigures = (of: string, figures: SweepFigures, design: Design | undefined): How =>
  plainHow({
    title: `Worst channel, ${of}`,
    value: `${signedDb(figures.worstDb)} at ${mhz(figures.worstMhz)}`,
    words:
      'Of all channels of this sweep the one farthest from what the design wants there. Beside it stand the figures of the straight line through them, against the design.',
    formula: WORST,
    items: [
      { name: 'level, high', text: signedDb(figures.levelDb) },
      { name: 'tilt', text: signedDb(figures.tiltDb) },
      { name: 'flatness, peak to valley', text: sizeDb(figures.flatnessDb) },
    ],
    judged:
      design === undefined
        ? null
        : `The design allows ${plusMinus(design.toleranceDb)}\u00A0dB, and a flatness of ${sizeDb(design.flatnessDb)}; in order or out from a chance of 95 in 100.`,
    source: `Line: ordinary least squares. ${RULE}`,
  });

/** How a station was found, or left, at a visit. */
export const howVisitWorst = (
  of: string,
  standing: Readonly<{ portName: string; worstMhz: number | null }>,
  worstDb: number,
): How =>
  plainHow({
    title: `Worst channel, ${of}`,
    value: signedDb(worstDb),
    words: `Of the sweep of the ${standing.portName}, the channel farthest from what the design wants there${
      standing.worstMhz === null ? '' : `, at ${mhz(standing.worstMhz)}`
    }.`,
    formula: WORST,
    judged:
      'Judged by the settings and the notes as they are now; in order or out from a chance of 95 in 100.',
    source: RULE,
  });

/** What the newest set-up left as reserve. */
export const howReserveKept = (of: string, leftDb: number, askedDb: number): How =>
  plainHow({
    title: `Reserve, ${of}`,
    value: `${sizeDb(leftDb)} of ${sizeDb(askedDb)}`,
    words:
      'The greatest gain less the level that was set, as the newest set-up read both; and what the rule asks for at its top frequency, with the compensation for that day.',
    formula: 'maximum \u2212 set level',
    judged: `In order within ${plusMinus(RESERVE_WITHIN_DB)}\u00A0dB of what is asked for.`,
    source: `Rule and limit: ${PRACTICE.toLowerCase()} What it is uncertain by stands on the set-up\u2019s sheet.`,
  });

/** How a station goes, in the table of all of them. */
export const howTrendWords = (of: string, drift: NonNullable<QualityTrend['drift']>): How =>
  plainHow({
    title: `Trend, ${of}`,
    value: drift.words,
    words: `A straight line over the years through level, tilt and flatness of the ${counted(drift.line.length, 'sweep', 'sweeps')} since something was last exchanged or set there, brought to one temperature. The figure that moves most surely is the one that is told. Open the station\u2019s history for all three.`,
    formula: 'figure = a + b \u00B7 years',
    judged: `Told as a drift where standing still would look so in fewer than 1 of 100 stations, and from ${oneDecimal(LEAST_PER_YEAR_DB)}\u00A0dB a year on.`,
    source: `Least squares and Student\u2019s t: N. R. Draper, H. Smith, \u201CApplied Regression Analysis\u201D (1998), 1.4. When a drift is called one: ${PRACTICE.toLowerCase()}`,
  });

/** Two sweeps against each other. */
export const howDifference = (of: string, { meanDb, tiltDb, worst, comparedCount }: Comparison): How =>
  plainHow({
    title: `Difference, ${of}`,
    value: `${signedDb(meanDb)} in the mean`,
    words: `Later less earlier, channel by channel, where both sweeps read one: ${counted(comparedCount, 'channel', 'channels')}. Nothing is interpolated.`,
    formula: 'later(f) \u2212 earlier(f)',
    items: [
      { name: 'mean', text: signedDb(meanDb) },
      { name: 'tilt of the line through the differences', text: signedDb(tiltDb) },
      { name: `largest, at ${mhz(worst.frequencyMhz)}`, text: signedDb(worst.differenceDb) },
    ],
    source: 'A difference of two readings. Its line: ordinary least squares between the design\u2019s ends.',
  });
