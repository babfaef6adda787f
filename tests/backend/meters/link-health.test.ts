import { expect, it } from 'vitest';
import { createLinkMonitor, LINES_KEPT } from '../../../electron/backend/meters/link-health.ts';

const bytes = (text: string) => Buffer.from(text, 'latin1');
function bench() {
  let nowMs = 1000;
  const monitor = createLinkMonitor(() => nowMs);
  monitor.began('COM3');
  return { monitor, pass: (ms: number) => (nowMs += ms) };
}
const linesOf = ({ monitor }: ReturnType<typeof bench>) =>
  monitor.health().traffic.map(({ way, text }) => [way, text]);

it('shows what was said and heard line by line, whatever the pieces, and bytes that are no text as numbers', () => {
  const one = bench();
  one.monitor.said(bytes('READ 711.000\n'));
  one.monitor.heard(bytes('711.0'));
  expect(linesOf(one)).toEqual([
    ['said', 'READ 711.000'],
    ['heard', '711.0'],
  ]);
  one.monitor.heard(bytes('00 7.1\r\n\x00\xf8\x9b\tB\n'));
  expect(linesOf(one)).toEqual([
    ['said', 'READ 711.000'],
    ['heard', '711.000 7.1'],
    ['heard', '\\x00\xf8\\x9b\\x09B'],
  ]);
});

it('keeps the last forty lines and no endless one', () => {
  const one = bench();
  for (let i = 0; i < 200; i += 1) one.monitor.said(bytes(`Q${i}\n`));
  one.monitor.heard(bytes('x'.repeat(100_000)));
  one.monitor.heard(bytes('y'.repeat(100_000)));
  const { traffic } = one.monitor.health();
  expect(traffic).toHaveLength(LINES_KEPT);
  expect(traffic[0]?.text).toBe('Q161');
  expect(traffic.at(-1)?.text).toBe(`${'x'.repeat(200)}\u2026`);
});

it('counts readings a second over the last seconds, and none when it rests', () => {
  const one = bench();
  expect(one.monitor.health()).toMatchObject({ readingsPerSecond: null, lastAnswerAgoMs: null });
  for (let i = 0; i < 30; i += 1) {
    one.pass(50);
    one.monitor.heard(bytes('1\n'));
    one.monitor.read();
  }
  expect(one.monitor.health()).toMatchObject({ readingCount: 30, readingsPerSecond: 20, lastAnswerAgoMs: 0 });
  one.pass(6000);
  expect(one.monitor.health()).toMatchObject({ readingsPerSecond: null, lastAnswerAgoMs: 6000 });
});

it('tells what went wrong, and begins anew with another link', () => {
  const one = bench();
  one.monitor.said(bytes('*IDN?\n'));
  one.monitor.gaveUp();
  one.monitor.broke('check the cable');
  expect(one.monitor.health()).toMatchObject({
    where: 'COM3',
    unansweredCount: 1,
    breakCount: 1,
    lastProblem: 'check the cable',
  });
  expect(linesOf(one).at(-1)).toEqual(['gave-up', 'no answer in time']);
  one.monitor.began('COM4');
  expect(one.monitor.health()).toEqual({
    where: 'COM4',
    readingCount: 0,
    readingsPerSecond: null,
    unansweredCount: 0,
    breakCount: 0,
    lastProblem: null,
    lastAnswerAgoMs: null,
    traffic: [],
  });
});
