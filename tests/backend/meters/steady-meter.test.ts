import { expect, it } from 'vitest';
import type { Reading } from '../../../core/bridge/records.ts';
import type { LinkNews } from '../../../electron/backend/meters/link-news.ts';
import { type Meter, MeterFault } from '../../../electron/backend/meters/meter-shop.ts';
import type { SleepClocks } from '../../../electron/backend/meters/sleep-watch.ts';
import { createSteadyMeter, usualRecovery } from '../../../electron/backend/meters/steady-meter.ts';

const never = new AbortController().signal;
const lostFault = (code: MeterFault['code'] = 'lost') => new MeterFault(code, 'COM3', 'check the cable');

/** A session that reads until its script says otherwise. */
function session(breaksAtMhz: number | null, serialNumber = '1', code: MeterFault['code'] = 'lost') {
  const lost = Promise.withResolvers<Readonly<{ help: string }>>();
  let closed = 0;
  const meter: Meter = {
    choice: { kind: 'serial', path: 'COM3', profile: 'scpi' },
    identity: { maker: 'm', model: 'n', serialNumber, firmware: '1' },
    profileName: 'scpi',
    moveProbe: () => undefined,
    async *readLevels(frequenciesMhz) {
      for (const frequencyMhz of frequenciesMhz) {
        if (closed > 0 || frequencyMhz === breaksAtMhz) throw lostFault(closed > 0 ? 'lost' : code);
        yield {
          frequencyMhz,
          meterDbmv: frequencyMhz / 100,
          kind: null,
          takenAt: '2026-03-01T08:00:00.000Z',
        };
      }
    },
    async *watchLevel() {},
    lost: lost.promise,
    close: async () => {
      closed += 1;
    },
  };
  return { meter, lose: () => lost.resolve({ help: 'check the cable' }), closedTimes: () => closed };
}

/** A bench with a clock of its own: a rest takes no time of ours. */
function bench(first: ReturnType<typeof session>, next: (attempt: number) => Meter | MeterFault) {
  let nowMs = 0;
  let attempts = 0;
  const waits: number[] = [];
  const news: LinkNews[] = [];
  let tick = () => {};
  let wallMs = 0;
  const clocks: SleepClocks = {
    wallMs: () => wallMs,
    every: (_ms, each) => {
      tick = each;
      return () => undefined;
    },
  };
  const meter = createSteadyMeter({
    first: first.meter,
    recovery: usualRecovery,
    news: (one) => news.push(one),
    clock: () => nowMs,
    clocks,
    rest: async (restMs) => {
      waits.push(restMs);
      nowMs += restMs;
    },
    reconnect: async () => {
      attempts += 1;
      const found = next(attempts);
      if (found instanceof MeterFault) throw found;
      return found;
    },
  });
  const sleep = (ms: number) => {
    wallMs += 1000 + ms;
    tick();
  };
  return { meter, waits, news, sleep, attempts: () => attempts };
}
const plan = [57, 63, 69, 75, 81];
async function readAll(meter: Meter, signal = never, each: (reading: Reading) => void = () => undefined) {
  const mhz: number[] = [];
  try {
    for await (const reading of meter.readLevels(plan, signal)) {
      mhz.push(reading.frequencyMhz);
      each(reading);
    }
    return { mhz, fault: null };
  } catch (fault) {
    return { mhz, fault };
  }
}

it.each(['lost', 'silent', 'not-understood'] as const)(
  'goes on where a short fault (%s) stopped it: every frequency once, in order',
  async (code) => {
    const again = session(null);
    const { meter, waits, news } = bench(session(69, '1', code), (attempt) =>
      attempt < 3 ? lostFault('port-busy') : again.meter,
    );
    expect(await readAll(meter)).toEqual({ mhz: plan, fault: null });
    expect(waits).toEqual([200, 400, 800]);
    expect(news).toEqual([
      { link: 'looking', why: 'check the cable' },
      { link: 'back', afterMs: 1400 },
    ]);
  },
);

