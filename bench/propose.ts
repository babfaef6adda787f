import loadHighs from 'highs';
import { MeterUncertainty } from '../core/files/meter-uncertainty.ts';
import { Station } from '../core/files/station.ts';
import type { Trim } from '../core/files/station-notes.ts';
import { Truck } from '../core/files/truck.ts';
import { targetDbmv } from '../core/line/design-line.ts';
import { lossDb } from '../core/plug-ins/loss.ts';
import { propose } from '../core/propose/propose.ts';
import { type BenchRow, mediansMs } from './timing.ts';

const steps = (count: number, stepDb: number): number[] =>
  Array.from({ length: count }, (_, i) => i * stepDb);
const position = (name: string, kind: string, installed: number, values: number[]) => ({
  ...{ name, kind, installed, values },
  ...(kind === 'pad' ? {} : { topMhz: 1002, insertionLossDb: 1 }),
});

/** Two pads of 21 values and two equalizers of 13, as the goal for speed has them; more shaped positions make it deeper. */
function stationOf(extra: number): Station {
  const positions = [
    position('input pad', 'pad', 6, steps(21, 1)),
    position('input equalizer', 'equalizer', 9, steps(13, 1.5)),
    position('interstage pad', 'pad', 0, steps(21, 1)),
    position('interstage equalizer', 'equalizer', 0, steps(13, 1.5)),
    ...Array.from({ length: extra }, (_, i) =>
      position(`further ${i}`, 'cable-simulator', 0, steps(13, 1 + i / 3)),
    ),
  ];
  const [lowMhz, highMhz] = [54, 1002];
  return Station.parse({
    format: 'tiltwright-station/1',
    id: 'bench',
    name: 'bench',
    ports: [
      {
        name: 'forward output',
        direction: 'forward',
        design: {
          lowMhz,
          lowDbmv: 36,
          highMhz,
          highDbmv: 46,
          shape: 'linear',
          toleranceDb: 1,
          flatnessDb: 2.5,
        },
        through: positions.map(({ name }) => name),
      },
      { name: 'forward input', direction: 'forward' },
    ],
    positions,
    stageInput: {
      port: 'forward input',
      through: ['input pad', 'input equalizer'],
      ...{ atMhz: 870, minDbmv: 8, maxDbmv: 14 },
    },
  });
}

const rows = Array.from({ length: 158 }, (_, i) => {
  const frequencyMhz = 57 + 6 * i;
  const place = (frequencyMhz - 54) / 948;
  return { frequencyMhz, levelDbmv: 36 + 10 * place - 3 * place ** 0.8 + 0.4 * Math.sin(frequencyMhz / 47) };
});
const inputRows = rows.map(({ frequencyMhz }) => ({ frequencyMhz, levelDbmv: 24 - frequencyMhz / 200 }));

/** Every combination, every row, with the losses tabled beforehand: what one would write first. */
function everyCombination(station: Station): number {
  const design = station.ports[0]?.design;
  if (design === undefined) return Number.NaN;
  const off = rows.map((row) => row.levelDbmv - targetDbmv(design, row.frequencyMhz));
  const changes = station.positions.map((one) =>
    one.values.map((valueDb) =>
      rows.map(
        (row) => lossDb(one, one.installed, row.frequencyMhz) - lossDb(one, valueDb, row.frequencyMhz),
      ),
    ),
  );
  let bestDb = Infinity;
  const walk = (at: number, levels: readonly number[]): void => {
    const position = changes[at];
    if (position === undefined) {
      bestDb = Math.min(
        bestDb,
        levels.reduce((worst, level) => Math.max(worst, Math.abs(level)), 0),
      );
      return;
    }
    for (const change of position)
      walk(
        at + 1,
        levels.map((level, i) => level + (change[i] ?? 0)),
      );
  };
  walk(0, off);
  return bestDb;
}

/** Every second pad and equalizer, one of each, and none of the third pads: a truck that a proposal has to look into. */
const truck = Truck.parse({
  format: 'tiltwright-truck/1',
  parts: [
    ...steps(21, 1).map((valueDb, i) => ({ kind: 'pad', valueDb, count: i % 3 === 0 ? 0 : 1 })),
    ...steps(13, 1.5).map((valueDb, i) => ({ kind: 'equalizer', topMhz: 1002, valueDb, count: i % 2 })),
  ],
});
const trims: readonly Trim[] = [
  { name: 'gain', kind: 'gain', rangeDb: [-2, 2], atMhz: 999 },
  { name: 'slope', kind: 'slope', rangeDb: [-2, 2], atMhz: 999 },
];
const lineUp = rows.map(({ frequencyMhz }, i) => ({
  ...{ channelLabel: `${i + 2}`, frequencyMhz, kind: 'qam' as const, qamOrder: 256, widthMhz: 6 },
  offsetDb: 0,
}));
const uncertainty = { meter: MeterUncertainty.parse({}), ambientC: 20 };

