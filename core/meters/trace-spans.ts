/** One trace: `points` points from start to stop, and which of them is which planned frequency. */
export type TraceSpan = Readonly<{
  startHz: number;
  stopHz: number;
  points: number;
  /** In rising frequency: the planned frequency in Hz and the number of its point, from 0. */
  wanted: readonly Readonly<{ hz: number; point: number }>[];
}>;

const commonStep = (a: number, b: number): number => (b === 0 ? a : commonStep(b, a % b));

/**
 * The fewest spans, taken from the lowest frequency up, so that every planned frequency lies exactly on a point.
 * @param frequenciesHz  whole Hz, above 0, any order; twice the same counts once
 * @param leastPoints    2 or more
 * @param mostPoints     what the meter can do; at least `leastPoints`
 * @param stepHz         between the points of a span that holds one frequency
 * @returns  spans in rising frequency
 * @throws   RangeError for limits that allow no trace
 * @source   common practice, no published source
 */
export function traceSpans(
  frequenciesHz: readonly number[],
  leastPoints: number,
  mostPoints: number,
  stepHz: number,
): readonly TraceSpan[] {
  if (leastPoints < 2 || mostPoints < leastPoints || stepHz < 1)
    throw new RangeError(`no trace has ${leastPoints} to ${mostPoints} points, ${stepHz} Hz apart`);
  const sorted = [...new Set(frequenciesHz)].sort((a, b) => a - b);
  const spans: TraceSpan[] = [];
  for (let first = 0; first < sorted.length; ) {
    let step = 0;
    let last = first;
    while (last + 1 < sorted.length) {
      const wider = commonStep((sorted[last + 1] ?? 0) - (sorted[first] ?? 0), step);
      if (((sorted[last + 1] ?? 0) - (sorted[first] ?? 0)) / wider + 1 > mostPoints) break;
      step = wider;
      last += 1;
    }
    spans.push(spanOf(sorted.slice(first, last + 1), step === 0 ? stepHz : step, leastPoints));
    first = last + 1;
  }
  return spans;
}

function spanOf(hertz: readonly number[], stepHz: number, leastPoints: number): TraceSpan {
  const startHz = hertz[0] ?? 0;
  const needed = Math.round(((hertz.at(-1) ?? startHz) - startHz) / stepHz) + 1;
  const points = Math.max(needed, leastPoints);
  return {
    startHz,
    stopHz: startHz + (points - 1) * stepHz,
    points,
    wanted: hertz.map((hz) => ({ hz, point: Math.round((hz - startHz) / stepHz) })),
  };
}
