import type { Position, Station } from '../../../core/files/station.ts';

/**
 * The chooser as the contract's words have it, and nothing cleverer: every combination, every row. Written apart from
 * core, which it is there to check; it shares no line with it.
 */
export type Row = Readonly<{ frequencyMhz: number; levelDbmv: number }>;
export type Tried = Readonly<{
  values: Readonly<Record<string, number>>;
  worstDb: number;
  changes: number;
  padDb: number;
  order: readonly number[];
  missDb: number;
}>;

export function lossOf(position: Position, value: number, f: number): number {
  for (const [label, points] of Object.entries(position.curves ?? {})) {
    if (Number(label) !== value) continue;
    const after = points.findIndex((point) => point[0] >= f);
    if (after === -1) return points[points.length - 1]?.[1] ?? 0;
    const [f1, loss1] = points[after] ?? [0, 0];
    const [f0, loss0] = points[after - 1] ?? [f1, loss1];
    return f1 === f0 ? loss1 : loss0 + ((loss1 - loss0) * (f - f0)) / (f1 - f0);
  }
  if (position.kind === 'pad') return value;
  if (value === 0) return 0;
  const root = Math.sqrt(f / position.topMhz);
  if (position.kind === 'cable-simulator') return position.insertionLossDb + value * root;
  return position.insertionLossDb + (f > position.topMhz ? 0 : value * (1 - root));
}

export function inputLevel(rows: readonly Row[], f: number): number {
  const sorted = [...rows].sort((a, b) => a.frequencyMhz - b.frequencyMhz);
  let i = sorted.findIndex((row) => row.frequencyMhz >= f);
  if (i === -1) i = sorted.length - 1;
  if (i === 0) i = 1;
  const left = sorted[i - 1] as Row;
  const right = sorted[i] as Row;
  const share = (f - left.frequencyMhz) / (right.frequencyMhz - left.frequencyMhz);
  return left.levelDbmv + share * (right.levelDbmv - left.levelDbmv);
}

export function everyCombination(
  rows: readonly Row[],
  station: Station,
  portName: string,
  inputRows: readonly Row[] | undefined,
): Tried[] {
  const port = station.ports.find((candidate) => candidate.name === portName);
  const design = port?.design;
  if (port === undefined || design === undefined) throw new Error('no design');
  const limit = inputRows === undefined ? undefined : station.stageInput;
  const free = station.positions.filter(
    ({ name }) => port.through.includes(name) || (limit?.through.includes(name) ?? false),
  );
  const position = (name: string) =>
    station.positions.find((candidate) => candidate.name === name) as Position;
  const s = (f: number) => (design.shape === 'cable' ? Math.sqrt(f) : f);
  const target = (f: number) =>
    design.lowDbmv +
    ((design.highDbmv - design.lowDbmv) * (s(f) - s(design.lowMhz))) / (s(design.highMhz) - s(design.lowMhz));
  const used = rows.filter((row) => row.frequencyMhz >= design.lowMhz && row.frequencyMhz <= design.highMhz);

  const tried: Tried[] = [];
  const walk = (at: number, values: Record<string, number>, order: readonly number[]): void => {
    const next = free[at];
    if (next !== undefined) {
      const candidates = [...new Set([...next.values, next.installed])].sort((a, b) => a - b);
      candidates.forEach((value, i) => {
        walk(at + 1, { ...values, [next.name]: value }, [...order, i]);
      });
      return;
    }
    let worstDb = 0;
    for (const { frequencyMhz, levelDbmv } of used) {
      let after = levelDbmv;
      for (const name of port.through)
        after +=
          lossOf(position(name), position(name).installed, frequencyMhz) -
          lossOf(position(name), values[name] ?? 0, frequencyMhz);
      worstDb = Math.max(worstDb, Math.abs(after - target(frequencyMhz)));
    }
    let missDb = 0;
    if (limit !== undefined && inputRows !== undefined) {
      let level = inputLevel(inputRows, limit.atMhz);
      for (const name of limit.through) level -= lossOf(position(name), values[name] ?? 0, limit.atMhz);
      missDb = Math.max(0, limit.minDbmv - level, level - limit.maxDbmv);
    }
    tried.push({
      values,
      worstDb,
      changes: free.filter(({ name, installed }) => values[name] !== installed).length,
      padDb: free.reduce((sum, { name, kind }) => sum + (kind === 'pad' ? (values[name] ?? 0) : 0), 0),
      order,
      missDb,
    });
  };
  walk(0, Object.fromEntries(station.positions.map(({ name, installed }) => [name, installed])), []);
  return tried;
}

const SAME = 1e-9;
/** Keeps those with the least of one measure, a billionth aside. */
const least = (some: readonly Tried[], measure: (one: Tried) => number): Tried[] => {
  const smallest = Math.min(...some.map(measure));
  return some.filter((one) => measure(one) <= smallest + SAME);
};
const firstInOrder = (some: readonly Tried[]): Tried =>
  some.toSorted((a, b) => {
    const at = a.order.findIndex((index, i) => index !== b.order[i]);
    return at === -1 ? 0 : (a.order[at] ?? 0) - (b.order[at] ?? 0);
  })[0] as Tried;

/** best and recommended by the contract's words, over the combinations that meet the limit or come nearest to it. */
export function byTheWords(tried: readonly Tried[], toleranceDb: number, slackDb: number) {
  const allowed = least(tried, ({ missDb }) => missDb);
  const worst = (one: Tried) => one.worstDb;
  const changes = (one: Tried) => one.changes;
  const pad = (one: Tried) => one.padDb;
  const best = firstInOrder(least(least(least(allowed, worst), changes), pad));
  const feasible = (allowed[0]?.missDb ?? 0) <= SAME;
  const enough = Math.max(toleranceDb, Math.min(...allowed.map(worst)) + slackDb);
  const good = allowed.filter((one) => one.worstDb <= enough + SAME);
  const recommended = firstInOrder(least(least(least(good, changes), worst), pad));
  return {
    feasible,
    best,
    recommended: feasible ? recommended : best,
    bestWorstDb: Math.min(...allowed.map(worst)),
  };
}
