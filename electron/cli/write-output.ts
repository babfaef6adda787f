import { open, rm } from 'node:fs/promises';
import { Refused } from '../../core/bridge/refused.ts';
import { refuse } from '../../core/result.ts';

const whyNot = (fault: unknown): string => {
  const code = fault instanceof Error && 'code' in fault ? String(fault.code) : String(fault);
  if (code === 'EEXIST') return 'there is a file of this name; name another one, nothing is written over';
  if (code === 'ENOSPC') return "can't be written, the disk is full; make room or name another folder";
  return `can't be written (${code}); check the folder`;
};

/** Writes a new file, whole or not at all; throws `Refused` where it can't, and where there is one: nothing is written over. */
export async function writeOutput(path: string, content: string | Uint8Array): Promise<void> {
  const file = await open(path, 'wx').catch((fault: unknown) => {
    throw new Refused(refuse('unwritable', path, whyNot(fault)));
  });
  try {
    await file.writeFile(content);
    await file.close();
  } catch (fault) {
    await file.close().catch(() => undefined);
    await rm(path, { force: true });
    throw new Refused(refuse('unwritable', path, whyNot(fault)));
  }
}