it('gives up after 30 s with rests of 0.2 to 5 s, is lost once, and keeps what was read', async () => {
  const first = session(69);
  const { meter, waits } = bench(first, () => lostFault('no-such-port'));
  let lost = 0;
  void meter.lost.then(() => {
    lost += 1;
  });
  expect(await readAll(meter)).toMatchObject({ mhz: [57, 63], fault: { code: 'lost' } });
  await Promise.resolve();
  expect(lost).toBe(1);
  expect(waits.reduce((sum, ms) => sum + ms, 0)).toBe(30_000);
  expect([waits[0], Math.max(...waits)]).toEqual([200, 5000]);
  expect(first.closedTimes()).toBeGreaterThan(0);
});

it('waits for a port that another program took meanwhile, and goes on when it is free', async () => {
  const { meter, attempts } = bench(session(69), (attempt) =>
    attempt < 4 ? lostFault('port-busy') : session(null).meter,
  );
  expect(await readAll(meter)).toEqual({ mhz: plan, fault: null });
  expect(attempts()).toBe(4);
});

it('does not take another meter for the one that it lost', async () => {
  const other = session(null, '2');
  const { meter } = bench(session(69), () => other.meter);
  expect(await readAll(meter)).toMatchObject({ mhz: [57, 63], fault: { code: 'lost' } });
  expect(other.closedTimes()).toBeGreaterThan(0);
});

it('stops at once while it looks for the meter, which is lost by that', async () => {
  const stop = new AbortController();
  const { meter } = bench(session(69), () => {
    stop.abort('enough');
    return lostFault();
  });
  expect(await readAll(meter, stop.signal)).toEqual({ mhz: [57, 63], fault: null });
  expect(await meter.lost).toMatchObject({ help: 'check the cable' });
});

it('is lost at once when nothing is read', async () => {
  const first = session(null);
  const { meter, attempts } = bench(first, () => lostFault());
  first.lose();
  expect(await meter.lost).toEqual({ help: 'check the cable' });
  expect(attempts()).toBe(0);
});

it('does not connect for ever to a meter that answers to its name and to nothing else', async () => {
  const { meter, attempts } = bench(session(69, '1', 'silent'), () => session(69, '1', 'silent').meter);
  expect(await readAll(meter)).toMatchObject({ mhz: [57, 63], fault: { code: 'silent' } });
  expect(attempts()).toBe(3);
  expect(await meter.lost).toBeDefined();
});

it('leaves what the meter itself reports to the person', async () => {
  const { meter, attempts } = bench(session(69, '1', 'meter-error'), () => lostFault());
  expect(await readAll(meter)).toMatchObject({ mhz: [57, 63], fault: { code: 'meter-error' } });
  expect(attempts()).toBe(0);
});

it('closes the port when the computer slept, rests 2 s, asks who is there, and goes on', async () => {
  const first = session(null);
  const { meter, sleep, waits } = bench(first, () => session(null).meter);
  sleep(0);
  sleep(4900);
  expect(first.closedTimes()).toBe(0);
  const read = await readAll(meter, never, ({ frequencyMhz }) => {
    if (frequencyMhz === 63) sleep(3_600_000);
  });
  expect(read).toEqual({ mhz: plan, fault: null });
  expect(first.closedTimes()).toBeGreaterThan(0);
  expect(waits[0]).toBe(2000);
});

it('begins a sweep after a sleep with a new session', async () => {
  const first = session(null);
  const { meter, sleep, attempts } = bench(first, () => session(null).meter);
  sleep(60_000);
  expect(await readAll(meter)).toEqual({ mhz: plan, fault: null });
  expect(attempts()).toBe(1);
});

it('stays closed when it is closed, and closing twice is no mistake', async () => {
  const first = session(null);
  const { meter, attempts } = bench(first, () => session(null).meter);
  await meter.close();
  await meter.close();
  expect(await readAll(meter)).toMatchObject({ mhz: [], fault: { code: 'lost' } });
  expect(attempts()).toBe(0);
});
