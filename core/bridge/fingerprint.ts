import { z } from 'zod';
import { calls, events } from './contract.ts';

/**
 * FNV-1a over the UTF-16 code units of a text: short, and the same on every machine. Not for secrets.
 * @param text  any text; each code unit is taken as one step, so ASCII gives the published values
 * @returns     eight hexadecimal digits
 * @source      Fowler, Noll and Vo, FNV-1a, 32 bits
 */
export function fnv1a(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) {
    hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  }
  return (hash >>> 0).toString(16).padStart(8, '0');
}

let known: string | null = null;

/**
 * Which contract this build speaks: a fingerprint of every schema, so that nobody has to remember to raise a number
 * when a call changes. A page and a host that differ refuse each other by name.
 * @returns  eight hexadecimal digits
 * @source   DEVELOPERS.md, "The bridge"
 */
export function contractVersion(): string {
  if (known === null) {
    const shape = (schema: z.ZodType) => z.toJSONSchema(schema, { unrepresentable: 'any', io: 'input' });
    const described = {
      calls: Object.entries(calls).map(([name, call]) => [name, shape(call.in), shape(call.out)]),
      events: Object.entries(events).map(([name, data]) => [name, shape(data)]),
    };
    known = fnv1a(JSON.stringify(described));
  }
  return known;
}
