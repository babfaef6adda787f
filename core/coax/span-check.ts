import { fitLine } from '../line/fit-line.ts';
import { done, type Result, refuse } from '../result.ts';
import type { Cable } from './cables.ts';
import { type SpanUnfit, spanLossDb } from './span.ts';
import { atTemperature, PER_DEGREE_F } from './temperature.ts';

/** What went into the span and what came out of it at one frequency, dBmV. */
export type SpanReading = Readonly<{ frequencyMhz: number; sentDbmv: number; receivedDbmv: number }>;
export type SpanPoint = Readonly<{ frequencyMhz: number; measuredDb: number; computedDb: number }>;

/**
 * What the measured loss says of the span.
 * - plausible: as computed, all along the band
 * - longer, shorter: off in proportion to the loss, as more or less of this cable would be
 * - flat: off by the same at both ends: a part, a test point or a level, not the cable
 * - slanted: off in a way that neither length nor a flat loss explains: another cable, or a bad connector
 */
export type SpanFinding = 'plausible' | 'longer' | 'shorter' | 'flat' | 'slanted';

export type SpanCheck = Readonly<{
  finding: SpanFinding;
  points: readonly SpanPoint[];
  lowMhz: number;
  highMhz: number;
  /** Measured less computed at the two ends, by the straight line of measured on computed loss, dB. */
  excessLowDb: number;
  excessHighDb: number;
  measuredHighDb: number;
  computedHighDb: number;
  /** As long as this cable would have to be to lose what was measured, m. */
  asIfLengthM: number;
  /** Peak to peak of what is left of the line, dB; `isUneven` where that is more than a meter's own. */
  unevenDb: number;
  isUneven: boolean;
}>;

/** Common practice, no published source: what two readings and a cable's own spread may lie apart. */
export const PLAUSIBLE_DB = 1;
/** A flat part is alike at both ends to within this; what grows with the loss may stray as far as a loss table does. */
const FLAT_DB = 0.5;
const UNEVEN_DB = 2;
const FEWEST_POINTS = 5;

/**
 * Holds the measured loss of a span against what its cable and length give.
 * @param span      cable, length in m, part of the loss a degree F (PER_DEGREE_F when left out)
 * @param ambientC  degrees C of the cable while it was read
 * @param readings  in rising frequency, MHz and dBmV, carriers only
 * @returns  the finding with its figures in dB and m; refused with fewer than five readings, or beyond what is known of
 *           the cable
 * @source   loss is what goes in less what comes out: Hranac, "Loss", quoting SCTE 270; the limits are common practice,
 *           no published source
 */
export function spanCheck(
  span: Readonly<{ cable: Cable; lengthM: number; perDegreeF?: number | undefined }>,
  ambientC: number,
  readings: readonly SpanReading[],
): Result<SpanCheck, SpanUnfit | 'too-few' | 'one-frequency' | 'not-finite'> {
  const { cable, lengthM } = span;
  const points: SpanPoint[] = [];
  for (const { frequencyMhz, sentDbmv, receivedDbmv } of readings) {
    const atReference = spanLossDb(cable, frequencyMhz, lengthM);
    if (!atReference.ok) return atReference;
    const then = atTemperature(atReference.value, ambientC, span.perDegreeF ?? PER_DEGREE_F);
    if (!then.ok) return then;
    points.push({ frequencyMhz, measuredDb: sentDbmv - receivedDbmv, computedDb: then.value });
  }
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined || points.length < FEWEST_POINTS)
    return refuse('too-few', `${points.length} carriers at both ends of the span`, 'read five or more');
  const measured = points.map(({ measuredDb }) => measuredDb);
  const computed = points.map(({ computedDb }) => computedDb);
  const line = fitLine(computed, measured);
  if (!line.ok) return line;
  const { lowDbmv: flatDb, tiltDb: share } = line.value;
  const excessDb = (computedDb: number) => flatDb + (share - 1) * computedDb;
  const left = points.map(({ measuredDb, computedDb }) => measuredDb - computedDb - excessDb(computedDb));
  const unevenDb = Math.max(...left) - Math.min(...left);
  const squares = computed.reduce((sum, one) => sum + one * one, 0);
  const product = points.reduce((sum, one) => sum + one.measuredDb * one.computedDb, 0);
  const ends = { excessLowDb: excessDb(first.computedDb), excessHighDb: excessDb(last.computedDb) };
  const check = {
    ...{ points, lowMhz: first.frequencyMhz, highMhz: last.frequencyMhz, ...ends },
    measuredHighDb: last.computedDb + ends.excessHighDb,
    computedHighDb: last.computedDb,
    asIfLengthM: Math.max(0, (lengthM * product) / squares),
    unevenDb,
    isUneven: unevenDb > UNEVEN_DB,
    finding: findingOf(ends, first.computedDb / last.computedDb),
  };
  return [check.asIfLengthM, unevenDb, ends.excessLowDb, ends.excessHighDb].every(Number.isFinite)
    ? done(check)
    : refuse('not-finite', 'the levels', 'too large to compute with; look at their unit');
}

function findingOf(
  { excessLowDb, excessHighDb }: Readonly<{ excessLowDb: number; excessHighDb: number }>,
  ratioLoss: number,
): SpanFinding {
  if (Math.abs(excessHighDb) <= PLAUSIBLE_DB && Math.abs(excessLowDb) <= PLAUSIBLE_DB) return 'plausible';
  if (Math.abs(excessHighDb - excessLowDb) <= FLAT_DB) return 'flat';
  if (Math.abs(excessLowDb - ratioLoss * excessHighDb) > PLAUSIBLE_DB) return 'slanted';
  return excessHighDb > 0 ? 'longer' : 'shorter';
}
