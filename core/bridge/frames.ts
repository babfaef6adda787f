import { z } from 'zod';

/** A client counts its requests from 1; an id means something only between one hello and the next. */
export const RequestId = z.number().int().positive();

/** The first frame each way. It names the contract, so that an old page against a new host fails by name. */
export const Hello = z.strictObject({ type: z.literal('hello'), contract: z.string().max(40) });

export const Request = z.strictObject({
  type: z.literal('request'),
  id: RequestId,
  call: z.string().max(100),
  input: z.unknown(),
});
export const Cancel = z.strictObject({ type: z.literal('cancel'), id: RequestId });

/** What a client sends. A hello begins a session: whatever the same wire had running before is dropped. */
export const ClientFrame = z.discriminatedUnion('type', [Hello, Request, Cancel]);
export type ClientFrame = z.infer<typeof ClientFrame>;

const words = z.string();

/** How a call ended. A refusal is a person's mistake and keeps what, where and what would help; `failed` is ours. */
export const Reply = z.union([
  z.strictObject({ ok: z.literal(true), value: z.unknown() }),
  z.strictObject({
    ok: z.literal(false),
    code: z.literal('refused'),
    refusal: z.strictObject({ code: words, where: words, help: words }),
  }),
  z.strictObject({
    ok: z.literal(false),
    code: z.enum(['unknown-call', 'bad-input', 'failed', 'cancelled']),
    where: words,
    help: words,
  }),
]);
export type Reply = z.infer<typeof Reply>;

/** What a host sends. `gone` says that the services behind a wire stopped while the wire itself still stands. */
export const HostFrame = z.discriminatedUnion('type', [
  Hello,
  z.strictObject({ type: z.literal('reply'), id: RequestId, reply: Reply }),
  z.strictObject({ type: z.literal('event'), name: z.string(), data: z.unknown() }),
  z.strictObject({ type: z.literal('gone'), why: z.string() }),
]);
export type HostFrame = z.infer<typeof HostFrame>;

const Addressed = z.object({ type: z.literal('request'), id: RequestId });

/**
 * The id of a frame that is no proper request but can be answered, so that no caller waits for ever.
 * @param raw  anything that came over a wire
 * @returns    the id, or null when there is none to answer
 * @source     DEVELOPERS.md, "The bridge"
 */
export function answerableId(raw: unknown): number | null {
  const read = Addressed.safeParse(raw);
  return read.success ? read.data.id : null;
}
