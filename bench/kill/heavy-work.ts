import { randomUUID } from 'node:crypto';
import { readFileSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { setTimeout as rest } from 'node:timers/promises';
import { Refused } from '../../core/bridge/refused.ts';
import type { Place } from './said.ts';
import { below, shuffled, type Work } from './work.ts';

const PART_BYTES = 500_000;
/** A larger file waits for the end of a running sweep. */
const WAITS_BYTES = 200_000;
const READING = "reading another laptop's file";
const GIVING = 'giving records';
const BACKUP = 'a backup by hand';

/** Backups, files of other laptops and files for them, and a look at every record: one after the other, in any order. */
export async function heavyWork(work: Work): Promise<void> {
  const { call, signal, chance, tell, enter, leave, head, quiet, order } = work;
  const toTake = shuffled(chance, order.files);

  const backUp = async () => {
    const release = await quiet.ask();
    enter(BACKUP);
    const making = work.handed(() =>
      call['backups.make']({ folder: chance() < 0.3 ? order.stick : null }, signal),
    );
    // Sweeps go on while the pages are copied.
    release();
    try {
      await making;
    } catch (fault) {
      // The daily one is being made.
      if (!(fault instanceof Refused && fault.refusal.code === 'busy')) throw fault;
    }
    leave(BACKUP);
  };
  const takeFile = async () => {
    const next = toTake.pop();
    if (next === undefined) return await takeFolder();
    const { path, fileName } = next;
    const release = statSync(path).size >= WAITS_BYTES ? await quiet.ask() : null;
    enter(READING);
    const file = randomUUID();
    const bytes = readFileSync(path);
    for (let from = 0; from < bytes.length; from += PART_BYTES) {
      const base64 = bytes.subarray(from, from + PART_BYTES).toString('base64');
      await call['transfer.put']({ file, base64 }, signal);
    }
    const from = { kind: 'file', file, fileName } as const;
    noteTaken((await call['transfer.take']({ from, operator: 'R. Voss' }, signal)).files);
    leave(READING);
    release?.();
  };
  /** All files of the folder, those which are there already among them. */
  const takeFolder = async () => {
    const [one] = order.files;
    if (one === undefined) return;
    const release = await quiet.ask();
    enter(READING);
    const from = { kind: 'folder', folder: dirname(one.path) } as const;
    noteTaken((await call['transfer.take']({ from, operator: 'R. Voss' }, signal)).files);
    leave(READING);
    release();
  };
  const noteTaken = (
    files: readonly Readonly<{ fileName: string; became: string; why: string | null }>[],
  ) => {
    for (const { fileName, became, why } of files) {
      if (!['taken-in', 'before', 'nothing-new'].includes(became))
        throw new Error(`${fileName} is ${became}: ${why}`);
      tell({ say: 'taken', fileName });
    }
  };
  const give = async () => {
    enter(GIVING);
    const folder = chance() < 0.7 ? order.stick : null;
    const stationId = chance() < 0.5 ? 'slipway' : 'quayside';
    const what =
      chance() < 0.5 ? ({ kind: 'station', stationId } as const) : ({ kind: 'everything' } as const);
    const { fileName, file } = await call['transfer.give']({ what, folder }, signal);
    if (file === null) tell({ say: 'given', path: `${folder}/${fileName}` });
    leave(GIVING);
  };
  const verify = async () => {
    const { broken } = await call['archive.verify']({}, signal);
    if (broken.length > 0) throw new Error(`a break: ${broken[0]?.words}`);
  };

  // The others have their stations and their first records by then.
  await rest(20);
  const firstOf: Partial<Record<Place, () => Promise<void>>> = {
    [BACKUP]: backUp,
    'copying a backup': backUp,
    'looking a backup through': backUp,
    'naming a backup, letting older ones go': backUp,
    [READING]: takeFile,
    "keeping another laptop's file": takeFile,
    [GIVING]: give,
  };
  if (order.first !== null) await firstOf[order.first]?.();
  for (;;)
    for (const act of shuffled(chance, [backUp, takeFile, takeFile, takeFolder, give, verify])) {
      await act();
      head();
      await rest(below(chance, 60));
    }
}
