import { expect, it, onTestFinished } from 'vitest';
import { fillArchive } from '../../../bench/archive-filled.ts';
import { createDesigns } from '../../../electron/backend/services/designs.ts';
import { createLookAhead } from '../../../electron/backend/services/look-ahead.ts';
import { createQuality } from '../../../electron/backend/services/quality.ts';
import type { Runs } from '../../../electron/backend/services/runs.ts';
import { createSettings } from '../../../electron/backend/services/settings.ts';
import { openTestArchive, testParts, throwAwayFolder } from '../../support/archive.ts';
import { soon } from '../../support/soon.ts';

const signal = new AbortController().signal;
const nobody: Pick<Runs, 'running'> = { running: () => null };

/** Six sweeps in three stations that nobody has looked at yet. */
function unlooked() {
  const folder = throwAwayFolder();
  fillArchive(folder, 6, 3).close();
  const archive = openTestArchive(folder);
  const parts = { ...testParts(), archive };
  const designs = createDesigns(archive);
  const settings = createSettings(parts, designs);
  const quality = createQuality(archive, designs, settings, { list: () => ({ setUps: [] }) });
  const kept = () =>
    archive.stations.page(0, 10).map(({ stationId, face }) => {
      const trend = archive.stations.trend(stationId)?.trend ?? null;
      return { face: face !== null, trend: trend !== null };
    });
  const begin = (runs = nobody) => {
    const ahead = createLookAhead(parts, quality, runs, 5);
    onTestFinished(() => ahead.close());
    return ahead;
  };
  return { archive, parts, quality, kept, begin };
}
const all = (is: boolean) => Array.from({ length: 3 }, () => ({ face: is, trend: is }));

it('works out what the table shows before anybody asks, exactly as when somebody does', async () => {
  const asked = unlooked();
  const first = await asked.quality.stations({ after: 0, limit: 10 }, signal);
  const ids = first.stations.map(({ stationId }) => stationId);
  const trends = await asked.quality.trends({ stationIds: ids }, signal);

  const { kept, begin, quality } = unlooked();
  expect(kept()).toEqual(all(false));
  begin();
  await soon(() => kept().every(({ trend }) => trend));
  expect(kept()).toEqual(all(true));
  const later = await quality.stations({ after: 0, limit: 10 }, signal);
  const bare = ({ stations }: typeof later) =>
    stations.map((row) => ({ ...row, standing: { ...row.standing, sweepId: null } }));
  expect(bare(later)).toEqual(bare(first));
  expect(await quality.trends({ stationIds: ids }, signal)).toEqual(trends);
});

it('looks again where something was recorded, and at that station alone', async () => {
  const { archive, kept, begin } = unlooked();
  begin();
  await soon(() => kept().every(({ trend }) => trend));
  const [changed] = archive.sweeps.newestOfEach();
  if (changed === undefined) throw new Error('no sweep');
  archive.write(() =>
    archive.sweeps.declareVoid(changed.seq, {
      voidId: crypto.randomUUID(),
      reason: 'wrong port',
      operator: 'Ida',
      voidedAtMs: changed.startedAtMs,
    }),
  );
  expect(kept().filter(({ face }) => face)).toHaveLength(2);
  await soon(() => kept().every(({ trend }) => trend));
});

it('waits while a sweep is read', async () => {
  let reading = true;
  const { kept, begin } = unlooked();
  begin({ running: () => (reading ? ({} as ReturnType<Runs['running']>) : null) });
  await new Promise((resolve) => setTimeout(resolve, 60));
  expect(kept()).toEqual(all(false));
  reading = false;
  await soon(() => kept().every(({ trend }) => trend));
});

it('does nothing after it was closed', async () => {
  const { kept, begin } = unlooked();
  await begin().close();
  await new Promise((resolve) => setTimeout(resolve, 60));
  expect(kept()).toEqual(all(false));
});
