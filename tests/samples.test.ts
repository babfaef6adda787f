import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { learnLineUp } from '../core/channels/learn-line-up.ts';
import { MeterUncertainty } from '../core/files/meter-uncertainty.ts';
import { readPlan } from '../core/files/plan.ts';
import { rasterPlan } from '../core/files/raster-plan.ts';
import { installedOf, type PluggedIn, readStation } from '../core/files/station.ts';
import { readStationNotes } from '../core/files/station-notes.ts';
import { readSweepCsv } from '../core/files/sweep-csv.ts';
import { readTruck } from '../core/files/truck.ts';
import { writeSweepCsv } from '../core/files/write-csv.ts';
import { fitSweep } from '../core/line/fit-sweep.ts';
import type { LevelRow } from '../core/line/level-row.ts';
import { rowsAtPort } from '../core/line/port-level.ts';
import { predictRows } from '../core/propose/predict.ts';
import { propose } from '../core/propose/propose.ts';
import { simulatedKind, simulatedMeterDbmv } from '../core/simulate/level.ts';
import { type DemoStation, quillmere } from '../core/simulate/quillmere.ts';
import { quillmereNotes } from '../core/simulate/quillmere-notes.ts';
import { root } from './support/source-files.ts';

// The files of sample-sweeps are what the invented network gives. `UPDATE_SAMPLES=1` writes them anew.
const folder = join(root, 'sample-sweeps');
const updating = process.env.UPDATE_SAMPLES === '1';

const slugOf = ({ station }: DemoStation) => station.name.toLowerCase().replaceAll(' ', '-');
const demoOf = (slug: string): DemoStation => {
  const demo = quillmere.find((one) => slugOf(one) === slug);
  if (demo === undefined) throw new Error(`no station ${slug}`);
  return demo;
};
const portOf = ({ station }: DemoStation, portName: string) => {
  const port = station.ports.find(({ name }) => name === portName);
  if (port === undefined) throw new Error(portName);
  return port;
};
const design = { lowMhz: 54, highMhz: 870 };

/** A sweep as a technician keeps it: the meter's tenths, levels of the port, a line about where and how. */
function sweepOf(demo: DemoStation, portName: string, pluggedIn: PluggedIn, draw: number, title: string) {
  const port = portOf(demo, portName);
  const probe = { station: demo.station, portName, pluggedIn, ambientC: null };
  const readings = rasterPlan(port.design ?? design, port.direction === 'forward' ? 6 : 1).map(
    (frequencyMhz) => {
      const meterDbmv = simulatedMeterDbmv(demo.scenario, probe, frequencyMhz, draw);
      return {
        frequencyMhz,
        meterDbmv: meterDbmv === null ? null : Math.round(meterDbmv * 10) / 10,
        kind: simulatedKind(demo.scenario, portName, frequencyMhz),
      };
    },
  );
  return writeSweepCsv(rowsAtPort(readings, port.testPointLossDb), [
    `Quillmere (invented), ${demo.station.name}, ${portName}, ${title}`,
    `${demo.scenario.weatherC} degrees C; level at the port: the meter's and ${port.testPointLossDb} dB of test point loss`,
  ]);
}

/** What the station file has no key for: its channels, all 256-QAM carried on the design line, two trims and a meter. */
const notesOf = (rows: readonly LevelRow[], figures: object) => {
  const learned = learnLineUp(rows);
  if (!learned.ok) throw new Error(learned.help);
  const trim = { rangeDb: [-2, 2], atMhz: 867, port: 'forward output' };
  return {
    format: 'tiltwright-station-notes/1',
    lineUp: learned.value.entries.map(({ channelLabel, frequencyMhz, kind, widthMhz }) => ({
      ...{ channelLabel, frequencyMhz, kind, qamOrder: 256, widthMhz, offsetDb: 0 },
    })),
    trims: [
      { name: 'output gain', kind: 'gain', ...trim },
      { name: 'output slope', kind: 'slope', ...trim },
    ],
    meter: { accuracyDb: 0.4, testPointToleranceDb: 0.2 },
    ...figures,
  };
};

/** A truck late in the week: some pads and equalizers are out. */
const truck = {
  format: 'tiltwright-truck/1',
  parts: [
    ...[4, 2, 3, 2, 0, 2, 1, 0, 3, 1, 2, 1, 1].map((count, valueDb) => ({
      ...{ kind: 'pad', valueDb, count, toleranceDb: 0.2 },
    })),
    ...[2, 1, 1, 0, 2, 1, 0, 1, 1].map((count, i) => ({
      ...{ kind: 'equalizer', topMhz: 870, valueDb: 2 * i, count, toleranceDb: 0.3 },
    })),
  ],
};

