import { createHash } from 'node:crypto';
import type { Output } from '../../../core/bridge/contract.ts';
import { encoded } from '../../../core/files/encoded.ts';
import type { Archive } from '../archive/open.ts';
import type { SweepRow } from '../archive/sweeps.ts';
import { refused } from './service-parts.ts';

/**
 * The file that a sweep was taken from, with the bytes that it had. Throws `Refused` where there is none, or where its bytes
 * are not those that were recorded.
 */
export function originalFile(archive: Archive, row: SweepRow): Output<'sweeps.original'> {
  const file = archive.sweeps.fileOf(row.seq);
  if (file === undefined)
    throw refused('no-file', `sweep ${row.sweepId}`, 'it was read from a meter, and has no file');
  const bytes = encoded(file.text, file.encoding ?? 'utf-8');
  const isSame =
    bytes !== null &&
    (file.sha256 === null || createHash('sha256').update(bytes).digest('hex') === file.sha256);
  if (!isSame)
    throw refused(
      'changed',
      row.sourceName,
      'its bytes are not those that were recorded; see archive verify',
    );
  return { fileName: row.sourceName, base64: Buffer.from(bytes).toString('base64') };
}
