import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { copyFileSync, existsSync, statSync, truncateSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it, onTestFinished, vi } from 'vitest';
import { MARKER_FILE } from '../../../electron/backend/archive/marker.ts';
import { ARCHIVE_FILE, ENDED_BY_RECOVERY } from '../../../electron/backend/archive/open.ts';
import { lookInto, openTestArchive, stationFile, throwAwayFolder } from '../../support/archive.ts';

// Programs are started and killed here; on a busy machine that alone takes seconds.
vi.setConfig({ testTimeout: 60_000 });

const program = fileURLToPath(new URL('recording-child.ts', import.meta.url));

/** A program that records; what it has told so far is in `told`. */
function recordingIn(folder: string, paceMs: number, readings = 158) {
  const child = spawn(process.execPath, [program, folder, stationFile(), String(paceMs), String(readings)], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  onTestFinished(() => {
    child.kill('SIGKILL');
  });
  let text = '';
  child.stdout.setEncoding('utf8').on('data', (more: string) => {
    text += more;
  });
  let complaint = '';
  child.stderr.setEncoding('utf8').on('data', (more: string) => {
    complaint += more;
  });
  const lines = () => text.split('\n').slice(0, -1);
  return { child, lines, complaint: () => complaint };
}

async function killed(child: ChildProcess): Promise<void> {
  child.kill('SIGKILL');
  // "close" comes after the last of its output, "exit" may come before.
  if (child.exitCode === null && child.signalCode === null) await once(child, 'close');
}

type Recording = ReturnType<typeof recordingIn>;

async function untilLines({ child, lines, complaint }: Recording, count: number): Promise<void> {
  while (lines().length < count) {
    if (child.exitCode !== null) throw new Error(`the program ended by itself: ${complaint()}`);
    await new Promise((resolve) => setTimeout(resolve, 1));
  }
}

/** What was told, sweep by sweep: the levels in order, in thousandths of dBmV. */
function acknowledgedIn(lines: readonly string[]): Map<string, number[]> {
  const sweeps = new Map<string, number[]>();
  for (const line of lines) {
    const [word, sweepId, index, level] = line.split(' ');
    if (word !== 'reading' || sweepId === undefined) continue;
    const levels = sweeps.get(sweepId) ?? [];
    expect(Number(index)).toBe(levels.length);
    levels.push(Number(level));
    sweeps.set(sweepId, levels);
  }
  return sweeps;
}

// Lines told before the kill, and the meter's pace in ms: 0 makes batches, 2 and 25 fall within and beyond the pace.
it.each([
  [2, 25],
  [9, 25],
  [60, 2],
  [40, 0],
  [400, 0],
  [1200, 0],
])(
  'a program killed after %i lines, at %i ms a reading, loses nothing that it had told',
  async (count, paceMs) => {
    const folder = throwAwayFolder();
    const recording = recordingIn(folder, paceMs);
    const { child, lines } = recording;
    await untilLines(recording, count);
    // The moment itself is left to chance, within some milliseconds.
    await new Promise((resolve) => setTimeout(resolve, Math.random() * 12));
    await killed(child);
    const acknowledged = acknowledgedIn(lines());

    const archive = openTestArchive(folder);
    for (const [sweepId, levels] of acknowledged) {
      const row = archive.sweeps.byId(sweepId);
      const kept = archive.sweeps.readings(row?.seq ?? -1).map(({ meterMdbmv }) => meterMdbmv);
      expect(kept.slice(0, levels.length)).toEqual(levels);
      expect(row?.readingCount).toBe(kept.length);
    }
    const begun = lines()
      .filter((line) => line.startsWith('sweep '))
      .map((line) => line.slice(6));
    const ended = new Set(
      lines()
        .filter((line) => line.startsWith('ended '))
        .map((line) => line.slice(6)),
    );
    for (const sweepId of begun) {
      const row = archive.sweeps.byId(sweepId);
      // Killed between its last reading and our hearing of its end, a sweep may be complete.
      const partial = { state: 'partial', reason: ENDED_BY_RECOVERY };
      const whole = { state: 'complete', readingCount: 158 };
      expect(row).toMatchObject(row?.readingCount === 158 && row.state === 'complete' ? whole : partial);
      if (ended.has(sweepId)) expect(row).toMatchObject(whole);
    }
    expect(archive.recovered.length).toBeLessThanOrEqual(1);
    expect(archive.sweeps.unfinished()).toEqual([]);
    archive.close();
    expect(lookInto(folder, (db) => db.pragma('quick_check', { simple: true }))).toBe('ok');
    // It is recovered once.
    expect(openTestArchive(folder).recovered).toEqual([]);
  },
);

it('a log cut at any place, as by a power cut, leaves the older readings and an archive that can be used', async () => {
  const whole = throwAwayFolder();
  const recording = recordingIn(whole, 0);
  const { child, lines } = recording;
  await untilLines(recording, 200);
  await killed(child);
  const log = `${ARCHIVE_FILE}-wal`;
  const { size } = statSync(join(whole, log));
  expect(size).toBeGreaterThan(50_000);

  const counts: number[] = [];
  for (let cut = 0; cut <= 40; cut += 1) {
    const folder = throwAwayFolder();
    for (const file of [ARCHIVE_FILE, log, MARKER_FILE]) copyFileSync(join(whole, file), join(folder, file));
    truncateSync(join(folder, log), Math.floor((size * cut) / 40));
    const archive = openTestArchive(folder);
    let count = 0;
    for (const { sweepId } of archive.stations
      .list()
      .flatMap(({ stationId }) => archive.sweeps.ofStation(stationId))) {
      const row = archive.sweeps.byId(sweepId);
      const readings = archive.sweeps.readings(row?.seq ?? -1);
      expect(readings.map(({ meterMdbmv }) => meterMdbmv)).toEqual(
        readings.map((_, i) => Math.round(Math.sin(54 + i * 5) * 10_000)),
      );
      expect(row?.state).not.toBeNull();
      count += readings.length;
    }
    counts.push(count);
    archive.close();
    expect(lookInto(folder, (db) => db.pragma('quick_check', { simple: true }))).toBe('ok');
  }
  expect(counts).toEqual(counts.toSorted((a, b) => a - b));
  expect(counts[0]).toBe(0);
  expect(counts.at(-1)).toBeGreaterThanOrEqual([...acknowledgedIn(lines()).values()].flat().length);
});

it('two programs do not share a folder, and the second says so in one line; a killed one leaves it free', async () => {
  const folder = throwAwayFolder();
  const recording = recordingIn(folder, 25);
  await untilLines(recording, 2);
  expect(() => openTestArchive(folder)).toThrow(
    expect.objectContaining({
      code: 'in-use',
      where: folder,
      help: expect.stringMatching(
        /^another Tiltwright is at work in this folder; close it, or start .*--data.*$/,
      ),
    }),
  );
  const second = recordingIn(folder, 25);
  const [exitCode] = await once(second.child, 'close');
  expect(exitCode).not.toBe(0);
  expect(second.complaint()).toContain(`${folder}: another Tiltwright is at work in this folder`);
  await killed(recording.child);
  expect(openTestArchive(folder).stations.list()).toHaveLength(1);
});

it('the same program does not open a folder twice either, and may open it again after closing', () => {
  const folder = throwAwayFolder();
  const first = openTestArchive(folder);
  expect(() => openTestArchive(folder)).toThrow(/another Tiltwright/);
  // The refusal must not have let the first one's lock go.
  expect(() => openTestArchive(folder)).toThrow(/another Tiltwright/);
  first.close();
  expect(openTestArchive(folder).stations.list()).toEqual([]);
  expect(existsSync(join(folder, ARCHIVE_FILE))).toBe(true);
});