/** The same choice as a mixed-integer model: a whole-number unknown for each value, the worst channel above every row. */
function modelText(station: Station): string {
  const design = station.ports[0]?.design;
  if (design === undefined) throw new Error('no design');
  const term = (factor: number, name: string) =>
    `${factor < 0 ? '-' : '+'} ${Math.abs(factor).toFixed(9)} ${name}`;
  const names = station.positions.map((one, p) => one.values.map((_, v) => `x${p}_${v}`));
  const lines = rows.flatMap(({ frequencyMhz, levelDbmv }, i) => {
    const bareDb =
      levelDbmv -
      targetDbmv(design, frequencyMhz) +
      station.positions.reduce((sum, one) => sum + lossDb(one, one.installed, frequencyMhz), 0);
    return [1, -1].map((sign) => {
      const losses = station.positions.flatMap((one, p) =>
        one.values.map((value, v) => term(sign * lossDb(one, value, frequencyMhz), names[p]?.[v] ?? '')),
      );
      return `r${i}${sign > 0 ? 'a' : 'b'}: t ${losses.join(' ')} >= ${(sign * bareDb).toFixed(9)}`;
    });
  });
  const ones = names.map((some, p) => `one${p}: ${some.join(' + ')} = 1`);
  const binary = names.flat().join(' ');
  return [
    'Minimize',
    'obj: t',
    'Subject To',
    ...lines,
    ...ones,
    'Bounds',
    't free',
    'Binary',
    binary,
    'End',
  ].join('\n');
}

/** The chooser with best, recommended and alternatives, against every combination in the same run. */
export async function proposeBench(): Promise<BenchRow[]> {
  const station = stationOf(0);
  const [plain = 0] = mediansMs(5, () => everyCombination(station));
  const [kept = 0, screened = 0, limited = 0, stocked = 0, trimmed = 0, all = 0] = mediansMs(
    400,
    () => propose({ rows, station, keepAll: true }),
    () => propose({ rows, station }),
    () => propose({ rows, station, inputRows }),
    () => propose({ rows, station, truck }),
    () => propose({ rows, station, trims }),
    () => propose({ rows, station, inputRows, truck, trims, lineUp, uncertainty }),
  );
  const highs = await loadHighs();
  const text = modelText(station);
  const solve = () => highs.solve(text, { mip_rel_gap: 0, mip_abs_gap: 1e-7, output_flag: false });
  const [byHighs = 0] = mediansMs(3, solve);
  const deeper = [1, 2].map((extra) => {
    const deep = stationOf(extra);
    const [medianMs = 0] = mediansMs(7, () => propose({ rows, station: deep }));
    const combinations = (21 * 21 * 13 ** (2 + extra)).toLocaleString('en');
    return { what: `the same with ${2 + extra} equalizers, ${combinations} combinations`, medianMs };
  });
  const against = 'every combination';
  const result = propose({ rows, station, keepAll: true });
  const plainBestDb = everyCombination(station);
  if (!result.ok || Math.abs(result.value.best.worstDb - plainBestDb) > 1e-9)
    throw new Error(`the chooser and every combination differ: ${plainBestDb} dB`);
  if (Math.abs(result.value.best.worstDb - solve().ObjectiveValue) > 1e-5)
    throw new Error('the chooser and HiGHS differ');
  return [
    { what: `${against}, ${(21 * 21 * 13 * 13).toLocaleString('en')} of them`, medianMs: plain },
    { what: 'HiGHS, the same choice as a mixed-integer model', medianMs: byHighs },
    { what: 'propose, every row kept', medianMs: kept },
    { what: 'propose, rows screened', medianMs: screened },
    { what: 'propose, screened, stage input limited', medianMs: limited },
    { what: 'propose, screened, from the truck', medianMs: stocked },
    { what: 'propose, screened, with trims', medianMs: trimmed },
    { what: 'propose: truck, limit, trims, line-up, uncertainty', medianMs: all },
    ...deeper,
  ].map((row) => ({ ...row, against, ratio: row.medianMs / plain }));
}
