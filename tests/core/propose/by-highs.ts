import type { Position } from '../../../core/files/station.ts';
import type { Truck } from '../../../core/files/truck.ts';
import { inputLevel, lossOf } from './full-enumeration.ts';
import type { Task } from './random-station.ts';

/**
 * The chooser as a mixed-integer model, for HiGHS: a whole-number unknown for each value at each position, and the worst
 * channel above every row's deviation. Written apart from core, which it is there to check.
 */
export type Model = Readonly<{ text: string; nameOf: (position: string, valueDb: number) => string }>;

const number = (value: number): string => (Math.abs(value) < 1e-12 ? '0' : value.toFixed(12));
const term = (factor: number, name: string): string =>
  `${factor < 0 ? '-' : '+'} ${number(Math.abs(factor))} ${name}`;

/** Kind, top frequency and value: what makes two parts the same. */
const labelOf = (position: Position, valueDb: number): string =>
  position.kind === 'pad' ? `pad ${valueDb}` : `${position.kind} ${position.topMhz} ${valueDb}`;

export function modelOf({ station, rows, inputRows }: Task, truck: Truck | null): Model {
  const port = station.ports.find(({ design }) => design !== undefined);
  const design = port?.design;
  if (port === undefined || design === undefined) throw new Error('no design');
  const limit = inputRows === undefined ? undefined : station.stageInput;
  const times = (through: readonly string[] | undefined, name: string) =>
    through?.filter((one) => one === name).length ?? 0;
  const free = station.positions.filter(
    ({ name }) => times(port.through, name) + times(limit?.through, name) > 0,
  );
  const candidates = new Map(
    free.map((position) => [
      position.name,
      [...new Set([...position.values, position.installed])].sort((a, b) => a - b),
    ]),
  );
  const nameOf = (name: string, valueDb: number) =>
    `x_${free.findIndex((one) => one.name === name)}_${candidates.get(name)?.indexOf(valueDb)}`;
  const all = free.flatMap((position) =>
    (candidates.get(position.name) ?? []).map((valueDb) => ({
      position,
      valueDb,
      name: nameOf(position.name, valueDb),
    })),
  );
  const s = (f: number) => (design.shape === 'cable' ? Math.sqrt(f) : f);
  const slope = (design.highDbmv - design.lowDbmv) / (s(design.highMhz) - s(design.lowMhz));
  const lines: string[] = [];
  rows
    .filter(({ frequencyMhz: f }) => f >= design.lowMhz && f <= design.highMhz)
    .forEach(({ frequencyMhz: f, levelDbmv }, i) => {
      let bareDb = levelDbmv - design.lowDbmv - slope * (s(f) - s(design.lowMhz));
      for (const position of free)
        bareDb += times(port.through, position.name) * lossOf(position, position.installed, f);
      const losses = (sign: number) =>
        all
          .map(({ position, valueDb, name }) =>
            term(sign * times(port.through, position.name) * lossOf(position, valueDb, f), name),
          )
          .join(' ');
      lines.push(
        `above${i}: t ${losses(1)} >= ${number(bareDb)}`,
        `below${i}: t ${losses(-1)} >= ${number(-bareDb)}`,
      );
    });
  free.forEach(({ name }, p) => {
    const own = candidates.get(name) ?? [];
    lines.push(`one${p}: ${own.map((valueDb) => nameOf(name, valueDb)).join(' + ')} = 1`);
  });
  if (limit !== undefined && inputRows !== undefined) {
    const there = inputLevel(inputRows, limit.atMhz);
    const losses = all
      .map(({ position, valueDb, name }) =>
        term(times(limit.through, position.name) * lossOf(position, valueDb, limit.atMhz), name),
      )
      .join(' ');
    lines.push(`most: ${losses} >= ${number(there - limit.maxDbmv)}`);
    lines.push(`least: ${losses} <= ${number(there - limit.minDbmv)}`);
  }
  if (truck !== null) {
    const labels = new Set(all.map(({ position, valueDb }) => labelOf(position, valueDb)));
    [...labels].forEach((label, k) => {
      const held = truck.parts.find((part) =>
        part.kind === 'pad'
          ? `pad ${part.valueDb}` === label
          : `${part.kind} ${part.topMhz} ${part.valueDb}` === label,
      );
      // Taken where it is put in anew, given back where it was in and is no more: in now less the unknown that it stays.
      const before = free.filter((position) => labelOf(position, position.installed) === label).length;
      const used = all.filter(({ position, valueDb }) => labelOf(position, valueDb) === label);
      lines.push(`stock${k}: ${used.map(({ name }) => name).join(' + ')} <= ${(held?.count ?? 0) + before}`);
    });
  }
  const text = [
    'Minimize',
    'obj: t',
    'Subject To',
    ...lines,
    'Bounds',
    't free',
    'Binary',
    all.map(({ name }) => name).join(' '),
    'End',
  ].join('\n');
  return { text, nameOf };
}