/** Lists of numbers and names on as few lines as fit, so that a station file can be read at a glance. */
const jsonOf = (value: unknown): string => {
  const width = 110;
  const text = JSON.stringify(value, null, 2).replace(
    /^( *)(.*)\[\n([^[\]{}]+)\n *\](,?)$/gm,
    (_all, indent: string, key: string, list: string, comma: string) => {
      const items = list.split(/,\n/).map((item) => item.trim());
      const line = `${indent}${key}[${items.join(', ')}]${comma}`;
      if (line.length <= width) return line;
      const lines: string[] = [];
      for (const item of items) {
        const last = lines.at(-1);
        if (last !== undefined && `${last}, ${item},`.length <= width)
          lines[lines.length - 1] = `${last}, ${item}`;
        else lines.push(`${indent}  ${item}`);
      }
      return `${indent}${key}[\n${lines.join(',\n')}\n${indent}]${comma}`;
    },
  );
  // A thing of a few words and numbers stands on one line.
  const onOneLine = text.replace(
    /^( *)\{\n([^{}[\]]+)\n *\}(,?)$/gm,
    (all, indent: string, inner: string, comma) => {
      const line = `${indent}{ ${inner.trim().replace(/\n */g, ' ')} }${comma}`;
      return /"(kind)": /.test(inner) && line.length <= width ? line : all;
    },
  );
  return `${onOneLine}\n`;
};

const read = (name: string): string => readFileSync(join(folder, name), 'utf8');
const rowsOf = (name: string): readonly LevelRow[] => {
  const sweep = readSweepCsv(read(name), name);
  if (!sweep.ok) throw new Error(`${sweep.where}: ${sweep.help}`);
  return sweep.value.rows;
};
const stationOf = (slug: string) => {
  const station = readStation(read(`${slug}.station.json`), slug);
  if (!station.ok) throw new Error(`${station.where}: ${station.help}`);
  return station.value;
};
const proposalOf = (slug: string, inputSweep?: string) => {
  const proposal = propose({
    rows: rowsOf(`${slug}.as-found.csv`),
    station: stationOf(slug),
    portName: 'forward output',
    inputRows: inputSweep === undefined ? undefined : rowsOf(inputSweep),
    keepAll: true,
  });
  if (!proposal.ok) throw new Error(`${proposal.where}: ${proposal.help}`);
  return proposal.value;
};
const fitOf = (name: string) => {
  const fit = fitSweep(rowsOf(name), { keepAll: true });
  if (!fit.ok) throw new Error(fit.help);
  return fit.value;
};

/** Every file but the README, as the network gives it now. */
function generated(): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  for (const demo of quillmere) {
    const installed = installedOf(demo.station);
    files.set(`${slugOf(demo)}.station.json`, jsonOf(demo.station));
    const figures = quillmereNotes[demo.station.id];
    if (figures !== undefined)
      files.set(`${slugOf(demo)}.notes.json`, jsonOf({ format: 'tiltwright-station-notes/1', ...figures }));
    files.set(`${slugOf(demo)}.as-found.csv`, sweepOf(demo, 'forward output', installed, 0, 'as found'));
  }
  const mill = demoOf('07-mill-lane');
  const rows = readSweepCsv(files.get('07-mill-lane.as-found.csv') ?? '', 'as found');
  const input = sweepOf(mill, 'forward input', installedOf(mill.station), 0, 'as found');
  const inputRows = readSweepCsv(input, 'input');
  if (!rows.ok || !inputRows.ok) throw new Error('the generated sweep does not read');
  const proposal = propose({
    rows: rows.value.rows,
    station: mill.station,
    portName: 'forward output',
    inputRows: inputRows.value.rows,
  });
  if (!proposal.ok) throw new Error(proposal.help);
  const fitted = proposal.value.recommended.values;
  files.set('07-mill-lane.forward-input.csv', input);
  files.set(
    '07-mill-lane.as-left.csv',
    sweepOf(mill, 'forward output', { ...installedOf(mill.station), ...fitted }, 1, 'as left'),
  );
  files.set(
    '03-ropewalk.return-output.csv',
    sweepOf(
      demoOf('03-ropewalk'),
      'return output',
      installedOf(demoOf('03-ropewalk').station),
      0,
      'as found',
    ),
  );
  files.set(
    '07-mill-lane.notes.json',
    jsonOf(notesOf(rows.value.rows, quillmereNotes[mill.station.id] ?? {})),
  );
  files.set('truck.json', jsonOf(truck));
  const plan = { format: 'tiltwright-plan/1', frequenciesMhz: rasterPlan(design, 6), testPointLossDb: 20 };
  files.set('forward.plan.json', jsonOf(plan));
  return files;
}

