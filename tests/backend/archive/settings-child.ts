import { writeSync } from 'node:fs';
import { FIRST_SETTINGS } from '../../../core/bridge/settings-calls.ts';
import { createBackend } from '../../../electron/backend/backend.ts';
import { createFakeMeterShop } from '../../support/fake-meter.ts';

/*
 * A program of its own that changes settings and swaps a pad in and out of a truck until it is killed. Each line on
 * standard output is what a technician has been told: "settings REVISION" or "fitted REVISION PAD".
 */
const [dataDir, stationText] = process.argv.slice(2);
if (dataDir === undefined || stationText === undefined) throw new Error('folder and station are needed');
const say = (line: string) => writeSync(1, `${line}\n`);
const nothing = () => undefined;
const signal = new AbortController().signal;
const now = () => new Date();

const { handlers: call } = await createBackend({
  dataDir,
  host: 'memory',
  version: '0',
  meters: createFakeMeterShop({ now }),
  emit: nothing,
  now,
  newId: () => crypto.randomUUID(),
  log: { info: nothing, warn: nothing, error: nothing },
});
const { stationId } = await call['stations.import']({ fileName: 's.json', text: stationText }, signal);
const begun = { stationId, operator: '', ambientC: null, cautionsRead: true } as const;
const { visitId } = await call['visits.begin'](begun, signal);
const parts = [1, 2].map((valueDb) => ({ kind: 'pad' as const, valueDb, count: 1 }));
await call['truck.change']({ basedOn: 0, truck: { format: 'tiltwright-truck/1', parts } }, signal);
let from = 6;
for (let revision = 0; ; revision += 1) {
  const levelUnit = revision % 2 === 0 ? 'dBuV' : 'mV';
  const kept = await call['settings.change'](
    { basedOn: revision, settings: { ...FIRST_SETTINGS, levelUnit } },
    signal,
  );
  say(`settings ${kept.revision}`);
  const to = from === 1 ? 2 : 1;
  await call['parts.fit'](
    { visitId, changes: [{ position: 'input pad', from, to }], proposal: null },
    signal,
  );
  from = to;
  say(`fitted ${(await call['truck.read']({}, signal)).revision} ${to}`);
}
