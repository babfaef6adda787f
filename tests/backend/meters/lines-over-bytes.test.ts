import { expect, it } from 'vitest';
import { createLineLink } from '../../../electron/backend/meters/lines-over-bytes.ts';
import { OutOfPatience, withPatience } from '../../../electron/backend/meters/patience.ts';
import { type Script, scriptedWire } from '../../support/scripted-wire.ts';

const format = { terminator: '\n', discardFirstLine: false, lateAnswerMs: 100, longestLine: 4096 } as const;
const never = new AbortController().signal;
const silent: Script = () => undefined;
const echo: Script = (line, { send }) => send(`${line}!\n`);

function linkTo(script: Script, lateAnswerMs: number = format.lateAnswerMs) {
  const wire = scriptedWire(script);
  return { wire, link: createLineLink('the wire', { ...format, lateAnswerMs }, wire.start) };
}

it('answers each question with its own line, one question at a time', async () => {
  const { link, wire } = linkTo(silent);
  const first = link.ask('one', never);
  const second = link.ask('two', never);
  await new Promise(setImmediate);
  expect(wire.said).toEqual(['one']);
  wire.farEnd.send('1\n');
  expect(await first).toBe('1');
  wire.play((_line, { send }) => send('2\n'));
  await new Promise(setImmediate);
  wire.farEnd.send('2\n');
  expect(await second).toBe('2');
  expect(wire.said).toEqual(['one', 'two']);
});

it('drops a line that nobody asked for', async () => {
  const { link, wire } = linkTo(echo);
  wire.farEnd.send('-99.9\n');
  await new Promise((resolve) => setTimeout(resolve, 5));
  expect(await link.ask('level', never)).toBe('level!');
});

it('joins no half line of before to the first answer', async () => {
  const { link, wire } = linkTo((line, { send }) => send(`2.3\n${line}!\n`));
  wire.farEnd.send('CH 007,-1');
  await new Promise((resolve) => setTimeout(resolve, 5));
  expect(await link.ask('level', never)).toBe('level!');
});

it('ends a question at once when it is stopped, and gives its late answer to nobody', async () => {
  const { link, wire } = linkTo(silent);
  const stop = new AbortController();
  const question = link.ask('one', stop.signal);
  await new Promise(setImmediate);
  stop.abort(new Error('enough'));
  await expect(question).rejects.toThrow('enough');
  const next = link.ask('two', never);
  wire.play(echo);
  wire.farEnd.send('late\n');
  expect(await next).toBe('two!');
});

it('does not wait for ever for an answer that nobody wants any more', async () => {
  const { link, wire } = linkTo(silent);
  const stop = new AbortController();
  const question = link.ask('one', stop.signal);
  await new Promise(setImmediate);
  stop.abort(new Error('enough'));
  await expect(question).rejects.toThrow('enough');
  wire.play(echo);
  expect(await link.ask('two', never)).toBe('two!');
});

it('lets the next question go at once after one has waited long enough', async () => {
  const { link, wire } = linkTo(silent, 15_000);
  await expect(withPatience(20, never, (signal) => link.ask('one', signal))).rejects.toThrow(OutOfPatience);
  wire.play(echo);
  const before = performance.now();
  expect(await link.ask('two', never)).toBe('two!');
  expect(performance.now() - before).toBeLessThan(5000);
});

it('fails the open question, tells that it is lost, and closes, when the wire goes', async () => {
  const { link, wire } = linkTo((_line, { unplug }) => unplug());
  await expect(link.ask('one', never)).rejects.toMatchObject({ name: 'MeterFault', code: 'lost' });
  expect(await link.lost).toMatchObject({ code: 'lost' });
  await expect(link.ask('two', never)).rejects.toMatchObject({ code: 'lost' });
  await expect(link.tell('three', never)).rejects.toMatchObject({ code: 'lost' });
  await link.close();
  expect(wire.closedTimes()).toBe(1);
});

