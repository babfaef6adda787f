import type { EventData, Input, Output } from '../../core/bridge/contract.ts';
import { attempt, type Context } from './context.ts';

export type TransferLook = Output<'transfer.look'>;
export type GiveOrder = Input<'transfer.give'>;
export type Given = Output<'transfer.give'>;
export type TakenFiles = Output<'transfer.take'>['files'];
export type TransferProgress = EventData<'transfer.progress'>;
type Told = (progress: TransferProgress) => void;

const PART_BYTES = 768 * 1024;

const base64Of = async (part: Blob): Promise<string> => {
  const bytes = new Uint8Array(await part.arrayBuffer());
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text);
};
const bytesOf = (base64: string) => Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));

const listening = async <T>({ client }: Context, told: Told, work: () => Promise<T>): Promise<T> => {
  const stop = client.on('transfer.progress', told);
  try {
    return await work();
  } finally {
    stop();
  }
};

export const lookAtTransfer = (context: Context): Promise<TransferLook | null> =>
  attempt(context, 'transfer', 'What came from other laptops could not be read.', () =>
    context.client.call('transfer.look', {}),
  );

/** Null after a fault, which is then the notice, and after it was stopped. `file` is the whole file where no folder was named. */
export const giveRecords = (
  context: Context,
  order: GiveOrder,
  signal: AbortSignal,
  told: Told,
): Promise<Readonly<{ given: Given; file: Blob | null }> | null> =>
  attempt(context, 'transfer', 'No file was made.', () =>
    listening(context, told, async () => {
      const { client } = context;
      const given = await client.call('transfer.give', order, signal);
      if (given.file === null) return { given, file: null };
      const parts: Uint8Array<ArrayBuffer>[] = [];
      for (let from = 0; ; ) {
        const { base64 } = await client.call('transfer.part', { file: given.file, from }, signal);
        const part = bytesOf(base64);
        if (part.length === 0) return { given, file: new Blob(parts, { type: 'application/gzip' }) };
        parts.push(part);
        from += part.length;
      }
    }),
  );

export const takeFolder = (
  context: Context,
  folder: string,
  signal: AbortSignal,
  told: Told,
): Promise<TakenFiles | null> => take(context, { kind: 'folder', folder }, signal, told);

/** Brings a file of the person to the program in parts, and has it taken in. */
export async function takeFile(
  context: Context,
  file: File,
  signal: AbortSignal,
  told: Told,
): Promise<TakenFiles | null> {
  const id = crypto.randomUUID();
  const whole = await attempt(context, 'transfer', 'The file could not be read.', async () => {
    for (let from = 0; from < file.size || from === 0; from += PART_BYTES) {
      const base64 = await base64Of(file.slice(from, from + PART_BYTES));
      await context.client.call('transfer.put', { file: id, base64 }, signal);
    }
    return true;
  });
  return whole === null
    ? null
    : await take(context, { kind: 'file', file: id, fileName: file.name }, signal, told);
}

const take = (
  context: Context,
  from: Input<'transfer.take'>['from'],
  signal: AbortSignal,
  told: Told,
): Promise<TakenFiles | null> =>
  attempt(context, 'transfer', 'Nothing was taken in.', () =>
    listening(context, told, async () => {
      const { operator } = context.store.getState();
      return (await context.client.call('transfer.take', { from, operator }, signal)).files;
    }),
  );