describe('sample-sweeps', () => {
  const files = generated();
  if (updating) {
    if (!existsSync(folder)) mkdirSync(folder);
    for (const [name, text] of files) writeFileSync(join(folder, name), text);
  }

  it('holds exactly what the invented network gives', () => {
    const kept = readdirSync(folder).filter((name) => name !== 'README.md');
    expect(kept.sort()).toEqual([...files.keys()].sort());
    for (const [name, text] of files) expect(read(name), name).toBe(text);
  });

  it('names every kind of its files in its README', () => {
    for (const kind of [
      'truck.json',
      'notes.json',
      'station.json',
      'as-found.csv',
      'as-left.csv',
      'forward-input.csv',
      'plan.json',
    ])
      expect(read('README.md')).toContain(kind);
  });

  it('has a plan of 136 channels', () => {
    const plan = readPlan(read('forward.plan.json'), 'forward.plan.json');
    expect(plan.ok && [plan.value.frequenciesMhz.length, plan.value.testPointLossDb]).toEqual([136, 20]);
  });
});

describe('the stories that the samples tell', () => {
  it('03 Ropewalk: in order, nothing to change', () => {
    const { recommended, before } = proposalOf('03-ropewalk');
    expect(recommended.changes).toEqual([]);
    expect(before.worstDb).toBeLessThan(1);
    // 10 dB from 54 to 870 MHz by design, so 9.93 dB from 57 to 867 MHz.
    expect(Math.abs(fitOf('03-ropewalk.as-found.csv').tiltDb - 9.93)).toBeLessThan(0.5);
    expect(fitOf('03-ropewalk.return-output.csv').flatnessDb).toBeLessThan(2);
  });

  it('07 Mill Lane: low at the top; an equalizer and a pad bring it within tolerance, and the new sweep agrees', () => {
    const { recommended, before, feasible } = proposalOf('07-mill-lane', '07-mill-lane.forward-input.csv');
    expect(feasible).toBe(true);
    expect(before.worstDb).toBeGreaterThan(2);
    expect(recommended.worstDb).toBeLessThan(1);
    expect(recommended.changes.map(({ position }) => position).sort()).toEqual([
      'input equalizer',
      'input pad',
    ]);
    const station = stationOf('07-mill-lane');
    const predicted = predictRows(
      rowsOf('07-mill-lane.as-found.csv'),
      station,
      'forward output',
      installedOf(station),
      recommended.values,
    );
    const left = rowsOf('07-mill-lane.as-left.csv');
    const offDb = left.map((row, i) => (row.levelDbmv ?? 0) - (predicted[i]?.levelDbmv ?? 0));
    // Two readings of 0.1 dB each, and tenths: rms below 0.2 dB, none beyond 0.8 dB.
    expect(Math.sqrt(offDb.reduce((sum, off) => sum + off * off, 0) / offDb.length)).toBeLessThan(0.2);
    expect(Math.max(...offDb.map(Math.abs))).toBeLessThan(0.8);
  });

  it('07 Mill Lane with what is in the truck, its trims and its meter: nothing is named that is not there', () => {
    const notes = readStationNotes(read('07-mill-lane.notes.json'), 'notes');
    const stock = readTruck(read('truck.json'), 'truck');
    if (!notes.ok || !stock.ok) throw new Error('the generated notes or truck do not read');
    const proposal = propose({
      rows: rowsOf('07-mill-lane.as-found.csv'),
      station: stationOf('07-mill-lane'),
      inputRows: rowsOf('07-mill-lane.forward-input.csv'),
      truck: stock.value,
      trims: notes.value.trims,
      lineUp: notes.value.lineUp,
      uncertainty: { meter: notes.value.meter ?? MeterUncertainty.parse({}), ambientC: 12 },
    });
    if (!proposal.ok) throw new Error(proposal.help);
    const { recommended, why, predicted, feasible } = proposal.value;
    expect(feasible).toBe(true);
    expect(why.dominant).toBe('tilt');
    expect(predicted).toHaveLength(136);
    for (const { position, to } of recommended.changes) {
      const kind = position.includes('pad') ? 'pad' : 'equalizer';
      const held = stock.value.parts.find((part) => part.kind === kind && part.valueDb === to);
      expect(held?.count, `${position} ${to}`).toBeGreaterThan(0);
    }
    expect((recommended.withTrims ?? recommended).worstDb).toBeLessThan(0.7);
  });

  it.each([
    ['11-customs-quay', 3],
    ['14-saltpan-road', 4],
    ['bench-module-b2', 2.5],
  ])('%s: a shape that no plug-in takes away', (slug, leastFlatnessDb) => {
    const { best, recommended } = proposalOf(slug);
    expect(recommended.flatnessDb).toBeGreaterThan(leastFlatnessDb);
    expect(best.worstDb).toBeGreaterThan(1);
  });

  it('19 Lighthouse Rise: high in the frost, more so at the top', () => {
    const fit = fitOf('19-lighthouse-rise.as-found.csv');
    expect(fit.highDbmv - 46).toBeGreaterThan(1);
    expect(fit.highDbmv - 46).toBeGreaterThan(fit.lowDbmv - 36);
    expect(proposalOf('19-lighthouse-rise').before.worstDb).toBeGreaterThan(1);
  });
});