it('never joins half an answer that came too late to the next one', async () => {
  const { link, wire } = linkTo((_line, { send }) => send('71100'));
  await expect(withPatience(300, never, (signal) => link.ask('one', signal))).rejects.toThrow(OutOfPatience);
  wire.play((_line, { send }) => send('0,"No error"\n0,"next"\n'));
  expect(await link.ask('two', never)).toBe('0,"next"');
});

it('says that the speed is wrong when no line end comes', async () => {
  const { link } = linkTo((_line, { send }) => send('\xff'.repeat(5000)));
  await expect(link.ask('one', never)).rejects.toMatchObject({ code: 'not-understood' });
  await expect(link.ask('one', never)).rejects.toThrow(/without a line end; check the speed/);
});

it('closes once, within a second, though the driver never does; and is not lost by that', async () => {
  let closed = 0;
  const link = createLineLink('the wire', format, () => ({
    write: () => undefined,
    close: () => {
      closed += 1;
      return new Promise(() => undefined);
    },
  }));
  let lost = false;
  void link.lost.then(() => {
    lost = true;
  });
  const asked = link.ask('one', never);
  const before = performance.now();
  await Promise.all([link.close(), link.close(), expect(asked).rejects.toMatchObject({ code: 'lost' })]);
  expect(performance.now() - before).toBeLessThan(1500);
  await link.close();
  expect([closed, lost]).toEqual([1, false]);
});

it('can be stopped while the driver takes no bytes', async () => {
  const link = createLineLink('the wire', format, () => ({
    write: () => undefined,
    close: async () => undefined,
  }));
  await expect(withPatience(20, never, (signal) => link.tell('*CLS', signal))).rejects.toThrow(OutOfPatience);
});

const bytesOf = (text: string) => Buffer.from(text, 'latin1');
const block = `#216${String.fromCharCode(0, 10, 13, 35, 255, 0, 0, 0, 10, 10, 10, 1, 2, 3, 4, 5)}`;

it('takes a block whatever is in it and whatever the pieces, and the next line after it', async () => {
  const { link, wire } = linkTo((line, { send }) => {
    if (line !== 'TRAC?') return send(`${line}!\n`);
    send('\r\n');
    for (const character of `${block}\r\n`) send(character);
  });
  const answer = await link.askBlock('TRAC?', 16, never);
  expect(answer).toEqual({ kind: 'block', data: Uint8Array.from(bytesOf(block.slice(4))) });
  expect(await link.ask('level', never)).toBe('level!');
  expect(wire.said).toEqual(['TRAC?', 'level']);
});

it('takes no block that is cut, and none that a byte was added to or lost from', async () => {
  for (let cut = 0; cut < block.length; cut += 1) {
    const { link } = linkTo((_line, { send, unplug }) => {
      send(block.slice(0, cut));
      unplug();
    });
    await expect(link.askBlock('TRAC?', 16, never)).rejects.toMatchObject({ code: 'lost' });
  }
  const longer = linkTo((_line, { send }) => send(`${block}x\n`)).link;
  expect(await longer.askBlock('TRAC?', 16, never)).toMatchObject({ kind: 'line' });
  // A lost byte takes the line end for the last one; then nothing ends it.
  const shorter = linkTo((_line, { send }) => send(`${block.slice(0, 9)}${block.slice(10)}\n`)).link;
  const patient = withPatience(30, never, (signal) => shorter.askBlock('TRAC?', 16, signal));
  await expect(patient).rejects.toThrow(OutOfPatience);
});

it.each(['-113,"Undefined header"', '#0abc', '#9999999999x', '#x'])(
  'gives %s as the line that it is where a block was asked for',
  async (line) => {
    const { link } = linkTo((_line, { send }) => send(`${line}\n`));
    expect(await link.askBlock('TRAC?', 16, never)).toEqual({ kind: 'line', line });
  },
);
