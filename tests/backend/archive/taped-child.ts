import { writeSync } from 'node:fs';
import { createBackend } from '../../../electron/backend/backend.ts';
import { createMeterShop } from '../../../electron/backend/meters/connect.ts';
import { createLineLink } from '../../../electron/backend/meters/lines-over-bytes.ts';
import { LineInstrument } from '../../../electron/backend/meters/simulated/line-instrument.ts';
import { wireToInstrument } from '../../../electron/backend/meters/simulated/link.ts';

/* A program of its own that reads one long sweep over a meter's wire until it is killed, and says each reading it told. */
const [dataDir, stationText, paceMs] = process.argv.slice(2);
if (dataDir === undefined || stationText === undefined) throw new Error('folder and station are needed');
const nothing = () => undefined;
const signal = new AbortController().signal;
const source = (frequencyMhz: number) => Math.round(Math.sin(frequencyMhz) * 100) / 10;
const pace = { messageMs: 0, readingMs: Number(paceMs) };

const { handlers } = await createBackend({
  dataDir,
  host: 'memory',
  version: '0',
  meters: createMeterShop({
    now: () => new Date(),
    find: async () => ({ ports: [], problem: null }),
    openSerial: async (path, { lines }) =>
      createLineLink(path, lines, wireToInstrument(new LineInstrument({ source }), pace)),
  }),
  emit: (name, data) => {
    if (name === 'sweep.reading' && 'reading' in data) writeSync(1, `reading ${data.sweepId}\n`);
  },
  now: () => new Date(),
  newId: () => crypto.randomUUID(),
  log: { info: nothing, warn: nothing, error: nothing },
});
const { stationId } = await handlers['stations.import']({ fileName: 's.json', text: stationText }, signal);
await handlers['meters.connect']({ kind: 'serial', path: 'COM3', profile: 'line' }, signal);
const begun = { stationId, operator: '', ambientC: null, cautionsRead: true } as const;
const { visitId } = await handlers['visits.begin'](begun, signal);
const frequenciesMhz = Array.from({ length: 1800 }, (_, i) => 54 + i / 2);
await handlers['sweeps.start'](
  { visitId, portName: 'forward output', purpose: 'check', frequenciesMhz },
  signal,
);
