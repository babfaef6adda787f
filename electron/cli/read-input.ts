import { open } from 'node:fs/promises';
import { Refused } from '../../core/bridge/refused.ts';
import { type Encoding, encodingOf } from '../../core/files/encoding.ts';
import { refuse } from '../../core/result.ts';

/** More than any sweep, station or plan; a file of this size is something else. */
const TOP_BYTES = 20 * 1024 * 1024;

const whyNot = (code: unknown): string => {
  if (code === 'ENOENT') return 'there is no such file; check the path';
  if (code === 'EACCES' || code === 'EPERM') return 'may not be read; change its permissions';
  if (code === 'EISDIR') return 'is a folder; name a file in it';
  return `can't be read (${String(code)})`;
};

/**
 * A file's text and how it was written: UTF-8, UTF-16 where its byte order mark says so, or one byte a letter. A letter that is
 * broken comes as U+FFFD, which the importers refuse by line. Throws `Refused` where it can't be read.
 */
export async function readWritten(path: string): Promise<Readonly<{ text: string; encoding: Encoding }>> {
  const refused = (help: string) => new Refused(refuse('unreadable', path === '' ? 'file' : path, help));
  if (path.includes('\0')) throw refused('is no path');
  let file: Awaited<ReturnType<typeof open>> | null = null;
  try {
    file = await open(path, 'r');
    if ((await file.stat()).isDirectory()) throw refused(whyNot('EISDIR'));
    // Read in pieces up to the limit: a pipe or a device tells no size beforehand.
    const pieces: Buffer[] = [];
    let length = 0;
    for await (const piece of file.createReadStream({ autoClose: false })) {
      const bytes = Buffer.from(piece);
      length += bytes.length;
      if (length > TOP_BYTES) throw refused('is larger than 20 MB; that is no sweep, station or plan');
      pieces.push(bytes);
    }
    const bytes = Buffer.concat(pieces);
    const encoding = encodingOf(bytes);
    return { text: new TextDecoder(encoding, { ignoreBOM: true }).decode(bytes), encoding };
  } catch (fault) {
    if (fault instanceof Refused) throw fault;
    throw refused(whyNot(fault instanceof Error && 'code' in fault ? fault.code : fault));
  } finally {
    await file?.close();
  }
}

/** The same where nobody asks how it was written. */
export const readInput = async (path: string): Promise<string> => (await readWritten(path)).text;
