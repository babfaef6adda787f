import fc from 'fast-check';
import loadHighs from 'highs';
import { describe, expect, it } from 'vitest';
import { Truck } from '../../../core/files/truck.ts';
import { propose } from '../../../core/propose/propose.ts';
import { modelOf } from './by-highs.ts';
import { everyCombination } from './full-enumeration.ts';
import { type Task, task } from './random-station.ts';

// HiGHS (npm highs): an independent mixed-integer solver, exact to its own tolerance of a millionth.
const STATIONS = 260;
const SAME_DB = 2e-5;

/** Some of the values that the positions could take, each a few times or not at all. */
const truckFor = (station: Task['station'], counts: readonly number[]): Truck => {
  const parts = new Map<string, unknown>();
  let at = 0;
  for (const position of station.positions)
    for (const valueDb of [...position.values, position.installed]) {
      const { kind } = position;
      const topMhz = position.kind === 'pad' ? {} : { topMhz: position.topMhz };
      const count = counts[at++ % counts.length] ?? 0;
      parts.set(JSON.stringify([kind, topMhz, valueDb]), { kind, ...topMhz, valueDb, count });
    }
  return Truck.parse({ format: 'tiltwright-truck/1', parts: [...parts.values()] });
};
/** Every position of one kind, with the same values: so that they want the same parts. */
const alike = (one: Task): Task => {
  const first = one.station.positions[0];
  if (first === undefined) return one;
  const positions = one.station.positions.map(({ name }, i) => ({
    ...first,
    name,
    installed: first.values[i % first.values.length] ?? first.installed,
  }));
  const ports = one.station.ports.map((port) =>
    port.design === undefined ? port : { ...port, through: positions.map(({ name }) => name) },
  );
  return { ...one, station: { ...one.station, positions, ports } };
};
const stocked = fc
  .tuple(task, fc.boolean(), fc.array(fc.constantFrom(0, 0, 1, 1, 2), { minLength: 6, maxLength: 12 }))
  .map(([any, isAlike, counts]) => {
    const one = isAlike ? alike(any) : any;
    return { one, truck: truckFor(one.station, counts) };
  });
const samples = fc.sample(stocked, { numRuns: STATIONS, seed: 20 });

describe('the exact optimum', async () => {
  const highs = await loadHighs();
  const solved = (one: Task, truck: Truck | null) => {
    const solution = highs.solve(modelOf(one, truck).text, {
      mip_rel_gap: 0,
      mip_abs_gap: 1e-9,
      output_flag: false,
    });
    return solution.Status === 'Optimal' ? solution.ObjectiveValue : null;
  };
  const chosen = (one: Task, truck: Truck | null) => {
    const { station, rows, inputRows, slackDb } = one;
    const proposal = propose({ rows, station, inputRows, slackDb, truck, keepAll: true });
    if (!proposal.ok) throw new Error(`${proposal.code} ${proposal.where}`);
    return proposal.value;
  };

  it(`is that of HiGHS on ${STATIONS} random stations, with and without a stock`, {
    timeout: 120_000,
  }, () => {
    let feasible = 0;
    let stockMattered = 0;
    for (const { one, truck } of samples) {
      const [free, limited] = [null, truck].map((stock) => {
        const bestDb = solved(one, stock);
        const proposal = chosen(one, stock);
        expect(proposal.feasible).toBe(bestDb !== null);
        if (bestDb !== null) {
          feasible++;
          expect(Math.abs(proposal.best.worstDb - bestDb)).toBeLessThan(SAME_DB);
        }
        return proposal.best.worstDb;
      });
      if ((limited ?? 0) > (free ?? 0) + 1e-3) stockMattered++;
    }
    expect(feasible).toBeGreaterThan(STATIONS);
    expect(stockMattered).toBeGreaterThan(STATIONS / 10);
  });

  it('names no part that is not there, recommended, alternative or Pareto', () => {
    for (const { one, truck } of samples) {
      const { best, recommended, alternatives, pareto } = chosen(one, truck);
      for (const choice of [best, recommended, ...alternatives, ...pareto]) {
        const left = new Map(truck.parts.map((part) => [JSON.stringify({ ...part, count: 0 }), part.count]));
        const keyOf = (name: string, valueDb: number) => {
          const position = one.station.positions.find((other) => other.name === name);
          const topMhz = position === undefined || position.kind === 'pad' ? {} : { topMhz: position.topMhz };
          return JSON.stringify({ kind: position?.kind, valueDb, count: 0, ...topMhz });
        };
        const sorted = (key: string) => JSON.stringify(Object.entries(JSON.parse(key)).sort());
        const stock = new Map([...left].map(([key, count]) => [sorted(key), count]));
        for (const { position, from, to } of choice.changes) {
          const back = sorted(keyOf(position, from));
          const taken = sorted(keyOf(position, to));
          stock.set(back, (stock.get(back) ?? 0) + 1);
          stock.set(taken, (stock.get(taken) ?? 0) - 1);
        }
        expect(Math.min(0, ...stock.values())).toBe(0);
      }
    }
  });

  it('has a Pareto set that is, for each number of changes, the least of all combinations', () => {
    for (const { one } of samples) {
      const { station, rows, inputRows } = one;
      const { pareto, feasible } = chosen(one, null);
      if (!feasible) continue;
      const tried = everyCombination(rows, station, 'output', inputRows).filter(
        ({ missDb }) => missDb <= 1e-9,
      );
      let leastDb = Infinity;
      const wanted: (readonly [number, number])[] = [];
      for (let changes = 0; changes <= station.positions.length; changes++) {
        const some = tried
          .filter((combination) => combination.changes === changes)
          .map(({ worstDb }) => worstDb);
        const worstDb = Math.min(...some);
        if (some.length > 0 && worstDb < leastDb - 1e-9) wanted.push([changes, worstDb]);
        leastDb = Math.min(leastDb, worstDb);
      }
      expect(pareto.map(({ changes }) => changes.length)).toEqual(wanted.map(([changes]) => changes));
      pareto.forEach(({ worstDb }, i) => {
        expect(Math.abs(worstDb - (wanted[i]?.[1] ?? 0))).toBeLessThan(1e-8);
      });
    }
  });
});
