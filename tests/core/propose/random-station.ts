import fc from 'fast-check';
import { Station } from '../../../core/files/station.ts';
import type { Row } from './full-enumeration.ts';

export type Task = Readonly<{
  station: Station;
  rows: readonly Row[];
  inputRows: readonly Row[] | undefined;
  slackDb: number;
}>;

/** Thousandths of a dB: finer than any label, coarser than rounding, so that ties are ties. */
const finelyDb = (mostDb: number) =>
  fc.integer({ min: 0, max: mostDb * 1000 }).map((thousandths) => thousandths / 1000);
/** Half decibels, as kits have them, or any number at all. */
const value = fc.oneof(
  fc.integer({ min: 0, max: 24 }).map((halves) => halves / 2),
  finelyDb(12),
);
const topMhz = fc.constantFrom(550, 870, 1002, 1218);
/** Whole kilohertz, so that two rows never share one place but for rounding. */
const mhz = fc.integer({ min: 5000, max: 1_218_000 }).map((kilohertz) => kilohertz / 1000);
const curve = fc
  .uniqueArray(fc.tuple(mhz, finelyDb(12)), {
    minLength: 1,
    maxLength: 4,
    selector: ([at]) => at,
  })
  .map((points) => points.toSorted((a, b) => a[0] - b[0]));

const position = (name: string, maxValues: number) =>
  fc
    .record({
      kind: fc.constantFrom('pad' as const, 'pad' as const, 'equalizer' as const, 'cable-simulator' as const),
      values: fc.uniqueArray(value, { minLength: 1, maxLength: maxValues }),
      installed: value,
      keepsInstalled: fc.boolean(),
      topMhz,
      insertionLossDb: fc.constantFrom(0, 0.5, 1),
      curves: fc.option(fc.array(curve, { maxLength: 3 }), { nil: undefined, freq: 3 }),
    })
    .map(({ kind, values, keepsInstalled, curves, topMhz: top, insertionLossDb, ...given }) => {
      const installed = keepsInstalled ? (values[0] ?? 0) : given.installed;
      const measured = curves?.map((points, i) => [String(values[i] ?? installed), points] as const);
      const common = {
        name,
        values,
        installed,
        ...(measured === undefined ? {} : { curves: Object.fromEntries(measured) }),
      };
      return kind === 'pad' ? { ...common, kind } : { ...common, kind, topMhz: top, insertionLossDb };
    });

const rowsOf = (count: number) =>
  fc
    .uniqueArray(fc.tuple(mhz, fc.double({ min: -8, max: 8, noNaN: true })), {
      minLength: 2,
      maxLength: count,
      selector: ([at]) => at,
    })
    .map((rows) => rows.map(([frequencyMhz, offDb]) => ({ frequencyMhz, levelDbmv: 40 + offDb })));

/** Stations of one to four positions of every kind, with and without curves, stage input and input sweep. */
export const task: fc.Arbitrary<Task> = fc
  .integer({ min: 1, max: 4 })
  .chain((count) =>
    fc.record({
      positions: fc.tuple(
        ...Array.from({ length: count }, (_, i) => position(`position ${i}`, count > 3 ? 4 : 6)),
      ),
      through: fc.array(fc.boolean(), { minLength: count, maxLength: count }),
      inputThrough: fc.array(fc.boolean(), { minLength: count, maxLength: count }),
      design: fc.record({
        lowMhz: fc.constantFrom(5, 54),
        highMhz: fc.constantFrom(870, 1218),
        lowDbmv: fc.integer({ min: 30, max: 40 }),
        highDbmv: fc.integer({ min: 36, max: 50 }),
        shape: fc.constantFrom('linear' as const, 'cable' as const),
        toleranceDb: fc.constantFrom(0.1, 0.5, 1, 2, 4),
        flatnessDb: fc.constant(2.5),
      }),
      limit: fc.option(
        fc.record({
          atMhz: mhz,
          minDbmv: fc.integer({ min: 15, max: 35 }),
          widthDb: fc.constantFrom(0, 1, 6, 20),
        }),
        { nil: undefined },
      ),
      rows: rowsOf(14),
      inputRows: fc.option(rowsOf(5), { nil: undefined, freq: 4 }),
      slackDb: fc.constantFrom(0, 0.25, 1),
    }),
  )
  .map(({ positions, through, inputThrough, design, limit, rows, inputRows, slackDb }) => {
    const names = positions.map(({ name }) => name);
    const station = Station.parse({
      format: 'tiltwright-station/1',
      id: 'QM-4-01',
      name: 'Quillmere 01',
      ports: [
        { name: 'output', direction: 'forward', design, through: names.filter((_, i) => through[i]) },
        { name: 'input', direction: 'forward' },
      ],
      positions,
      ...(limit === undefined
        ? {}
        : {
            stageInput: {
              port: 'input',
              through: names.filter((_, i) => inputThrough[i]),
              atMhz: limit.atMhz,
              minDbmv: limit.minDbmv,
              maxDbmv: limit.minDbmv + limit.widthDb,
            },
          }),
    });
    return { station, rows, inputRows, slackDb };
  })
  .filter(({ rows, station }) => {
    const design = station.ports[0]?.design;
    const inside = rows.filter(
      ({ frequencyMhz }) => frequencyMhz >= (design?.lowMhz ?? 0) && frequencyMhz <= (design?.highMhz ?? 0),
    );
    return inside.length >= 2;
  });
