import type { CancelSignal, Client } from '../../core/bridge/client.ts';
import { ClientFault } from '../../core/bridge/client-fault.ts';
import type { CallName, EventData, EventName, Input, Output } from '../../core/bridge/contract.ts';

export type Script = Partial<{
  [N in CallName]: (input: Input<N>, signal?: CancelSignal) => Output<N> | Promise<Output<N>>;
}>;

/** A client that answers from a script, keeps what was asked (`inputOf` the last time), and sends events when the test says so. */
export function scriptedClient(script: Script) {
  const asked: { name: CallName; input: unknown }[] = [];
  const listeners = new Map<EventName, ((data: never) => void)[]>();
  const client: Client = {
    async call(name, input, signal) {
      asked.push({ name, input });
      const answer = script[name];
      if (answer === undefined) throw new ClientFault('failed', name, `the script has no ${name}`);
      return await answer(input, signal);
    },
    on(name, listener) {
      listeners.set(name, [...(listeners.get(name) ?? []), listener]);
      return () => {
        const others = (listeners.get(name) ?? []).filter((one) => one !== listener);
        listeners.set(name, others);
      };
    },
    connection: { state: () => 'open', onState: () => () => {} },
    close: () => {},
  };
  const emit = <N extends EventName>(name: N, data: EventData<N>) => {
    for (const listener of listeners.get(name) ?? []) listener(data as never);
  };
  const names = () => asked.map(({ name }) => name);
  const inputOf = (name: CallName) => asked.findLast((one) => one.name === name)?.input;
  return { client, emit, asked, names, inputOf };
}
