import { writeSync } from 'node:fs';
import { createBackend } from '../../../electron/backend/backend.ts';
import { createFakeMeterShop } from '../../support/fake-meter.ts';

/*
 * A program of its own that reads one sweep after another until it is killed. Each line on standard output is what a
 * technician has seen: "sweep ID", then "reading ID INDEX MILLI-DBMV", written before anything else happens.
 */
const [dataDir, stationText, paceMs, readings] = process.argv.slice(2);
if (dataDir === undefined || stationText === undefined) throw new Error('folder and station are needed');
const say = (line: string) => writeSync(1, `${line}\n`);
const nothing = () => undefined;
const signal = new AbortController().signal;
let told = nothing as () => void;

const backend = await createBackend({
  dataDir,
  host: 'memory',
  version: '0',
  meters: createFakeMeterShop({
    now: () => new Date(),
    levelDbmv: (frequencyMhz) => Math.sin(frequencyMhz) * 10,
    ...(paceMs === undefined || paceMs === '0' ? {} : { paceMs: Number(paceMs) }),
  }),
  emit: (name, data) => {
    if (name === 'sweep.reading' && 'reading' in data)
      say(`reading ${data.sweepId} ${data.index} ${Math.round((data.reading.meterDbmv ?? 0) * 1000)}`);
    if (name === 'sweep.ended') told();
  },
  now: () => new Date(),
  newId: () => crypto.randomUUID(),
  log: { info: nothing, warn: nothing, error: nothing },
});
const call = backend.handlers;
const { stationId } = await call['stations.import']({ fileName: 's.json', text: stationText }, signal);
await call['meters.connect']({ kind: 'simulated' }, signal);
const begun = { stationId, operator: '', ambientC: null, cautionsRead: true } as const;
const { visitId } = await call['visits.begin'](begun, signal);
const frequenciesMhz = Array.from({ length: Number(readings ?? 158) }, (_, i) => 54 + i * 5);
say('ready');
for (;;) {
  const ended = new Promise<void>((resolve) => {
    told = resolve;
  });
  const plan = { visitId, portName: 'forward output', purpose: 'check', frequenciesMhz } as const;
  const { sweepId } = await call['sweeps.start'](plan, signal);
  say(`sweep ${sweepId}`);
  await ended;
  say(`ended ${sweepId}`);
}
