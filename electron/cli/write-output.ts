import { writeFile } from 'node:fs/promises';
import { Refused } from '../../core/bridge/refused.ts';
import { refuse } from '../../core/result.ts';

/** Writes a new file, whole; throws `Refused` where it can't, and where there is one: nothing is written over. */
export async function writeOutput(path: string, text: string): Promise<void> {
  try {
    await writeFile(path, text, { flag: 'wx' });
  } catch (fault) {
    const code = fault instanceof Error && 'code' in fault ? String(fault.code) : String(fault);
    const help =
      code === 'EEXIST'
        ? 'there is a file of this name; name another one, nothing is written over'
        : `can't be written (${code}); check the folder`;
    throw new Refused(refuse('unwritable', path, help));
  }
}
