import { expect, it } from 'vitest';
import type { StationNotes } from '../../../core/files/station-notes.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';
import { quillmereNotes } from '../../../core/simulate/quillmere-notes.ts';
import { joined, refusalOf } from './joined.ts';

type Bench = Awaited<ReturnType<typeof joined>>;
const read = (bench: Bench, stationId: string) => bench.handlers['cascade.read']({ stationId }, bench.signal);
const fedBy = async (bench: Bench, stationId: string, by: string) => {
  const { revision: basedOn } = await bench.handlers['notes.read']({ stationId }, bench.signal);
  const notes: StationNotes = { format: 'tiltwright-station-notes/1', cascade: { fedBy: by } };
  await bench.handlers['notes.change']({ stationId, basedOn, notes }, bench.signal);
};
const ropewalk = 'qm4-03-ropewalk';
const millLane = 'qm4-07-mill-lane';

it('follows the notes of the invented network from its last station to the node', async () => {
  const bench = await joined();
  await bench.handlers['demo.load']({}, bench.signal);
  const { links, unknownId } = await read(bench, 'qm4-19-lighthouse-rise');
  expect(unknownId).toBeNull();
  expect(links.map(({ station }) => station.id)).toEqual(
    quillmere.map(({ station }) => station.id).filter((id) => quillmereNotes[id] !== undefined),
  );
  expect(links[0]?.notes?.cascade?.source?.cnrDb).toBe(52);
  for (const { output, station } of links)
    if (output !== null)
      expect(output.summary).toMatchObject({ stationId: station.id, portName: 'forward output' });
});

it('loads the demo again without touching what was changed since', async () => {
  const bench = await joined();
  await bench.handlers['demo.load']({}, bench.signal);
  await fedBy(bench, ropewalk, 'elsewhere');
  await bench.handlers['demo.load']({}, bench.signal);
  expect(await read(bench, millLane)).toMatchObject({ unknownId: 'elsewhere', links: [{}, {}] });
});

it('gives the newest complete sweep of the output, whatever became of a later one', async () => {
  const bench = await joined({ script: { levelDbmv: () => 20 } });
  await bench.endOf(await bench.start());
  const { links } = await read(bench, 'slipway');
  expect(links).toHaveLength(1);
  expect(links[0]?.output?.readings.length).toBeGreaterThan(0);
  expect(links[0]?.output?.summary).toMatchObject({ state: 'complete', portName: 'forward output' });
  expect(links[0]?.notes).toBeNull();
});

it('refuses a ring, and a station that nobody knows', async () => {
  const bench = await joined();
  await bench.handlers['demo.load']({}, bench.signal);
  await fedBy(bench, ropewalk, millLane);
  expect(await refusalOf(() => read(bench, millLane))).toMatchObject({ code: 'cascade-goes-round' });
  expect(await refusalOf(() => read(bench, 'nowhere'))).toMatchObject({ code: 'no-such-station' });
});
