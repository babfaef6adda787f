import { installedOf, type PluggedIn } from '../../core/files/station.ts';
import { rowsAtPort } from '../../core/line/port-level.ts';
import type { ReportFrame, ReportSweep, ReportVisit } from '../../core/report/material.ts';
import { BENCH_METER } from '../../core/simulate/bench-meter.ts';
import { simulatedKind, simulatedMeterDbmv } from '../../core/simulate/level.ts';
import { quillmere } from '../../core/simulate/quillmere.ts';

const demo = quillmere.find(({ station }) => station.name.includes('Mill Lane'));
if (demo === undefined) throw new Error('the demo has no Mill Lane');
export const { station, scenario } = demo;

export const PLACE = { timeZone: 'Europe/Lisbon', utcOffsetMin: 60 };
export const UNITS = { levelUnit: 'dBmV', temperatureUnit: 'C', lengthUnit: 'm' } as const;

/** The same made-up hash for the same word, as long as a real one. */
export const madeUpHash = (word: string): string =>
  [...word.padEnd(32, '.')]
    .slice(0, 32)
    .map((letter) => letter.charCodeAt(0).toString(16).padStart(2, '0').slice(-2))
    .join('');

type Order = Readonly<{
  id: string;
  portName: string;
  purpose: ReportSweep['purpose'];
  startedAt: string;
  pluggedIn: PluggedIn;
}>;

/** A sweep of Mill Lane as the simulated meter reads it, every 6 MHz of the port's design. */
export function simulatedReportSweep({ id, portName, purpose, startedAt, pluggedIn }: Order): ReportSweep {
  const port = station.ports.find(({ name }) => name === portName);
  if (port === undefined) throw new Error(portName);
  const { lowMhz, highMhz } = port.design ?? { lowMhz: 54, highMhz: 870 };
  const stepMhz = highMhz > 100 ? 6 : 1;
  const frequenciesMhz = Array.from(
    { length: Math.floor((highMhz - lowMhz - 3) / stepMhz) + 1 },
    (_, i) => lowMhz + 3 + i * stepMhz,
  );
  const probe = { station, portName, pluggedIn, ambientC: 12 };
  const readings = frequenciesMhz.map((frequencyMhz, place) => ({
    frequencyMhz,
    meterDbmv: simulatedMeterDbmv(scenario, probe, frequencyMhz, place + Number(id.slice(-2)) * 1000),
    kind: simulatedKind(scenario, portName, frequencyMhz),
  }));
  return {
    sweepId: id,
    station,
    portName,
    purpose,
    state: 'complete',
    source: 'meter',
    sourceName: 'simulated',
    meter: {
      maker: 'Quillmere Instruments',
      model: BENCH_METER.model,
      serialNumber: 'QI-0042',
      firmware: '1.0',
      calibratedOn: '2025-11-20',
    },
    startedAt,
    endReason: null,
    pluggedIn,
    rows: rowsAtPort(readings, port.testPointLossDb),
    conditions: { meter: BENCH_METER.sheet, ambientC: 12 },
    sheet: { from: 'model', model: BENCH_METER.model },
    sha256: madeUpHash(id),
    voided: null,
    corrects: null,
    correctedBy: null,
  };
}

const before = installedOf(station);
/** What is proposed for the sweep as found: see the test of the report. */
export const CHANGES = [
  { position: 'input equalizer', from: 12, to: 14 },
  { position: 'input pad', from: 12, to: 10 },
] as const;
const after: PluggedIn = {
  ...before,
  ...Object.fromEntries(CHANGES.map(({ position, to }) => [position, to])),
};

const output = 'forward output';
const uuid = (last: string): string => `5e1f0c7a-0000-4000-8000-0000000000${last}`;

/** A visit to Mill Lane: read, two parts changed, read again; the return read; one sweep declared void. */
export function reportedVisit(changed: Partial<ReportVisit> = {}): ReportVisit {
  const voidOne = simulatedReportSweep({
    id: uuid('01'),
    portName: output,
    purpose: 'as-found',
    startedAt: '2026-03-02T09:05:00.000Z',
    pluggedIn: before,
  });
  return {
    visitId: uuid('ff'),
    operator: 'P. Ferreira',
    ambientC: 12,
    startedAt: '2026-03-02T09:02:00.000Z',
    endedAt: '2026-03-02T09:41:00.000Z',
    cautionsReadAt: '2026-03-02T09:02:00.000Z',
    note: 'Span was rehung with a longer cable.',
    place: PLACE,
    program: '0.1.0',
    sweeps: [
      {
        ...voidOne,
        voided: {
          reason: 'probe was on the wrong test point',
          by: 'P. Ferreira',
          at: '2026-03-02T09:10:00.000Z',
        },
      },
      simulatedReportSweep({
        id: uuid('02'),
        portName: output,
        purpose: 'as-found',
        startedAt: '2026-03-02T09:12:00.000Z',
        pluggedIn: before,
      }),
      simulatedReportSweep({
        id: uuid('03'),
        portName: output,
        purpose: 'as-left',
        startedAt: '2026-03-02T09:26:00.000Z',
        pluggedIn: after,
      }),
      simulatedReportSweep({
        id: uuid('04'),
        portName: 'return output',
        purpose: 'as-found',
        startedAt: '2026-03-02T09:33:00.000Z',
        pluggedIn: after,
      }),
    ],
    fittings: CHANGES.map((change, i) => ({ ...change, at: `2026-03-02T09:2${i}:00.000Z` })),
    turns: [],
    setUps: [],
    pluggedIn: after,
    ...changed,
  };
}

export function reportFrame(changed: Partial<ReportFrame> = {}): ReportFrame {
  return {
    station,
    revision: 1,
    lineUp: null,
    trims: [{ name: 'output slope', kind: 'slope', rangeDb: [-1.5, 1.5], atMhz: 54 }],
    truck: null,
    units: UNITS,
    head: { device: uuid('dd'), seq: 4127, hash: madeUpHash('head') },
    program: '0.1.0',
    madeAt: '2026-03-02T10:00:00.000Z',
    dataSha256: madeUpHash('data'),
    ...changed,
  };
}
