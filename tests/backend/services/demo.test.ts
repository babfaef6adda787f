import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import type { EventData } from '../../../core/bridge/contract.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';
import { openBackend } from '../../../electron/backend/backend.ts';
import { LOG_FILE } from '../../../electron/backend/log.ts';
import { throwAwayFolder } from '../../support/archive.ts';

const signal = new AbortController().signal;
const frequenciesMhz = [61.25, 201, 501, 861];

/** The backend as a host opens it: nothing in it is a stand-in. */
async function realBackend(dataDir: string) {
  let ended = Promise.withResolvers<EventData<'sweep.ended'>>();
  const backend = await openBackend({
    dataDir,
    host: 'memory',
    emit: (name, data) => {
      if (name === 'sweep.ended' && 'state' in data) ended.resolve(data);
    },
  });
  onTestFinished(() => backend.close());
  const call = backend.handlers;
  const levels = async (visitId: string): Promise<number[]> => {
    ended = Promise.withResolvers();
    const plan = { visitId, portName: 'forward output', purpose: 'check', frequenciesMhz } as const;
    const { sweepId } = await call['sweeps.start']({ ...plan, frequenciesMhz: [...frequenciesMhz] }, signal);
    expect(await ended.promise).toMatchObject({ state: 'complete', reason: null });
    return (await call['sweeps.open']({ sweepId }, signal)).readings.map(
      ({ meterDbmv }) => meterDbmv ?? Number.NaN,
    );
  };
  return { backend, call, levels };
}

it('lets the simulated meter read what was plugged in on the screen', async () => {
  const folder = throwAwayFolder();
  const { call, levels } = await realBackend(folder);
  const { stationIds } = await call['demo.load']({}, signal);
  const stationId = stationIds[1] ?? '';
  await call['meters.connect']({ kind: 'simulated' }, signal);
  const begun = { stationId, operator: '', ambientC: 12, cautionsRead: true } as const;
  const { visitId } = await call['visits.begin'](begun, signal);
  const before = await levels(visitId);

  const { pluggedIn, station } = await call['stations.open']({ stationId }, signal);
  const pad = station.positions.find(({ name }) => name === 'input pad');
  const from = pluggedIn['input pad'] ?? Number.NaN;
  const to = pad?.values.find((value) => value >= from + 3) ?? Number.NaN;
  await call['parts.fit'](
    { visitId, changes: [{ position: 'input pad', from, to }], proposal: null },
    signal,
  );
  const after = await levels(visitId);
  // A pad takes its value at every frequency (contract, section 2); the simulated meter has a little noise.
  after.forEach((level, i) => {
    expect(Math.abs(level - (before[i] ?? Number.NaN) + (to - from))).toBeLessThan(0.5);
  });
  expect(existsSync(join(folder, LOG_FILE))).toBe(true);
});

it('knows every station of the demo by its own story, and lists it', async () => {
  const { call } = await realBackend(throwAwayFolder());
  await call['demo.load']({}, signal);
  const { stations } = await call['stations.list']({}, signal);
  expect(stations.map(({ name }) => name)).toEqual(quillmere.map(({ station }) => station.name));
});

it('works in a folder that is no good place for records, and warns of it', async () => {
  const { call } = await realBackend(join(throwAwayFolder(), 'Sync'));
  const { folderWarning } = await call['care.read']({}, signal);
  expect(folderWarning).toMatch(/^a program copies this folder elsewhere/);
  const { call: elsewhere } = await realBackend(throwAwayFolder());
  expect((await elsewhere['care.read']({}, signal)).folderWarning).toBeNull();
});
