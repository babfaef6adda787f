import { expect, it } from 'vitest';
import type { LinkNews } from '../../../electron/backend/meters/link-news.ts';
import { type Meter, MeterFault } from '../../../electron/backend/meters/meter-shop.ts';
import { connectPatiently } from '../../../electron/backend/meters/patient-connect.ts';
import { usualRecovery } from '../../../electron/backend/meters/steady-meter.ts';

const never = new AbortController().signal;
const meter: Meter = {
  choice: { kind: 'serial', path: 'COM3', profile: 'scpi' },
  identity: { maker: 'm', model: 'n', serialNumber: '1', firmware: '1' },
  profileName: 'scpi',
  moveProbe: () => undefined,
  readLevels: () => {
    throw new Error('nothing is read here');
  },
  watchLevel: () => {
    throw new Error('nothing is watched here');
  },
  lost: new Promise(() => undefined),
  close: async () => undefined,
};
const fault = (code: MeterFault['code']) => new MeterFault(code, 'COM3', `it is ${code}`);

/** A port of an age, whose answers come from a list; the last one again and again. */
function bench(ageMs: number | null, answers: readonly (MeterFault['code'] | 'well')[]) {
  let nowMs = ageMs ?? 0;
  const waits: number[] = [];
  const news: LinkNews[] = [];
  let tries = 0;
  const connect = (signal = never) =>
    connectPatiently(
      {
        path: 'COM3',
        open: async () => {
          const answer = answers[Math.min(tries, answers.length - 1)] ?? 'well';
          tries += 1;
          if (answer !== 'well') throw fault(answer);
          return meter;
        },
        newPorts: { ageMs: async () => (ageMs === null ? null : nowMs) },
        recovery: usualRecovery,
        news: (one) => news.push(one),
        rest: async (ms, signal) => {
          signal.throwIfAborted();
          waits.push(ms);
          nowMs += ms;
        },
      },
      signal,
    );
  return { connect, waits, news, tries: () => tries };
}

it.each(['port-busy', 'no-permission', 'not-understood', 'silent', 'lost'] as const)(
  'tries a port again that was plugged in just now and is %s, and says so',
  async (code) => {
    const { connect, waits, news } = bench(1000, [code, code, 'well']);
    expect(await connect()).toBe(meter);
    expect(waits).toEqual([200, 400]);
    expect(news).toMatchObject([
      { link: 'waiting', leftMs: 29_000 },
      { link: 'waiting', leftMs: 28_800 },
    ]);
  },
);

it('gives up 30 s after the plug-in, with rests of 0.2 to 5 s, and names what is left to do', async () => {
  const { connect, waits, tries } = bench(0, ['port-busy']);
  await expect(connect()).rejects.toMatchObject({
    code: 'port-busy',
    where: 'COM3',
    help: 'it is port-busy; or unplug the adapter and plug it in again',
  });
  expect(waits.reduce((sum, ms) => sum + ms, 0)).toBe(30_000);
  expect([waits[0], Math.max(...waits)]).toEqual([200, 5000]);
  expect(tries()).toBe(waits.length + 1);
});

it.each([
  [null, 'port-busy'],
  [31_000, 'port-busy'],
  [0, 'no-such-port'],
  [0, 'meter-error'],
] as const)(
  'gives its one answer at once where waiting helps nobody: a port of %s ms that is %s',
  async (age, code) => {
    const { connect, waits, news } = bench(age, [code]);
    await expect(connect()).rejects.toMatchObject({ code, help: `it is ${code}` });
    expect([waits, news]).toEqual([[], []]);
  },
);

it('stops trying when it is told to', async () => {
  const { connect, tries } = bench(0, ['port-busy']);
  await expect(connect(AbortSignal.abort('enough'))).rejects.toBe('enough');
  expect(tries()).toBe(1);
});
