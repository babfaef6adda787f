import { readTraceBlock } from '../../core/meters/trace-block.ts';
import { createBlockCollector } from '../../electron/backend/meters/block-collector.ts';
import { knownProfiles } from '../../electron/backend/meters/known-profiles.ts';

const POINTS = 4;
type Format = Readonly<{ name: string; number: 'real32' | 'real64'; byteOrder: 'big' | 'little' }>;

/** Every number format of a block: those that a shipped profile reads, and the others that a shop may write. */
export const blockFormats: readonly Format[] = (['real32', 'real64'] as const).flatMap((number) =>
  (['big', 'little'] as const).map((byteOrder) => {
    const user = knownProfiles.find(({ trace }) => {
      const format = trace?.read.format;
      return format?.kind === 'block' && format.number === number && format.byteOrder === byteOrder;
    });
    return { name: user?.name ?? 'a profile of a shop', number, byteOrder };
  }),
);

const widthOf = ({ number }: Format) => (number === 'real32' ? 4 : 8);

function numbersOf({ number, byteOrder }: Format, data: Buffer): readonly number[] {
  return Array.from({ length: POINTS }, (_, i) => {
    if (number === 'real32') return byteOrder === 'big' ? data.readFloatBE(i * 4) : data.readFloatLE(i * 4);
    return byteOrder === 'big' ? data.readDoubleBE(i * 8) : data.readDoubleLE(i * 8);
  });
}

/** A block as IEEE 488.2 writes it, with its line end. */
function goodBlock(format: Format, chance: () => number): Buffer {
  const width = widthOf(format);
  const data = Buffer.alloc(width * POINTS);
  for (let i = 0; i < POINTS; i += 1) {
    const amount = chance() < 0.1 ? 9.91e37 : chance() * 120 - 60;
    if (width === 4) data[format.byteOrder === 'big' ? 'writeFloatBE' : 'writeFloatLE'](amount, i * 4);
    else data[format.byteOrder === 'big' ? 'writeDoubleBE' : 'writeDoubleLE'](amount, i * 8);
  }
  const length = String(data.length).padStart(Math.floor(chance() * 3) + 1, '0');
  return Buffer.concat([
    Buffer.from(`#${length.length}${length}`, 'latin1'),
    data,
    Buffer.from(chance() < 0.5 ? '\n' : '\r\n', 'latin1'),
  ]);
}

/** A block that is nearly one, or none at all. */
function mutatedBlock(format: Format, chance: () => number): Buffer {
  const below = (most: number) => Math.floor(chance() * most);
  if (chance() < 0.06) return Buffer.from(Array.from({ length: below(80) }, () => below(256)));
  let block = goodBlock(format, chance);
  for (let left = below(4); left > 0; left -= 1) {
    const at = chance() < 0.4 ? below(Math.min(6, block.length)) : below(block.length);
    const one = Buffer.of(chance() < 0.5 ? '#0123456789\r\n'.charCodeAt(below(13)) : below(256));
    const how = below(7);
    if (how === 0) block = block.subarray(0, at);
    else if (how === 1) block = block.subarray(at);
    else if (how === 2) block = Buffer.concat([block.subarray(0, at), one, block.subarray(at + 1)]);
    else if (how === 3) block = Buffer.concat([block.subarray(0, at), one, block.subarray(at)]);
    else if (how === 4) block = Buffer.concat([block.subarray(0, at), block.subarray(at + 1)]);
    else if (how === 5) block = Buffer.concat([block, goodBlock(format, chance)]);
    else block = Buffer.concat([Buffer.of(0x0a, 0x0d), block]);
  }
  return block;
}

/**
 * What the bytes say, read in another way than the program's own: all of them at once, the header as a pattern, the numbers
 * by Node. Null: no such trace.
 */
function allowedIn(format: Format, bytes: Buffer): readonly number[] | null {
  const text = bytes.toString('latin1').replace(/^[\r\n]+/, '');
  const digits = /^#([1-9])/.exec(text)?.[1];
  if (digits === undefined) return null;
  const written = text.slice(2, 2 + Number(digits));
  if (written.length < Number(digits) || !/^\d+$/.test(written)) return null;
  const from = 2 + Number(digits);
  const until = from + Number(written);
  if (Number(written) !== widthOf(format) * POINTS || !/^[\r\n]/.test(text.slice(until))) return null;
  const numbers = numbersOf(format, Buffer.from(text.slice(from, until), 'latin1'));
  return numbers.every(Number.isFinite) ? numbers : null;
}

export type BlockFigures = { accepted: boolean; wrong: string | null };

/** One block, or what became of it, through the collector in pieces, held against the other reading. */
export function fuzzBlock(format: Format, chance: () => number): BlockFigures {
  const bytes = mutatedBlock(format, chance);
  const collector = createBlockCollector(POINTS * widthOf(format));
  const first = Math.floor(chance() * bytes.length);
  const second = first + Math.floor(chance() * (bytes.length - first));
  let levels: readonly number[] | null = null;
  for (const piece of [bytes.subarray(0, first), bytes.subarray(first, second), bytes.subarray(second)]) {
    const found = collector.push(piece);
    if (found.kind === 'more') continue;
    if (found.kind === 'block') {
      const read = readTraceBlock(found.data, format.number, format.byteOrder, POINTS);
      if (read.ok) levels = read.value;
    }
    break;
  }
  const allowed = allowedIn(format, bytes);
  const same = JSON.stringify(levels) === JSON.stringify(allowed);
  const wrong = `${format.name}, block of ${format.number}: ${JSON.stringify(levels)} of ${bytes.toString('hex')}`;
  return { accepted: levels !== null, wrong: same ? null : wrong };
}
