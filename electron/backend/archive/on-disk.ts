import { createHash } from 'node:crypto';
import { closeSync, createReadStream, fsyncSync, openSync, writeFileSync } from 'node:fs';
import { rename } from 'node:fs/promises';
import { dirname } from 'node:path';

/** Until this returns, what was written to a file may be in memory only. */
export function syncFile(path: string): void {
  const file = openSync(path, 'r+');
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** A name is on the disk when its folder is. Windows knows no such thing, and writes names through. */
export function syncFolder(path: string): void {
  if (process.platform === 'win32') return;
  const folder = openSync(path, 'r');
  try {
    fsyncSync(folder);
  } catch {
    // Some drives, a stick among them, have folders that can't be asked for this.
  } finally {
    closeSync(folder);
  }
}

/** Gives a finished file its name: there is either no such file, or a whole one. */
export async function nameForGood(from: string, to: string): Promise<void> {
  syncFile(from);
  await rename(from, to);
  syncFolder(dirname(to));
}

export async function writeForGood(path: string, text: string): Promise<void> {
  const partial = `${path}.partial`;
  writeFileSync(partial, text);
  await nameForGood(partial, path);
}

/** SHA-256 of a file's bytes, in hexadecimal. */
export async function fileSha256(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const chunk of createReadStream(path)) hash.update(chunk as Buffer);
  return hash.digest('hex');
}
