import { encodingOf } from '../core/files/encoding.ts';

/** A file's text, its byte order mark kept, so that what is stored is what the file holds. */
export async function fileText(file: Blob): Promise<string> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  return new TextDecoder(encodingOf(bytes), { ignoreBOM: true }).decode(bytes);
}
