import { randomUUID } from 'node:crypto';
import { rmSync } from 'node:fs';
import { appendFile, mkdir, open, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { setTimeout as rest } from 'node:timers/promises';
import type { Input, Output } from '../../../core/bridge/contract.ts';
import type { Conflict } from '../../../core/bridge/transfer-calls.ts';
import { differencesOf } from '../../../core/records/differences.ts';
import { momentOf } from '../archive/quantities.ts';
import type { ConflictPair } from '../archive/transfer.ts';
import { giveOut } from './give-out.ts';
import { namedFolder } from './named-folder.ts';
import type { Runs } from './runs.ts';
import { refused, type ServiceParts } from './service-parts.ts';
import { takeInFolder, takeInOne } from './shared-folder.ts';

/** Files on their way to and from the page lie here, beside the archive, and go when they are done. */
const FOLDER = 'transfer';
const PART_BYTES = 768 * 1024;
const MOST_BYTES = 2 * 1024 * 1024 * 1024;
/** A smaller file is kept in a moment that no reading notices. */
const NOTICED_BYTES = 200_000;
const LOOK_MS = 200;

export type TransferService = Readonly<{
  look(): Output<'transfer.look'>;
  give(input: Input<'transfer.give'>, signal: AbortSignal): Promise<Output<'transfer.give'>>;
  part(input: Input<'transfer.part'>): Promise<Output<'transfer.part'>>;
  put(input: Input<'transfer.put'>): Promise<Output<'transfer.put'>>;
  take(input: Input<'transfer.take'>, signal: AbortSignal): Promise<Output<'transfer.take'>>;
}>;

/** What a program that was ended in the middle left: the page that it was for is gone as well. */
function putAwayLeft(folder: string): void {
  try {
    rmSync(folder, { recursive: true, force: true });
  } catch {
    // A folder that takes nothing can still be looked at.
  }
}

/** Gives records to other laptops and takes theirs in, one file at a time. */
export function createTransfer(
  { archive, emit, now }: Pick<ServiceParts, 'archive' | 'emit' | 'now'>,
  runs: Pick<Runs, 'running'>,
): TransferService {
  const folder = join(dirname(archive.path), FOLDER);
  const pathOf = (file: string) => join(folder, file);
  putAwayLeft(folder);
  let busy = false;
  const alone = async <T>(work: () => Promise<T>): Promise<T> => {
    if (busy)
      throw refused('busy', 'another laptop', 'a file is being given or taken in; wait until it is done');
    busy = true;
    try {
      return await work();
    } finally {
      busy = false;
    }
  };

  const conflictOf = ({ kind, id, takenAtMs, here, other }: ConflictPair): Conflict => {
    const station = other.document.stationId;
    const design = typeof station === 'string' ? archive.stations.newestDesign(station) : undefined;
    return {
      ...{ kind, id, takenAt: momentOf(takenAtMs), stationName: design?.name ?? null },
      here: here === null ? null : { device: here.device, seq: here.seq },
      other: { device: other.device, seq: other.seq },
      differences: here === null ? [] : [...differencesOf(here.document, other.document)],
    };
  };

  return {
    look: () => ({
      head: archive.head(),
      files: archive.transfer.takenFiles().map(({ fileName, device, madeAtMs, takenAtMs, ...rest }) => ({
        ...{ fileName, device, madeAt: momentOf(madeAtMs), takenAt: momentOf(takenAtMs) },
        ...{ operator: rest.operator, added: rest.added, conflicts: rest.conflicts },
      })),
      conflicts: archive.transfer.conflicts().map(conflictOf),
    }),
    give: ({ what, folder: to }, signal) =>
      alone(async () => {
        if (to !== null) namedFolder(to);
        const file = to === null ? randomUUID() : null;
        if (file !== null) {
          await rm(folder, { recursive: true, force: true });
          await mkdir(folder, { recursive: true });
        }
        const told = (done: number) =>
          emit('transfer.progress', {
            ...{
              way: 'give',
              fileName: to ?? 'records',
              place: 1,
              count: 1,
              done,
              total: null,
              waits: false,
            },
          });
        const path = file === null ? (to ?? folder) : pathOf(file);
        const given = await giveOut(archive, { what, path, madeAtMs: now().getTime() }, signal, told);
        const { fileName, records, sweeps, bytes } = given;
        return { fileName, file, records, sweeps, bytes };
      }),
    async part({ file, from }) {
      const handle = await open(pathOf(file), 'r').catch(() => {
        throw refused('no-file', 'the file', 'it is no longer there; make it again');
      });
      try {
        const buffer = Buffer.alloc(PART_BYTES);
        const { bytesRead } = await handle.read(buffer, 0, PART_BYTES, from);
        if (bytesRead === 0) await rm(pathOf(file), { force: true });
        return { base64: buffer.subarray(0, bytesRead).toString('base64') };
      } finally {
        await handle.close();
      }
    },
    async put({ file, base64 }) {
      await mkdir(folder, { recursive: true });
      const had = (await stat(pathOf(file)).catch(() => null))?.size ?? 0;
      if (had > MOST_BYTES)
        throw refused('too-large', 'the file', 'more than 2 GB; put it into a folder and take in the folder');
      await appendFile(pathOf(file), Buffer.from(base64, 'base64'));
      return {};
    },
    take: ({ from, operator }, signal) =>
      alone(async () => {
        let far = { fileName: '', place: 1, count: 1, done: 0, total: 0 };
        const tell = (waits: boolean) => emit('transfer.progress', { way: 'take', ...far, waits });
        const calm = async (stop: AbortSignal) => {
          if (far.total < NOTICED_BYTES) return;
          while (runs.running() !== null) {
            tell(true);
            await rest(LOOK_MS, undefined, { signal: stop });
          }
        };
        const order = { operator, now, calm };
        if (from.kind === 'folder') {
          const files = await takeInFolder(
            archive,
            namedFolder(from.folder),
            order,
            signal,
            (fileName, place, count, done, total) => {
              far = { fileName, place, count, done, total };
              tell(false);
            },
          );
          return { files: [...files] };
        }
        const { file, fileName } = from;
        try {
          const taken = await takeInOne(
            archive,
            { ...order, path: pathOf(file), fileName },
            signal,
            (done, total) => {
              far = { fileName, place: 1, count: 1, done, total };
              tell(false);
            },
          );
          return { files: [taken] };
        } finally {
          await rm(pathOf(file), { force: true });
        }
      }),
  };
}
