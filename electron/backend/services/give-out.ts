import { randomUUID } from 'node:crypto';
import { once } from 'node:events';
import { createWriteStream } from 'node:fs';
import { open, readdir, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { setImmediate as turn } from 'node:timers/promises';
import { createGzip } from 'node:zlib';
import {
  RECORDS_ENDING,
  RECORDS_FORMAT,
  type RecordsScope,
  recordsText,
} from '../../../core/files/records-file.ts';
import { recordsFrame } from '../archive/give-out.ts';
import type { Archive } from '../archive/open.ts';
import { refused } from './service-parts.ts';

const PORTION_MS = 10;

export type GivenOut = Readonly<{
  path: string;
  fileName: string;
  records: number;
  sweeps: number;
  bytes: number;
  head: Readonly<{ device: string; seq: number; hash: string }>;
}>;

const dayOf = (ms: number): string => new Date(ms).toISOString().slice(0, 10);
const plainName = (text: string): string => text.replace(/[^\p{L}\p{N}._-]+/gu, '-').slice(0, 60);

/** What a file of these records is called: whose, of what, and when it was made. */
export function recordsFileName(device: string, what: RecordsScope, madeAtMs: number): string {
  const station = 'stationId' in what ? [plainName(what.stationId)] : [];
  const days = 'fromMs' in what ? [`${dayOf(what.fromMs)}-to-${dayOf(what.toMs - 1)}`] : [];
  const of = [...station, ...days];
  const at = new Date(madeAtMs).toISOString().slice(0, 19).replace(/[-:]/g, '');
  return `tiltwright-${device.slice(0, 8)}-${of.length === 0 ? 'everything' : of.join('-')}-${at}Z${RECORDS_ENDING}`;
}

/** Beginnings of files that programs of this laptop were ended over; those of others may still be written. */
async function removeParts(folder: string, beginning: string): Promise<void> {
  const names = await readdir(folder).catch(() => []);
  for (const name of names)
    if (name.startsWith(beginning) && /\.[0-9a-f]{8}\.part$/.test(name))
      await rm(join(folder, name), { force: true });
}

/**
 * Writes the records that were asked for into a file, in small portions, so that a sweep that is being recorded does not
 * wait. The file has its name only when it is whole and on the disk.
 * @param path  where it goes, never over a file that is there; a folder that is there gets a file with a telling name
 * @param told  how many records are written so far
 * @throws  `Refused` when nothing was asked for that is there, the file is there already or can't be written; the signal's reason
 */
export async function giveOut(
  archive: Archive,
  { what, path, madeAtMs }: Readonly<{ what: RecordsScope; path: string; madeAtMs: number }>,
  signal: AbortSignal,
  told: (records: number) => void = () => undefined,
): Promise<GivenOut> {
  if ('stationId' in what && !archive.stations.has(what.stationId))
    throw refused('no-station', what.stationId, 'no station has this id; see the list of stations');
  if ('fromMs' in what && what.fromMs >= what.toMs)
    throw refused(
      'bad-period',
      `${dayOf(what.fromMs)} to ${dayOf(what.toMs)}`,
      'say two days, the first not after the last',
    );
  const { device, seq, hash } = archive.head();
  const found = await stat(path).catch(() => null);
  const isFolder = found?.isDirectory() === true;
  if (found !== null && !isFolder)
    throw refused(
      'unwritable',
      path,
      'there is a file of this name; name another one, nothing is written over',
    );
  const fileName = recordsFileName(device, what, madeAtMs);
  const whole = isFolder ? join(path, fileName) : path;
  await removeParts(dirname(whole), isFolder ? `tiltwright-${device.slice(0, 8)}-` : `${basename(whole)}.`);
  const part = `${whole}.${randomUUID().slice(0, 8)}.part`;
  const first = recordsText({
    format: RECORDS_FORMAT,
    device,
    madeAtMs,
    program: archive.program,
    what,
    head: { seq, hash },
  });
  const frame = recordsFrame(first);
  const gzip = createGzip();
  const file = createWriteStream(part, { flags: 'wx' });
  const closed = new Promise<void>((resolve) => file.once('close', () => resolve()));
  const failed = new Promise<never>((_, reject) => {
    file.on('error', reject);
    gzip.on('error', reject);
  });
  // Awaited below wherever something waits; alone it must not end the program.
  failed.catch(() => undefined);
  gzip.pipe(file);
  const put = async (text: string) => {
    if (!gzip.write(text)) await Promise.race([once(gzip, 'drain'), failed]);
  };
  let sweeps = 0;
  try {
    await put(first);
    const lines = archive.transfer.giveOut(what);
    let since = performance.now();
    let records = 0;
    for (let step = lines.next(); ; step = lines.next()) {
      if (step.done === true) {
        records = step.value;
        break;
      }
      frame.add(step.value);
      if (step.value.includes('"kind":"sweep"')) sweeps += 1;
      records += 1;
      await put(step.value);
      if (performance.now() - since < PORTION_MS) continue;
      told(records);
      await turn();
      signal.throwIfAborted();
      since = performance.now();
    }
    if (records === 0)
      throw refused(
        'nothing-there',
        fileName,
        'nothing was recorded of this; choose another station or a longer period',
      );
    gzip.end(frame.last(records));
    await Promise.race([closed, failed]);
    const handle = await open(part, 'r+');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
    const { size } = await stat(part);
    await rename(part, whole);
    return {
      path: whole,
      fileName: isFolder ? fileName : whole,
      records,
      sweeps,
      bytes: size,
      head: { device, seq, hash },
    };
  } catch (fault) {
    gzip.destroy();
    file.destroy();
    // A file that is still being opened would come into being after it was removed.
    await closed;
    await rm(part, { force: true });
    const code = fault instanceof Error && 'code' in fault ? String(fault.code) : null;
    if (code !== null && /^E[A-Z]+$/.test(code))
      throw refused(
        'not-written',
        whole,
        `the file can't be written (${code}); choose another folder or free some space`,
      );
    throw fault;
  }
}
