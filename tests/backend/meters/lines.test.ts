import { expect, it } from 'vitest';
import { createLineSplitter, LONGEST_LINE } from '../../../electron/backend/meters/lines.ts';

const bytes = (text: string) => Buffer.from(text, 'latin1');
const linesOf = (text: string, discardFirstLine = false) =>
  createLineSplitter(discardFirstLine).push(bytes(text)).lines;

it('takes CR, LF and CR LF as the end of a line, and leaves empty lines out', () => {
  expect(linesOf('a\rb\nc\r\n\r\nd\n')).toEqual(['a', 'b', 'c', 'd']);
});

it('gives the same lines whatever the pieces', () => {
  const text = 'first,1\r\nsecond,2\nthird,3\r';
  for (let size = 1; size <= text.length; size += 1) {
    const splitter = createLineSplitter(false);
    const lines: string[] = [];
    for (let at = 0; at < text.length; at += size) {
      lines.push(...splitter.push(bytes(text.slice(at, at + size))).lines);
    }
    expect(lines).toEqual(['first,1', 'second,2', 'third,3']);
  }
});

it('never gives out a line that has no end, at whatever byte it was cut', () => {
  const sweep = '711000000;-12.3;0,"No error"\n717000000;-12.9;0,"No error"\n';
  const whole = sweep.trimEnd().split('\n');
  for (let cut = 0; cut <= sweep.length; cut += 1) {
    const lines = linesOf(sweep.slice(0, cut));
    expect(lines).toEqual(whole.slice(0, lines.length));
    expect(lines.length).toBe(sweep.slice(0, cut).split('\n').length - 1);
  }
});

it('reads latin1: a degree sign and a micro sign survive', () => {
  expect(createLineSplitter(false).push(Uint8Array.of(0x32, 0x35, 0xb0, 0x20, 0xb5, 0x0a)).lines).toEqual([
    '25° µ',
  ]);
});

it('strips control characters at the ends, and keeps them inside where they spoil the line', () => {
  expect(linesOf('\x00\x00\x11-12.3\x00\n')).toEqual(['-12.3']);
  // A damaged byte inside a number must not leave another number.
  expect(linesOf('-1\x002.3\n')).toEqual(['-1\x002.3']);
});

it('drops everything up to the first line end where the meter talks unasked', () => {
  expect(linesOf('2.3\n711,-12.3\n', true)).toEqual(['711,-12.3']);
});

it('drops what was begun together with its rest', () => {
  const splitter = createLineSplitter(false);
  splitter.push(bytes('711,-1'));
  splitter.dropBegun();
  expect(splitter.push(bytes('2.3\n717,-9.9\n')).lines).toEqual(['717,-9.9']);
});

it('drops mere noise without taking the next line with it', () => {
  const splitter = createLineSplitter(false);
  splitter.push(bytes('\x00\x00'));
  splitter.dropBegun();
  expect(splitter.push(bytes('717,-9.9\n')).lines).toEqual(['717,-9.9']);
});

it('gives up an endless line, says so, and goes on after its end', () => {
  const splitter = createLineSplitter(false);
  let told = 0;
  // 1 MB of 0xff: what a wrong baud rate looks like.
  for (let i = 0; i < 256; i += 1) told += splitter.push(new Uint8Array(4096).fill(0xff)).endless ? 1 : 0;
  expect(told).toBeGreaterThan(200);
  expect(splitter.push(bytes('\nok\n'))).toEqual({ lines: ['ok'], endless: false });
  expect(linesOf(`${'x'.repeat(LONGEST_LINE)}\n`)).toHaveLength(1);
});
