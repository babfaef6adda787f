import { z } from 'zod';
import { type CallName, calls, type Handlers } from './contract.ts';
import type { Reply } from './frames.ts';
import { Refused } from './refused.ts';

/** Told of every fault of ours, with its stack, so that the host can log what the reply leaves out. */
export type OnFault = (where: string, fault: unknown) => void;

const isCall = (name: string): name is CallName => Object.hasOwn(calls, name);

const messageOf = (fault: unknown): string => (fault instanceof Error ? fault.message : String(fault));

async function run<N extends CallName>(handlers: Handlers, name: N, input: unknown, signal: AbortSignal) {
  // The schema of this very call has just parsed the input; the compiler can't follow that through the table.
  return await handlers[name](input as Parameters<Handlers[N]>[0], signal);
}

/**
 * The one door to the services: parses the input, calls the handler, parses its answer. Electron, the local browser
 * and the tests all come through here. Never throws: whatever happens is a reply.
 * @param name     the call as it came over the wire
 * @param raw      its input, unchecked
 * @param signal   aborted when the caller cancels or goes away
 * @param onFault  gets what was thrown by a handler, or an answer that breaks the contract
 * @returns        the answer, the refusal with what, where and help, or what went wrong, without a stack
 * @source         DEVELOPERS.md, "The bridge"
 */
export async function dispatch(
  handlers: Handlers,
  name: string,
  raw: unknown,
  signal: AbortSignal,
  onFault: OnFault,
): Promise<Reply> {
  if (!isCall(name)) {
    return { ok: false, code: 'unknown-call', where: name, help: 'this program has no such call' };
  }
  const input = calls[name].in.safeParse(raw);
  if (!input.success) {
    return { ok: false, code: 'bad-input', where: name, help: z.prettifyError(input.error) };
  }
  try {
    const answer = calls[name].out.safeParse(await run(handlers, name, input.data, signal));
    if (answer.success) return { ok: true, value: answer.data };
    onFault(name, answer.error);
    return {
      ok: false,
      code: 'failed',
      where: name,
      help: `the answer breaks the contract: ${z.prettifyError(answer.error)}`,
    };
  } catch (fault) {
    if (fault instanceof Refused) {
      const { code, where, help } = fault.refusal;
      return { ok: false, code: 'refused', refusal: { code, where, help } };
    }
    if (signal.aborted) {
      return { ok: false, code: 'cancelled', where: name, help: 'cancelled before it was done' };
    }
    onFault(name, fault);
    return { ok: false, code: 'failed', where: name, help: messageOf(fault) };
  }
}
