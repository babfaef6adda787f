/** Texts of SCPI-1999, volume 2, SYSTem:ERRor, of the errors that this instrument makes. */
const texts: ReadonlyMap<number, string> = new Map([
  [0, 'No error'],
  [-101, 'Invalid character'],
  [-102, 'Syntax error'],
  [-103, 'Invalid separator'],
  [-104, 'Data type error'],
  [-108, 'Parameter not allowed'],
  [-109, 'Missing parameter'],
  [-113, 'Undefined header'],
  [-114, 'Header suffix out of range'],
  [-121, 'Invalid character in number'],
  [-131, 'Invalid suffix'],
  [-222, 'Data out of range'],
  [-224, 'Illegal parameter value'],
  [-230, 'Data corrupt or stale'],
  [-350, 'Queue overflow'],
  [-363, 'Input buffer overrun'],
  // Positive codes are the maker's own.
  [301, 'Input overload'],
]);

const QUEUE_OVERFLOW = -350;

/** Bits of the standard event status register: what kind of thing happened. */
const eventBit = (code: number): number => {
  if (code > 0) return 8;
  if (code > -200) return 32;
  if (code > -300) return 16;
  if (code > -400) return 8;
  return 4;
};

/** An error queue: oldest out first; when it is full, the newest entry gives way to "Queue overflow". */
export class ErrorQueue {
  readonly #depth: number;
  #codes: number[] = [];
  /** The standard event status register (*ESR?). */
  events = 128;

  constructor(depth: number) {
    this.#depth = depth;
  }

  get count(): number {
    return this.#codes.length;
  }

  push(code: number): void {
    this.events |= eventBit(code);
    if (this.#codes.length < this.#depth) this.#codes.push(code);
    else {
      this.#codes[this.#depth - 1] = QUEUE_OVERFLOW;
      this.events |= eventBit(QUEUE_OVERFLOW);
    }
  }

  /** The oldest entry as SYSTem:ERRor? answers it, taken out. */
  next(): string {
    const code = this.#codes.shift() ?? 0;
    return `${code},"${texts.get(code) ?? 'Error'}"`;
  }

  clear(): void {
    this.#codes = [];
    this.events = 0;
  }
}
