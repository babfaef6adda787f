import { beforeEach, expect, it, vi } from 'vitest';
import { MeterProfile } from '../../../core/files/meter-profile.ts';
import { greet } from '../../../electron/backend/meters/handshake.ts';
import { scpi } from '../../../electron/backend/meters/profiles/scpi.ts';
import { openSerialLink } from '../../../electron/backend/meters/serial-link.ts';

/** What was asked of the driver, in order. A pseudo-terminal has no modem lines, so a stand-in has to show them. */
const driver = vi.hoisted(() => ({ done: Array.of<readonly [string, unknown]>(), linesWork: true }));
const { done } = driver;
vi.mock('serialport', async () => {
  const { EventEmitter } = await import('node:events');
  class SerialPort extends EventEmitter {
    isOpen = false;
    constructor(options: unknown) {
      super();
      driver.done.push(['made', options]);
    }
    open(opened: (fault: Error | null) => void) {
      const listened = this.listenerCount('error') > 0 && this.listenerCount('close') > 0;
      driver.done.push(['opened, listened to', listened]);
      this.isOpen = true;
      setImmediate(() => opened(null));
    }
    set(lines: unknown, set: (fault: Error | null) => void) {
      driver.done.push(['lines', lines]);
      setImmediate(() => set(driver.linesWork ? null : new Error('Inappropriate ioctl for device')));
    }
    write(bytes: Uint8Array, taken: () => void) {
      driver.done.push(['said', Buffer.from(bytes).toString('latin1')]);
      setImmediate(taken);
    }
    close(closed: () => void) {
      this.isOpen = false;
      closed();
    }
  }
  return { SerialPort };
});

beforeEach(() => {
  done.length = 0;
  driver.linesWork = true;
});

const never = new AbortController().signal;
const profileWith = (serial: object) => MeterProfile.parse({ ...scpi, serial });
const open = async (serial: object) => {
  // A path that is there: what has no device file counts as unplugged.
  const link = await openSerialLink('/dev/null', profileWith(serial), never);
  return link;
};

it('opens the port as the profile says, never by itself, and with every listener before', async () => {
  const link = await open({
    baudRate: 4800,
    dataBits: 7,
    parity: 'even',
    stopBits: 2,
    flowControl: 'hardware',
    hangUpOnClose: false,
  });
  await link.close();
  expect(done).toEqual([
    [
      'made',
      {
        path: '/dev/null',
        baudRate: 4800,
        dataBits: 7,
        parity: 'even',
        stopBits: 2,
        rtscts: true,
        xon: false,
        xoff: false,
        hupcl: false,
        autoOpen: false,
      },
    ],
    ['opened, listened to', true],
  ]);
});

it('controls no flow unless the profile says so: a stalled line would hang without a word', async () => {
  await (await open({})).close();
  await (await open({ flowControl: 'software' })).close();
  const made = done.filter(([what]) => what === 'made').map(([, options]) => options);
  expect(made[0]).toMatchObject({ rtscts: false, xon: false, xoff: false, hupcl: true });
  expect(made[1]).toMatchObject({ rtscts: false, xon: true, xoff: true });
});

it.each([
  [
    { dtr: true, rts: false },
    { dtr: true, rts: false },
  ],
  [{ dtr: false }, { dtr: false }],
  [{ rts: true }, { rts: true }],
])(
  'puts the lines that the profile names, and only those, before anything is said: %j',
  async (wished, set) => {
    const link = await open(wished);
    await link.tell('*CLS', never);
    await link.close();
    expect(done.slice(1).map(([what]) => what)).toEqual(['opened, listened to', 'lines', 'said']);
    expect(done.find(([what]) => what === 'lines')?.[1]).toEqual(set);
  },
);

it('leaves the lines as the system has them where the profile names none', async () => {
  await (await open({})).close();
  expect(done.map(([what]) => what)).not.toContain('lines');
});

it('opens though a port can not set its lines', async () => {
  driver.linesWork = false;
  const link = await open({ dtr: true });
  await link.tell('*CLS', never);
  await link.close();
  expect(done.at(-1)).toEqual(['said', '*CLS\n']);
});

it('rests after opening as long as the profile says, before the first word: a meter may start anew then', async () => {
  const rests: number[] = [];
  const link = await open({});
  const talk = {
    link,
    where: 'COM3',
    signal: never,
    patienceMs: 20,
    rest: async (ms: number) => {
      if (!done.some(([what]) => what === 'said')) rests.push(ms);
    },
  };
  // Nobody answers: only the order of the first steps is of interest.
  await expect(greet(talk, { ...profileWith({}), settleMs: 1800 })).rejects.toMatchObject({ code: 'silent' });
  expect(rests).toEqual([1800]);
  expect(done.some(([what]) => what === 'said')).toBe(true);
  await link.close();
});
