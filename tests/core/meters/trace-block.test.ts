import { expect, it } from 'vitest';
import { blockStart, readTraceBlock } from '../../../core/meters/trace-block.ts';

const bytes = (text: string) => Uint8Array.from(text, (character) => character.charCodeAt(0));

// The shape of IEEE 488.2, 8.7.9: #, how many digits, the digits, the data.
it('reads the header of a block of definite length', () => {
  expect(blockStart(bytes('#15abcde'), 100)).toEqual({ kind: 'block', headerBytes: 3, dataBytes: 5 });
  expect(blockStart(bytes('#3005'), 100)).toEqual({ kind: 'block', headerBytes: 5, dataBytes: 5 });
});
it.each(['', '#', '#3', '#30', '#300'])('waits for the rest of "%s"', (text) =>
  expect(blockStart(bytes(text), 100)).toEqual({ kind: 'more' }),
);
it.each(['x', '#0abc', '#x', '#2a1', '#3999', '-113,"no"'])('takes "%s" for no block', (text) =>
  expect(blockStart(bytes(text), 100)).toEqual({ kind: 'not-a-block' }),
);

// IEEE 754: 1.0 is 3F 80 00 00, -2.5 is C0 20 00 00; in 64 bits 1.0 is 3F F0 and six zeros.
it('reads numbers of either width and either byte order', () => {
  const big = Uint8Array.of(0x3f, 0x80, 0, 0, 0xc0, 0x20, 0, 0);
  expect(readTraceBlock(big, 'real32', 'big', 2)).toEqual({ ok: true, value: [1, -2.5] });
  const little = Uint8Array.of(0, 0, 0x80, 0x3f, 0, 0, 0x20, 0xc0);
  expect(readTraceBlock(little, 'real32', 'little', 2)).toEqual({ ok: true, value: [1, -2.5] });
  const wide = Uint8Array.of(0x3f, 0xf0, 0, 0, 0, 0, 0, 0);
  expect(readTraceBlock(wide, 'real64', 'big', 1)).toEqual({ ok: true, value: [1] });
  expect(readTraceBlock(wide.slice().reverse(), 'real64', 'little', 1)).toEqual({ ok: true, value: [1] });
});
it('refuses another length, and what is no number', () => {
  expect(readTraceBlock(new Uint8Array(7), 'real32', 'big', 2).ok).toBe(false);
  expect(readTraceBlock(new Uint8Array(12), 'real32', 'big', 2).ok).toBe(false);
  expect(readTraceBlock(Uint8Array.of(0x7f, 0xc0, 0, 0), 'real32', 'big', 1).ok).toBe(false);
  expect(readTraceBlock(Uint8Array.of(0x7f, 0x80, 0, 0), 'real32', 'big', 1).ok).toBe(false);
});
