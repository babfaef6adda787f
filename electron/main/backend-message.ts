import { z } from 'zod';

/** Main process to backend: a frame of the page, the page's end, the computer's sleep and waking, or the program's end. */
export const ToBackend = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('frame'), frame: z.unknown() }),
  z.strictObject({ kind: z.literal('page-gone') }),
  z.strictObject({ kind: z.literal('suspend') }),
  z.strictObject({ kind: z.literal('resume') }),
  z.strictObject({ kind: z.literal('close') }),
]);
export type ToBackend = z.infer<typeof ToBackend>;

/** Backend to main process. `cannot-open` is the last word of a backend whose archive or meters can't be opened. */
export const FromBackend = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('ready') }),
  z.strictObject({ kind: z.literal('frame'), frame: z.unknown() }),
  z.strictObject({ kind: z.literal('cannot-open'), why: z.string() }),
  z.strictObject({ kind: z.literal('closed') }),
]);
export type FromBackend = z.infer<typeof FromBackend>;
