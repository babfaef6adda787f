/** How far each trim is turned, dB, and the largest |off| that is left, dB. */
export type LeastWorst = Readonly<{ byDb: readonly number[]; worstDb: number }>;

/** A row on one side: sign * (off + sum of by * effect) <= worst. */
type Tight = Readonly<{ row: number; sign: 1 | -1 }>;
type Corner = Readonly<{ byDb: number[]; worstDb: number; turnedDb: number }>;

/** A billionth of a dB is rounding. */
const SAME = 1e-9;

/**
 * How far to turn some continuous trims so that the worst channel is least, exactly: the linear programme of Chebyshev's
 * problem, by its few rows that matter. Solves for the rows so far, adds the two that this leaves worst, until none is
 * worse than what was solved for.
 * @param offDb     level less target at each row, dB; one or more
 * @param effectsDb per trim what 1 dB of it does at each row
 * @param rangesDb  per trim the least and the most, dB
 * @returns  the least worst channel, and with it the trims; of several ways the one that turns least
 * @throws   RangeError when lengths differ or there are more than four trims
 * @source   E. W. Cheney, Introduction to Approximation Theory, ch. 2: the minimax problem as a linear programme and its
 *           exchange algorithm; held against HiGHS in the tests
 */
export function leastWorst(
  offDb: Float64Array,
  effectsDb: readonly Float64Array[],
  rangesDb: readonly (readonly [number, number])[],
): LeastWorst {
  if (effectsDb.length > 4 || rangesDb.length !== effectsDb.length || offDb.length === 0)
    throw new RangeError(`${offDb.length} rows, ${effectsDb.length} trims, ${rangesDb.length} ranges`);
  const byDb = rangesDb.map(([leastDb, mostDb]) => Math.min(mostDb, Math.max(leastDb, 0)));
  let now: Corner = { byDb, worstDb: -Infinity, turnedDb: 0 };
  let working: Tight[] = [];
  for (;;) {
    const { highest, lowest, worstDb } = extremes(offDb, effectsDb, now.byDb);
    const slackDb = SAME * Math.max(1, worstDb);
    const fresh = (
      [
        { row: highest, sign: 1 },
        { row: lowest, sign: -1 },
      ] as const
    ).filter((one) => !working.some(({ row, sign }) => row === one.row && sign === one.sign));
    if (effectsDb.length === 0 || worstDb <= now.worstDb + slackDb || fresh.length === 0)
      return { byDb: now.byDb, worstDb };
    working = [...working, ...fresh];
    const next = cornerOf(working, offDb, effectsDb, rangesDb);
    // Rows that do not bind are dropped once the worst channel has grown: it never comes back to where they did.
    if (next.worstDb > now.worstDb + slackDb)
      working = working.filter(
        (one) => one.sign * offWith(one.row, offDb, effectsDb, next.byDb) >= next.worstDb - slackDb,
      );
    now = next;
  }
}

function offWith(
  row: number,
  offDb: Float64Array,
  effectsDb: readonly Float64Array[],
  byDb: readonly number[],
): number {
  let off = offDb[row] ?? 0;
  for (let k = 0; k < effectsDb.length; k++) off += (byDb[k] ?? 0) * (effectsDb[k]?.[row] ?? 0);
  return off;
}

function extremes(offDb: Float64Array, effectsDb: readonly Float64Array[], byDb: readonly number[]) {
  let highest = 0;
  let lowest = 0;
  let maxDb = -Infinity;
  let minDb = Infinity;
  for (let i = 0; i < offDb.length; i++) {
    const off = offWith(i, offDb, effectsDb, byDb);
    if (off > maxDb) {
      maxDb = off;
      highest = i;
    }
    if (off < minDb) {
      minDb = off;
      lowest = i;
    }
  }
  return { highest, lowest, worstDb: Math.max(maxDb, -minDb) };
}

/**
 * The least worst channel of a few rows within the ranges: of all corners where as many rows and range ends bind as there
 * are unknowns, the lowest that breaks none of the others.
 */
function cornerOf(
  working: readonly Tight[],
  offDb: Float64Array,
  effectsDb: readonly Float64Array[],
  rangesDb: readonly (readonly [number, number])[],
): Corner {
  const trims = effectsDb.length;
  // Each line: coefficients of the trims, of the worst channel, and the right side; the first of them are rows.
  const lines: number[][] = working.map(({ row, sign }) => [
    ...effectsDb.map((effect) => sign * (effect[row] ?? 0)),
    -1,
    -sign * (offDb[row] ?? 0),
  ]);
  rangesDb.forEach((range, k) => {
    for (const endDb of range) lines.push([...effectsDb.map((_, j) => (j === k ? 1 : 0)), 0, endDb]);
  });
  let best: Corner | null = null;
  const chosen: number[] = [];
  const tryFrom = (first: number): void => {
    if (chosen.length < trims + 1) {
      for (let at = first; at < lines.length; at++) {
        chosen.push(at);
        if ((chosen[0] ?? 0) < working.length) tryFrom(at + 1);
        chosen.pop();
      }
      return;
    }
    const solved = solve(chosen.map((at) => [...(lines[at] ?? [])]));
    if (solved === null) return;
    const worstDb = solved[trims] ?? 0;
    const slackDb = 1e-9 * Math.max(1, Math.abs(worstDb));
    if (best !== null && worstDb > best.worstDb + slackDb) return;
    const byDb = solved.slice(0, trims);
    const inRange = rangesDb.every(
      ([leastDb, mostDb], k) => (byDb[k] ?? 0) >= leastDb - slackDb && (byDb[k] ?? 0) <= mostDb + slackDb,
    );
    if (!inRange) return;
    if (working.some(({ row, sign }) => sign * offWith(row, offDb, effectsDb, byDb) > worstDb + slackDb))
      return;
    const turnedDb = byDb.reduce((sum, by) => sum + Math.abs(by), 0);
    const isLower = best === null || worstDb < best.worstDb - slackDb;
    if (best === null || isLower || turnedDb < best.turnedDb - slackDb) {
      const held = byDb.map((by, k) =>
        Math.min(rangesDb[k]?.[1] ?? by, Math.max(rangesDb[k]?.[0] ?? by, by)),
      );
      best = { byDb: held, worstDb, turnedDb };
    }
  };
  tryFrom(0);
  if (best === null) throw new RangeError('no way to turn the trims within their ranges');
  return best;
}

/** A few linear equations by elimination, each line its coefficients and right side; null where they do not decide. */
function solve(lines: number[][]): number[] | null {
  const size = lines.length;
  for (let at = 0; at < size; at++) {
    let pivot = at;
    for (let i = at + 1; i < size; i++)
      if (Math.abs(lines[i]?.[at] ?? 0) > Math.abs(lines[pivot]?.[at] ?? 0)) pivot = i;
    const line = lines[pivot];
    const other = lines[at];
    if (line === undefined || other === undefined || Math.abs(line[at] ?? 0) < 1e-9) return null;
    lines[at] = line;
    lines[pivot] = other;
    for (let i = 0; i < size; i++) {
      const target = lines[i];
      if (i === at || target === undefined) continue;
      const share = (target[at] ?? 0) / (line[at] ?? 1);
      if (share !== 0) for (let j = at; j <= size; j++) target[j] = (target[j] ?? 0) - share * (line[j] ?? 0);
    }
  }
  return lines.map((line, i) => (line[size] ?? 0) / (line[i] ?? 1));
}
