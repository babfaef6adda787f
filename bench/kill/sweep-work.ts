import { setTimeout as rest } from 'node:timers/promises';
import { stationFile } from '../../tests/support/station-file.ts';
import { below, oneOf, stationOf, visitAt, type Work } from './work.ts';

/** Long enough for the daily backup to find no sweep running, which it waits for. */
const LATE_MS = 400;
const LENGTHS = [3, 40, 158, 600, 1200];

/** Reads one sweep after another; some are paused or stopped by hand, and the visit ends now and then. */
export async function sweepWork(work: Work): Promise<void> {
  const { call, signal, chance, tell, enter, leave, head, quiet, sweepHeard } = work;
  const stationId = await stationOf(work, stationFile());
  await call['meters.connect']({ kind: 'serial', path: 'COM3', profile: 'line' }, signal);
  if (chance() < 0.5) await rest(LATE_MS);
  for (;;) {
    await quiet.give();
    const visitId = await visitAt(work, stationId);
    const planned = oneOf(chance, LENGTHS);
    const ended = new Promise<void>((resolve) => {
      sweepHeard.ended = (state, count) => {
        tell({ say: 'swept', sweepId, state, count });
        resolve();
      };
    });
    enter('reading a sweep');
    const { sweepId } = await call['sweeps.start'](
      {
        ...{ visitId, portName: 'forward output', purpose: 'check' },
        frequenciesMhz: Array.from({ length: planned }, (_, i) => 54 + i / 2),
      },
      signal,
    );
    tell({ say: 'sweep', sweepId, planned });
    const manner = chance();
    if (manner < 0.15) {
      await rest(below(chance, 60));
      await call['sweeps.stop']({ sweepId }, signal);
    } else if (manner < 0.3) {
      await rest(below(chance, 30));
      await call['sweeps.pause']({ sweepId, paused: true }, signal);
      await rest(below(chance, 30));
      await call['sweeps.pause']({ sweepId, paused: false }, signal);
    }
    await ended;
    leave('reading a sweep');
    head();
    if (chance() < 0.2) {
      const note = `left ${below(chance, 1e6)}`;
      await call['visits.end']({ visitId, note }, signal);
      tell({ say: 'visit-ended', visitId, note });
      head();
    }
    await rest(below(chance, 40));
  }
}
