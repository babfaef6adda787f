import { expect, it } from 'vitest';
import type { ProposalNote } from '../../../core/bridge/records.ts';
import { stationFile } from '../../support/archive.ts';
import { joined, refusalOf } from './joined.ts';

type Bench = Awaited<ReturnType<typeof joined>>;
const plugIn = (bench: Bench, position: string, from: number, to: number) =>
  bench.handlers['parts.fit'](
    { visitId: bench.visit.visitId, changes: [{ position, from, to }], proposal: null },
    bench.signal,
  );

it('changes what is plugged in, what the meter sees next and what the sweep says', async () => {
  const bench = await joined();
  await plugIn(bench, 'input pad', 6, 3);
  await plugIn(bench, 'input pad', 3, 1);
  await plugIn(bench, 'input equalizer', 8, 4);
  const now = { 'input pad': 1, 'input equalizer': 4 };
  expect((await bench.sheet()).pluggedIn).toEqual(now);
  const sweepId = await bench.start();
  await bench.endOf(sweepId);
  expect(bench.meter().probes.at(-1)?.pluggedIn).toEqual(now);
  expect((await bench.open(sweepId)).summary.pluggedIn).toEqual(now);
  expect((await bench.sheet()).fittings.map(({ change }) => change)).toEqual([
    { position: 'input equalizer', from: 8, to: 4 },
    { position: 'input pad', from: 3, to: 1 },
    { position: 'input pad', from: 6, to: 3 },
  ]);
});

it('lets a new design revision say what is in, and starts over from there', async () => {
  const bench = await joined();
  await plugIn(bench, 'input pad', 6, 3);
  const [pad, equalizer] = JSON.parse(stationFile()).positions;
  const revised = stationFile({ positions: [{ ...pad, installed: 2 }, equalizer] });
  expect(
    await bench.handlers['stations.import']({ fileName: 's.json', text: revised }, bench.signal),
  ).toMatchObject({ revision: 2 });
  expect((await bench.sheet()).pluggedIn).toEqual({ 'input pad': 2, 'input equalizer': 8 });
  await plugIn(bench, 'input pad', 2, 0);
  const sheet = await bench.sheet();
  expect(sheet.pluggedIn['input pad']).toBe(0);
  expect(sheet.fittings).toHaveLength(2);
});

it('takes back what the design found installed, although the kit does not hold it', async () => {
  const bench = await joined();
  await plugIn(bench, 'input pad', 6, 3);
  await plugIn(bench, 'input pad', 3, 6);
  expect((await bench.sheet()).pluggedIn['input pad']).toBe(6);
});

it.each([
  ['a position that is not there', 'output pad', 6, 3, 'no-such-position'],
  ['something else than what is in', 'input pad', 5, 3, 'not-what-is-in'],
  ['a value that is not in the kit', 'input pad', 6, 2.5, 'not-in-the-kit'],
  ['the same value', 'input pad', 6, 6, 'no-change'],
  ['a name that every object has', 'constructor', 6, 3, 'no-such-position'],
])('refuses %s', async (_what, position, from, to, code) => {
  const bench = await joined();
  expect(await refusalOf(() => plugIn(bench, position, from, to))).toMatchObject({ code });
  expect((await bench.sheet()).fittings).toEqual([]);
});

it('keeps the proposal and its parts together or not at all', async () => {
  const bench = await joined();
  const sweepId = await bench.start();
  await bench.endOf(sweepId);
  const proposal = {
    sweepId,
    values: { 'input pad': 3, 'input equalizer': 6 },
    worstBeforeDb: 3.25,
    worstPredictedDb: 0.4,
  };
  const asked = (changes: { position: string; from: number; to: number }[], note: ProposalNote = proposal) =>
    bench.handlers['parts.fit']({ visitId: bench.visit.visitId, changes, proposal: note }, bench.signal);
  const pad = { position: 'input pad', from: 6, to: 3 };
  const equalizer = { position: 'input equalizer', from: 8, to: 6 };

  expect(await refusalOf(() => asked([pad, { ...equalizer, from: 2 }]))).toMatchObject({
    code: 'not-what-is-in',
  });
  expect(await refusalOf(() => asked([pad, pad]))).toMatchObject({ code: 'twice' });
  expect(
    await refusalOf(() => asked([pad], { ...proposal, sweepId: '00000000-0000-4000-8000-000000000999' })),
  ).toMatchObject({ code: 'no-such-sweep' });
  expect(
    await refusalOf(() => asked([pad], { ...proposal, values: { ...proposal.values, 'no pad': 1 } })),
  ).toMatchObject({ code: 'no-such-position' });
  const before = await bench.sheet();
  expect([before.fittings, before.proposals]).toEqual([[], []]);

  const { fittings } = await asked([pad, equalizer]);
  const { proposals } = await bench.sheet();
  expect(proposals).toMatchObject([{ note: proposal }]);
  expect(fittings.map(({ change, proposalId }) => [change.position, proposalId])).toEqual([
    ['input pad', proposals[0]?.proposalId],
    ['input equalizer', proposals[0]?.proposalId],
  ]);
});

it('takes nothing after the end of the visit', async () => {
  const bench = await joined();
  await bench.handlers['visits.end']({ visitId: bench.visit.visitId, note: '' }, bench.signal);
  expect(await refusalOf(() => plugIn(bench, 'input pad', 6, 3))).toMatchObject({ code: 'visit-ended' });
});
