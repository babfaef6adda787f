import type { Input, Output } from '../../../core/bridge/contract.ts';
import { orderedJson, thousandthsOf } from '../archive/quantities.ts';
import type { SweepRow } from '../archive/sweeps.ts';
import { summaryOf } from './as-records.ts';
import { type Designs, portOf } from './designs.ts';
import { refuseOnFullDisk } from './disk-room.ts';
import type { Meters } from './meters.ts';
import { originalFile } from './original-file.ts';
import { probeNow } from './probe-at.ts';
import { readingsOf } from './readings.ts';
import { type Runs, STOPPED_BY_HAND } from './runs.ts';
import { refused, type ServiceParts } from './service-parts.ts';
import { sweepFile } from './sweep-file.ts';
import { importSweep } from './sweep-import.ts';
import { rereadSweep } from './sweep-reread.ts';
import type { Visits } from './visits.ts';

export type Sweeps = Readonly<{
  start(input: Input<'sweeps.start'>): Output<'sweeps.start'>;
  stop(input: Input<'sweeps.stop'>): Promise<void>;
  open(input: Input<'sweeps.open'>): Output<'sweeps.open'>;
  pause(input: Input<'sweeps.pause'>): void;
  reread(input: Input<'sweeps.reread'>): Promise<Output<'sweeps.reread'>>;
  import(input: Input<'sweeps.import'>): Output<'sweeps.import'>;
  export(input: Input<'sweeps.export'>): Output<'sweeps.export'>;
  original(input: Input<'sweeps.original'>): Output<'sweeps.original'>;
}>;

export function createSweeps(
  parts: ServiceParts,
  designs: Designs,
  visits: Visits,
  meters: Meters,
  runs: Runs,
): Sweeps {
  const { archive, now, newId, log } = parts;

  const known = (sweepId: string): SweepRow => {
    const row = archive.sweeps.byId(sweepId);
    if (row === undefined) throw refused('no-such-sweep', `sweep ${sweepId}`, 'it is not in this archive');
    return row;
  };

  return {
    start({ visitId, portName, purpose, frequenciesMhz, repeats = 1 }) {
      const visit = visits.openVisit(visitId);
      const design = designs.newest(visit.stationId);
      const port = portOf(design.station, portName);
      const meter = meters.inUse();
      if (runs.running() !== null)
        throw refused('sweep-running', 'meter', 'a sweep is running; let it end or stop it first');
      refuseOnFullDisk(archive);
      runs.settleHeld();
      const probe = probeNow(archive, design, portName, visit.ambientMc);
      meter.moveProbe(probe);
      const sweepId = newId();
      const seq = archive.write(() =>
        archive.sweeps.add({
          sweepId,
          visit: visit.seq,
          stationId: visit.stationId,
          revision: design.revision,
          portName,
          hasDesign: port.design !== undefined,
          purpose,
          source: 'meter',
          sourceName: meter.profileName,
          meter: orderedJson(meters.current()?.identity ?? meter.identity),
          testPointLossMdb: thousandthsOf(port.testPointLossDb),
          ambientMc: visit.ambientMc,
          plannedCount: frequenciesMhz.length,
          pluggedIn: orderedJson(probe.pluggedIn),
          startedAtMs: now().getTime(),
        }),
      );
      log.info(
        { sweepId, stationId: visit.stationId, portName, count: frequenciesMhz.length },
        'sweep begun',
      );
      runs.start(meter, { sweepId, seq, stationId: visit.stationId, visitId, frequenciesMhz, repeats });
      return { sweepId };
    },
    async stop({ sweepId }) {
      // One that has ended meanwhile needs no stopping.
      if (!(await runs.stop(sweepId, STOPPED_BY_HAND))) known(sweepId);
    },
    open({ sweepId }) {
      const row = known(sweepId);
      return {
        summary: summaryOf(row, runs.unended(sweepId)),
        readings: readingsOf(archive, row),
      };
    },
    pause({ sweepId, paused }) {
      // One that has ended meanwhile needs no rest.
      if (!runs.pause(sweepId, paused)) known(sweepId);
    },
    reread: async ({ sweepId }) => await rereadSweep(parts, known(sweepId)),
    import: (input) => importSweep(parts, designs, visits, input),
    original: ({ sweepId }) => originalFile(archive, known(sweepId)),
    export({ sweepId }) {
      const held = runs.held().find((one) => one.sweepId === sweepId)?.rows;
      return sweepFile(archive, designs, known(sweepId), runs.unended(sweepId), held);
    },
  };
}
