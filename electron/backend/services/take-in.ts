import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { basename } from 'node:path';
import { setImmediate as turn } from 'node:timers/promises';
import { createGunzip } from 'node:zlib';
import { checkedContents } from '../../../core/bridge/record-contents.ts';
import { Refused } from '../../../core/bridge/refused.ts';
import { createRecordsReader } from '../../../core/files/records-file-reader.ts';
import { type Refusal, refuse } from '../../../core/result.ts';
import { sqliteCodeOf } from '../archive/archive-fault.ts';
import { sha256Hex } from '../archive/chain.ts';
import type { Archive } from '../archive/open.ts';
import type { Brought } from '../archive/take-in.ts';

const PORTION_MS = 10;
const NEWLINE = 0x0a;
/** Beyond this a line is no record: a sweep with all that went over its wire takes a hundredth. */
const LONGEST_LINE = 128 * 1024 * 1024;

export type TakenIn = Brought &
  Readonly<{ fileName: string; sha256: string; device: string; madeAtMs: number }>;
export type TakeInOrder = Readonly<{
  path: string;
  /** As the person knows it; the path's own name where nothing is given. */
  fileName?: string | undefined;
  operator: string;
  now: () => Date;
  /** Waits until nothing is read that the last moment would hold up. */
  calm?: ((signal: AbortSignal) => Promise<void>) | undefined;
}>;
/** Bytes read so far and in all; all are read before anything is kept. */
export type TakeInTold = (done: number, total: number) => void;

const stop = (refusal: Refusal): never => {
  throw new Refused(refusal);
};

/** What a broken packing means for the person. */
function unpackingRefusal(fault: unknown, name: string): Refusal | null {
  const code = fault instanceof Error && 'code' in fault ? String(fault.code) : '';
  const words = fault instanceof Error ? fault.message : '';
  if (code === 'Z_BUF_ERROR')
    return refuse('incomplete', name, 'the file is not whole; wait until it is copied, or copy it again');
  if (code === 'Z_DATA_ERROR' && /incorrect header check|unknown compression/.test(words))
    return refuse('not-records', name, 'no file of records; choose one that ends with .records.gz');
  if (code.startsWith('Z_')) return refuse('changed', name, 'the file is damaged; copy it again');
  if (code === 'ENOENT') return refuse('no-file', name, 'no such file; look at its name');
  if (/^E[A-Z]+$/.test(code))
    return refuse('not-read', name, `the file can't be read (${code}); plug the drive in again`);
  return null;
}

/** The lines of a packed file, each as its bytes with the newline. */
async function* linesOf(path: string, seen: (chunk: Buffer) => void): AsyncGenerator<Buffer, void> {
  const source = createReadStream(path);
  const gunzip = createGunzip();
  source.on('data', (chunk) => seen(Buffer.from(chunk)));
  source.on('error', (fault) => gunzip.destroy(fault));
  source.pipe(gunzip);
  let left: Buffer[] = [];
  let leftBytes = 0;
  try {
    for await (const chunk of gunzip as AsyncIterable<Buffer>) {
      let from = 0;
      for (let to = chunk.indexOf(NEWLINE); to !== -1; to = chunk.indexOf(NEWLINE, from)) {
        yield Buffer.concat([...left, chunk.subarray(from, to + 1)]);
        left = [];
        leftBytes = 0;
        from = to + 1;
      }
      left.push(chunk.subarray(from));
      leftBytes += chunk.length - from;
      if (leftBytes > LONGEST_LINE) throw new RangeError('a line without an end');
    }
    if (leftBytes > 0) yield Buffer.concat(left);
  } finally {
    source.destroy();
    gunzip.destroy();
  }
}

/** The SHA-256 of a whole file. */
export async function fileSha256(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const chunk of createReadStream(path)) hash.update(chunk);
  return hash.digest('hex');
}

/**
 * Takes a file of records in: read and checked whole in small portions first, then kept in one transaction, or nothing is.
 * Once more changes nothing.
 * @throws  `Refused` in one line, with nothing changed; `ArchiveFault` when the disk takes no more; the signal's reason
 */
export async function takeIn(
  archive: Archive,
  { path, fileName = basename(path), operator, now, calm }: TakeInOrder,
  signal: AbortSignal,
  told: TakeInTold = () => undefined,
): Promise<TakenIn> {
  const total = (await stat(path).catch(() => null))?.size ?? 0;
  const fileHash = createHash('sha256');
  const lines = createHash('sha256');
  const text = new TextDecoder('utf-8', { fatal: true });
  const reader = createRecordsReader(fileName, {
    sha256Hex,
    before: () => lines.copy().digest('hex'),
    contents: checkedContents,
  });
  const aside = archive.transfer.beginTakeIn();
  try {
    let bytes = 0;
    let place = 0;
    let since = performance.now();
    try {
      for await (const line of linesOf(path, (chunk) => {
        fileHash.update(chunk);
        bytes += chunk.length;
      })) {
        place += 1;
        const isWhole = line.at(-1) === NEWLINE;
        if (!isWhole && place > 1)
          stop(refuse('incomplete', fileName, 'the file is not whole; copy it again'));
        const read = reader.line(text.decode(isWhole ? line.subarray(0, -1) : line));
        if (!read.ok) stop(read);
        else if (read.value !== null) {
          const staged = aside.stage(read.value, `${fileName}, line ${place}`);
          if (!staged.ok) stop(staged);
        }
        lines.update(line);
        if (performance.now() - since < PORTION_MS) continue;
        told(bytes, total);
        await turn();
        signal.throwIfAborted();
        since = performance.now();
      }
    } catch (fault) {
      if (fault instanceof Refused || signal.aborted) throw fault;
      if (fault instanceof RangeError || fault instanceof TypeError)
        stop(refuse('bad-line', `${fileName}, line ${place}`, 'the line is damaged; copy the file again'));
      const refusal = unpackingRefusal(fault, fileName);
      if (refusal === null) throw fault;
      stop(refusal);
    }
    const whole = reader.finish();
    if (!whole.ok) throw new Refused(whole);
    await calm?.(signal);
    signal.throwIfAborted();
    const { device, madeAtMs } = whole.value.header;
    const sha256 = fileHash.digest('hex');
    const from = { sha256, fileName, device, madeAtMs, takenAtMs: now().getTime(), operator };
    const brought = archive.write(() => aside.keep(from));
    told(total, total);
    return { ...brought, fileName, sha256, device, madeAtMs };
  } catch (fault) {
    // What no table takes: nothing of it is kept.
    if (/^SQLITE_CONSTRAINT/.test(sqliteCodeOf(fault) ?? ''))
      throw new Refused(
        refuse(
          'not-a-record',
          fileName,
          `a record of it can't be kept: ${fault instanceof Error ? fault.message : ''}`,
        ),
      );
    throw fault;
  } finally {
    aside.close();
  }
}
