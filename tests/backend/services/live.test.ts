import { cpSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import type { EventData } from '../../../core/bridge/contract.ts';
import { LIVE_PAGE } from '../../../core/bridge/live-calls.ts';
import { ArchiveFault } from '../../../electron/backend/archive/archive-fault.ts';
import { MeterFault } from '../../../electron/backend/meters/meter-shop.ts';
import { openTestArchive, throwAwayFolder } from '../../support/archive.ts';
import { joined, refusalOf } from './joined.ts';

type Bench = Awaited<ReturnType<typeof joined>>;
const at = { stationId: 'slipway', portName: 'forward output', frequencyMhz: 711 };

const startOf = (bench: Bench, more: Readonly<Record<string, unknown>> = {}) =>
  bench.handlers['live.start']({ ...at, visitId: bench.visit.visitId, ...more }, bench.signal);
const toldOf = (bench: Bench) =>
  bench.sent.flatMap((event) =>
    event.name === 'live.reading' ? [event.data as EventData<'live.reading'>] : [],
  );
const endOf = (bench: Bench) =>
  bench.until(() => {
    const end = bench.sent.find(({ name }) => name === 'live.ended');
    return end === undefined ? false : (end.data as EventData<'live.ended'>);
  });
const openOf = (bench: Bench, liveId: string, fromSeq = 0) =>
  bench.handlers['live.open']({ liveId, fromSeq }, bench.signal);

describe('a live reading', () => {
  it('tells each level after it is on the disk, numbered from 0, with its port', async () => {
    const keptWhenTold: number[] = [];
    const bench = await joined({ script: { levelDbmv: () => 25.5 } });
    const run = await startOf(bench);
    expect(run).toMatchObject({ ...at, testPointLossDb: 20 });
    await bench.until(() => {
      const told = toldOf(bench);
      if (told.length > keptWhenTold.length)
        keptWhenTold.push((bench.archive.lives.byId(run.liveId)?.readingCount ?? 0) - told.length);
      return told.length >= 5;
    });
    expect(keptWhenTold.every((ahead) => ahead >= 0)).toBe(true);
    await bench.handlers['live.stop']({ liveId: run.liveId }, bench.signal);
    const told = toldOf(bench);
    expect(told.map(({ seq }) => seq)).toEqual(told.map((_, i) => i));
    expect(told[0]).toMatchObject({ liveId: run.liveId, meterDbmv: 25.5, testPointLossDb: 20 });
    const elapsed = told.map(({ elapsedMs }) => elapsedMs);
    expect(elapsed).toEqual([...elapsed].sort((a, b) => a - b));
    expect(await endOf(bench)).toEqual({ liveId: run.liveId, readingCount: told.length, reason: null });
    const kept = await openOf(bench, run.liveId);
    expect(kept).toMatchObject({ running: false, endReason: null, readingCount: told.length });
    expect(kept.readings.map(({ meterDbmv }) => meterDbmv)).toEqual(told.map(() => 25.5));
    expect((await openOf(bench, run.liveId, 3)).readings[0]?.seq).toBe(3);
  });

  it('tells that there is no level', async () => {
    const bench = await joined({ script: { levelDbmv: () => null } });
    await startOf(bench);
    const [first] = await bench.until(() => toldOf(bench).length > 0 && toldOf(bench));
    expect(first?.meterDbmv).toBeNull();
    await bench.close();
  });

  it('is found again by a page that was loaded anew', async () => {
    const bench = await joined();
    expect(await bench.handlers['live.current']({}, bench.signal)).toEqual({ live: null });
    const run = await startOf(bench, { visitId: null });
    expect(await bench.handlers['live.current']({}, bench.signal)).toEqual({ live: run });
    await bench.close();
  });

  it('is the only one, and shares the meter with no sweep', async () => {
    const bench = await joined();
    const { liveId } = await startOf(bench);
    expect(await refusalOf(() => startOf(bench))).toMatchObject({ code: 'live-running' });
    expect(await refusalOf(() => bench.start())).toMatchObject({ code: 'live-running' });
    expect(
      await refusalOf(() => bench.handlers['meters.connect']({ kind: 'simulated' }, bench.signal)),
    ).toMatchObject({ code: 'live-running' });
    expect(await refusalOf(() => bench.handlers['meters.disconnect']({}, bench.signal))).toMatchObject({
      code: 'live-running',
    });
    await bench.handlers['live.stop']({ liveId }, bench.signal);
    const sweepId = await bench.start();
    expect(await refusalOf(() => startOf(bench))).toMatchObject({ code: 'sweep-running' });
    await bench.endOf(sweepId);
  });

  it('is refused without a meter, a port, or a visit of this station that is open', async () => {
    const bench = await joined();
    expect(await refusalOf(() => startOf(bench, { portName: 'nowhere' }))).toMatchObject({
      code: 'no-such-port',
    });
    expect(
      await refusalOf(() => startOf(bench, { visitId: '7d4a3c52-6f0e-4c1b-9a55-0d3f7b1c2e90' })),
    ).toMatchObject({ code: 'no-such-visit' });
    await bench.handlers['meters.disconnect']({}, bench.signal);
    expect(await refusalOf(() => startOf(bench))).toMatchObject({ code: 'no-meter' });
    expect(
      await refusalOf(() =>
        bench.handlers['live.stop']({ liveId: '7d4a3c52-6f0e-4c1b-9a55-0d3f7b1c2e90' }, bench.signal),
      ),
    ).toMatchObject({ code: 'no-such-live' });
  });

  it('ends with the visit', async () => {
    const bench = await joined();
    await startOf(bench);
    await bench.until(() => toldOf(bench).length > 0);
    await bench.handlers['visits.end']({ visitId: bench.visit.visitId, note: '' }, bench.signal);
    expect(await endOf(bench)).toMatchObject({ reason: 'the visit was ended' });
  });

  it('keeps what was read when the meter is lost, and says what would help', async () => {
    const bench = await joined();
    const { liveId } = await startOf(bench);
    await bench.until(() => toldOf(bench).length > 3);
    bench.meter().lose(new MeterFault('lost', '/dev/scripted', 'plug it in again'));
    expect((await endOf(bench)).reason).toBe('/dev/scripted: plug it in again');
    expect((await openOf(bench, liveId)).readingCount).toBe(toldOf(bench).length);
  });

  it('goes on without a page for a while, and then ends by itself', async () => {
    let pages = 0;
    const bench = await joined({ gainControl: { clients: () => pages, withoutPageMs: 150 } });
    await startOf(bench);
    await pause(80);
    pages = 1;
    await pause(250);
    expect(bench.sent.some(({ name }) => name === 'live.ended')).toBe(false);
    pages = 0;
    expect((await endOf(bench)).reason).toBe('no page was there for a minute');
  });

  it('tells nothing that the disk did not take, and says so', async () => {
    let full = false;
    const bench = await joined({
      archive: (archive) => ({
        ...archive,
        keep: (work) => {
          if (full) throw new ArchiveFault('full', archive.path, 'the disk is full');
          return archive.keep(work);
        },
      }),
    });
    const { liveId } = await startOf(bench);
    await bench.until(() => toldOf(bench).length > 3);
    full = true;
    expect((await endOf(bench)).reason).toContain('the disk is full');
    full = false;
    expect((await openOf(bench, liveId)).readingCount).toBe(toldOf(bench).length);
  });

  it('is whole after the program was killed in its middle: everything told is there, and its end is written', async () => {
    const bench = await joined();
    const { liveId } = await startOf(bench);
    const told = await bench.until(() => toldOf(bench).length > 10 && toldOf(bench).length);
    const left = throwAwayFolder();
    cpSync(bench.folder, left, { recursive: true });
    const archive = openTestArchive(left);
    const row = archive.lives.byId(liveId);
    expect(row?.readingCount).toBeGreaterThanOrEqual(told);
    expect(row?.reason).toContain('the program ended in the middle');
    expect(archive.lives.unfinished()).toEqual([]);
    await bench.close();
    expect((await endOf(bench)).reason).toContain('the program was closed');
  });

  it('gives its readings by the page', async () => {
    const bench = await joined();
    const { liveId } = await startOf(bench);
    await bench.until(() => toldOf(bench).length > 2);
    await bench.handlers['live.stop']({ liveId }, bench.signal);
    expect((await openOf(bench, liveId)).readings.length).toBeLessThanOrEqual(LIVE_PAGE);
    expect((await openOf(bench, liveId, 100_000)).readings).toEqual([]);
  });

  it('moves its probe when a part is fitted under it', async () => {
    const bench = await joined();
    await startOf(bench);
    const changes = [{ position: 'input pad', from: 6, to: 3 }];
    await bench.handlers['parts.fit'](
      { visitId: bench.visit.visitId, changes, proposal: null },
      bench.signal,
    );
    expect(bench.meter().probes.at(-1)?.pluggedIn['input pad']).toBe(3);
    await bench.close();
  });
});
