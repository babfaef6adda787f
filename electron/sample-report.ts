import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { EventData } from '../core/bridge/contract.ts';
import type { ReportOf } from '../core/bridge/report-calls.ts';
import { rowsAtPort } from '../core/line/port-level.ts';
import { propose } from '../core/propose/propose.ts';
import packageJson from '../package.json' with { type: 'json' };
import { createBackend } from './backend/backend.ts';
import { createMeterShop } from './backend/meters/connect.ts';

/*
 * Makes the sample reports in docs/: a visit to Mill Lane on the invented network, read with the simulated meter, two
 * parts changed, read again. The archive is a throw-away one, so its chain is another each time.
 */
const BEGUN = Date.parse('2026-03-02T09:02:00.000Z');
const RASTER = { forward: 6, return: 1 } as const;
const signal = new AbortController().signal;
const folder = mkdtempSync(join(tmpdir(), 'tiltwright-sample-'));
const startedAt = Date.now();
/** A clock that began that morning and goes as this machine's does, but sixty times as fast. */
const now = () => new Date(BEGUN + (Date.now() - startedAt) * 60);
const silent = () => undefined;
const ended = new Map<string, (end: EventData<'sweep.ended'>) => void>();
const waiting: EventData<'sweep.ended'>[] = [];

const { handlers, close } = await createBackend({
  dataDir: folder,
  host: 'memory',
  version: packageJson.version,
  meters: createMeterShop({ now }),
  emit: (name, data) => {
    if (name !== 'sweep.ended') return;
    // The name says which event it is; TypeScript does not follow that for a generic one.
    const told = data as EventData<'sweep.ended'>;
    const waiter = ended.get(told.sweepId);
    if (waiter === undefined) waiting.push(told);
    else waiter(told);
  },
  now,
  newId: randomUUID,
  log: { info: silent, warn: silent, error: silent },
});

try {
  const { stationIds } = await handlers['demo.load']({}, signal);
  const stationId = stationIds.find((id) => id.includes('mill-lane'));
  if (stationId === undefined) throw new Error('the demo has no Mill Lane');
  const { station } = await handlers['stations.open']({ stationId }, signal);
  const visit = await handlers['visits.begin'](
    { stationId, operator: 'P. Ferreira', ambientC: 12, cautionsRead: true },
    signal,
  );
  await handlers['meters.connect']({ kind: 'simulated' }, signal);

  const read = async (portName: string, purpose: 'as-found' | 'as-left') => {
    const port = station.ports.find(({ name }) => name === portName);
    if (port?.design === undefined) throw new Error(`${portName} has no design`);
    const { lowMhz, highMhz } = port.design;
    const stepMhz = RASTER[port.direction];
    const count = Math.floor((highMhz - lowMhz - stepMhz / 2) / stepMhz) + 1;
    const frequenciesMhz = Array.from({ length: count }, (_, i) => lowMhz + stepMhz / 2 + i * stepMhz);
    const { sweepId } = await handlers['sweeps.start'](
      { visitId: visit.visitId, portName, purpose, frequenciesMhz },
      signal,
    );
    if (!waiting.some((end) => end.sweepId === sweepId))
      await new Promise<unknown>((resolve) => {
        ended.set(sweepId, resolve);
      });
    return await handlers['sweeps.open']({ sweepId }, signal);
  };

  const found = await read('forward output', 'as-found');
  const proposal = propose({
    rows: rowsAtPort(found.readings, found.summary.testPointLossDb),
    station,
    portName: 'forward output',
    pluggedIn: found.summary.pluggedIn,
  });
  if (!proposal.ok) throw new Error(proposal.help);
  const { changes, values, worstDb } = proposal.value.recommended;
  await handlers['parts.fit'](
    {
      visitId: visit.visitId,
      changes: changes.map((change) => ({ ...change })),
      proposal: {
        sweepId: found.summary.sweepId,
        values: { ...values },
        worstBeforeDb: proposal.value.before.worstDb,
        worstPredictedDb: worstDb,
      },
    },
    signal,
  );
  await read('forward output', 'as-left');
  await read('return output', 'as-left');
  await handlers['visits.end'](
    { visitId: visit.visitId, note: 'The span was rehung with a longer cable after the storm.' },
    signal,
  );

  const make = async (of: ReportOf, form: 'pdf' | 'html', path: string) => {
    const { base64 } = await handlers['reports.make']({ of, form, paper: 'a4' }, signal);
    writeFileSync(path, Buffer.from(base64, 'base64'));
  };
  await make({ kind: 'visit', visitId: visit.visitId }, 'pdf', 'docs/sample-report.pdf');
  await make({ kind: 'visit', visitId: visit.visitId }, 'html', 'docs/sample-report.html');
  await make({ kind: 'label', visitId: visit.visitId, count: 1 }, 'pdf', 'docs/sample-label.pdf');
} finally {
  await close();
  rmSync(folder, { recursive: true, force: true });
}
