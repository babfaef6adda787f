import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { RecordsScope } from '../../core/files/records-file.ts';
import { type Archive, openArchive } from '../../electron/backend/archive/open.ts';
import { orderedJson } from '../../electron/backend/archive/quantities.ts';
import { giveOut } from '../../electron/backend/services/give-out.ts';
import { takeIn } from '../../electron/backend/services/take-in.ts';
import { verify } from '../../electron/backend/services/verify.ts';
import { sessionFacts, stationFile } from './archive.ts';

export const never = new AbortController().signal;
const LEVELS = 6;

/** A folder for the files that go from laptop to laptop. */
export function stick(): string {
  const folder = mkdtempSync(join(tmpdir(), 'tiltwright-stick-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

export function laptop(folder = stick()): Archive {
  const archive = openArchive({ folder, session: sessionFacts(crypto.randomUUID()) });
  onTestFinished(() => archive.close());
  return archive;
}

/** What a hand may do on a laptop. */
export type Deed =
  | Readonly<{ do: 'visit'; station: string; atMs: number; levelDbmv: number; isOpen: boolean }>
  | Readonly<{ do: 'design'; station: string; atMs: number; pad: number }>
  | Readonly<{ do: 'notes'; station: string; atMs: number }>
  | Readonly<{ do: 'void' | 'correct'; atMs: number }>;

export function design(archive: Archive, stationId: string, atMs: number, pad: number): void {
  archive.write(() => {
    if (!archive.stations.has(stationId)) archive.stations.add(stationId, atMs);
    const revision = archive.stations.lastRevision(stationId) + 1;
    const text = stationFile({ id: stationId, name: `${stationId} ${pad}` });
    const row = { stationId, revision, name: `${stationId} ${pad}`, design: orderedJson(JSON.parse(text)) };
    archive.stations.addRevision({ ...row, addedAtMs: atMs, fileName: 's.json' });
  });
}

/** A visit with one sweep that a meter read, its bytes, a fitting, and its end unless it stays open. */
export function visitOf(
  archive: Archive,
  stationId: string,
  { atMs, levelDbmv, isOpen }: Readonly<{ atMs: number; levelDbmv: number; isOpen: boolean }>,
): string {
  if (!archive.stations.has(stationId)) design(archive, stationId, atMs, 0);
  const sweepId = crypto.randomUUID();
  archive.write(() => {
    const visitId = crypto.randomUUID();
    const { revision = 1 } = archive.stations.newestDesign(stationId) ?? {};
    archive.visits.add({
      ...{ visitId, stationId, operator: 'R. Voss', ambientMc: 12_000 },
      ...{ cautionsReadAtMs: atMs, startedAtMs: atMs },
    });
    const visit = archive.visits.byId(visitId)?.seq ?? 0;
    const pluggedIn = { 'input pad': 6, 'input equalizer': 8 };
    const seq = archive.sweeps.add({
      ...{ sweepId, visit, stationId, revision, portName: 'forward output', hasDesign: true },
      ...{ purpose: 'as-found', source: 'meter', sourceName: 'simulated', testPointLossMdb: 20_000 },
      meter: orderedJson({ maker: 'Q', model: 'Level 4', serialNumber: '1', firmware: '1' }),
      ...{ ambientMc: null, plannedCount: LEVELS, pluggedIn: orderedJson(pluggedIn), startedAtMs: atMs },
    });
    for (let place = 0; place < LEVELS; place += 1)
      archive.sweeps.addReading(seq, place, {
        frequencyHz: 54_012_500 + place * 160_000_000,
        meterMdbmv: place === 3 ? null : levelDbmv * 1000 + place * 100,
        kind: place < 3 ? 'analog' : null,
        takenAtMs: atMs + place * 20,
      });
    archive.meterLinks.addPortion(seq, 0, Buffer.from([0x78, place(atMs), 1]));
    archive.sweeps.end(seq, {
      ...{ state: 'complete', reason: null, recovered: false, readingCount: LEVELS },
      endedAtMs: atMs + LEVELS * 20,
    });
    if (!isOpen) archive.visits.end(visit, 'left', atMs + 1000);
  });
  return sweepId;
}
const place = (atMs: number): number => atMs % 251;

function amend(archive: Archive, what: 'void' | 'correct', atMs: number): void {
  const sweeps = archive.stations.list().flatMap(({ stationId }) => archive.sweeps.ofStation(stationId));
  const sweep = sweeps.find(({ voidReason }) => voidReason === null);
  if (sweep === undefined) return;
  const said = { reason: 'the test point is a 16 dB one', operator: 'R. Voss' };
  archive.write(() => {
    if (what === 'void')
      archive.sweeps.declareVoid(sweep.seq, { voidId: crypto.randomUUID(), ...said, voidedAtMs: atMs });
    else
      archive.sweeps.correct(sweep.seq, {
        ...{ sweepId: crypto.randomUUID(), ...said, correctedAtMs: atMs, testPointLossMdb: 16_000 },
        ...{ portName: sweep.portName, hasDesign: true, purpose: sweep.purpose, ambientMc: 3000 },
      });
  });
}

export function live(archive: Archive, deeds: readonly Deed[]): void {
  for (const deed of deeds) {
    switch (deed.do) {
      case 'visit':
        if (archive.stations.factsOf([deed.station])[0]?.openVisit !== 1)
          visitOf(archive, deed.station, deed);
        break;
      case 'design':
        design(archive, deed.station, deed.atMs, deed.pad);
        break;
      case 'notes': {
        const { station, atMs } = deed;
        const json = orderedJson({ format: 'tiltwright-station-notes/1' });
        if (archive.stations.has(station))
          archive.write(() => archive.settings.addNotes(station, { json, changedAtMs: atMs }));
        break;
      }
      case 'void':
      case 'correct':
        amend(archive, deed.do, deed.atMs);
    }
  }
}

let made = Date.parse('2026-11-25T08:00:00Z');
export const give = (archive: Archive, path: string, what: RecordsScope = { kind: 'everything' }) => {
  made += 1000;
  return giveOut(archive, { what, path, madeAtMs: made }, never);
};
export const take = (archive: Archive, path: string) =>
  takeIn(archive, { path, operator: 'R. Voss', now: () => new Date(made) }, never);

export const recordLines = (archive: Archive): readonly string[] => [
  ...archive.transfer.giveOut({ kind: 'everything' }),
];

/** What the lists of stations and sweeps show, without any local number. */
export const listsOf = (archive: Archive) =>
  archive.stations.list().map(({ stationId }) => {
    const facts = archive.stations.factsOf([stationId])[0];
    return {
      stationId,
      name: facts?.name,
      judged: facts?.judgedSweepId,
      sweeps: archive.sweeps.ofStation(stationId).map(({ sweepId, voidReason, correctedBy }) => ({
        ...{ sweepId, voidReason, correctedBy },
      })),
      notes: archive.settings.newestNotes(stationId)?.json,
    };
  });

export const brokenIn = async (archive: Archive) => (await verify(archive, never)).broken;
