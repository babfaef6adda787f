/** How often each thing is done before it is timed, so that it is compiled. */
const WARM_UP = 30;

/**
 * Runs some things in turn, so that a slow moment of the machine meets all alike.
 * @returns  for each, the median time of one run in ms
 */
export function mediansMs(runs: number, ...things: readonly (() => unknown)[]): number[] {
  const times = things.map(() => new Float64Array(runs));
  // Results are looked at, or the engine might leave the work out.
  let answered = 0;
  for (let run = -Math.min(WARM_UP, runs); run < runs; run++)
    things.forEach((thing, i) => {
      const start = performance.now();
      if (thing() !== undefined) answered++;
      const spent = performance.now() - start;
      const own = times[i];
      if (run >= 0 && own !== undefined) own[run] = spent;
    });
  if (answered === 0) throw new Error('nothing was computed');
  return times.map((own) => own.sort()[runs >> 1] ?? Number.NaN);
}

export type BenchRow = Readonly<{ what: string; medianMs: number; against: string; ratio: number }>;
