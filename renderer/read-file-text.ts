import { keptAs } from '../core/files/encoded.ts';
import { type Encoding, encodingNote, encodingOf } from '../core/files/encoding.ts';

export type FileText = Readonly<{
  /** Its byte order mark kept, so that what is stored is what the file holds. */
  text: string;
  /** What a person should know of how it was written; null where there is nothing. */
  note: string | null;
  /** In which its text gives every byte of it again; null where a letter is broken, which no importer takes. */
  encoding: Encoding | null;
}>;

/** A file's text, in whatever letters it was written. */
export async function fileText(file: Blob): Promise<FileText> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const encoding = encodingOf(bytes);
  const text = new TextDecoder(encoding, { ignoreBOM: true }).decode(bytes);
  return { text, note: encodingNote(encoding), encoding: keptAs(bytes, text, encoding) };
}
