import type { WireStart } from '../../electron/backend/meters/byte-wire.ts';
import { MeterFault } from '../../electron/backend/meters/meter-shop.ts';

/** What a script may do with the far end of the wire. */
export type FarEnd = Readonly<{ send(text: string): void; unplug(): void }>;
/** Gets each line that was said; a script that does nothing is a silent meter. */
export type Script = (line: string, farEnd: FarEnd) => void;

export type ScriptedWire = Readonly<{
  start: WireStart;
  farEnd: FarEnd;
  said: readonly string[];
  closedTimes: () => number;
  /** Another script from now on. */
  play(script: Script): void;
}>;

/** A wire whose far end is played by a test. */
export function scriptedWire(first: Script): ScriptedWire {
  let script = first;
  let closed = 0;
  let begun = '';
  const said: string[] = [];
  const bytes = { send: (_text: string): void => undefined, gone: (): void => undefined };
  const farEnd: FarEnd = { send: (text) => bytes.send(text), unplug: () => bytes.gone() };
  return {
    farEnd,
    said,
    closedTimes: () => closed,
    play: (next) => {
      script = next;
    },
    start: (events) => {
      bytes.send = (text) => setImmediate(() => events.bytes(Buffer.from(text, 'latin1')));
      bytes.gone = () => setImmediate(() => events.gone(new MeterFault('lost', 'the wire', 'it was cut')));
      return {
        write(chunk, taken) {
          begun += Buffer.from(chunk).toString('latin1');
          const lines = begun.split(/\r\n|\r|\n/);
          begun = lines.pop() ?? '';
          for (const line of lines) {
            said.push(line);
            script(line, farEnd);
          }
          taken();
        },
        async close() {
          closed += 1;
        },
      };
    },
  };
}
