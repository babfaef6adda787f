import { closeSync, constants, openSync, writeSync } from 'node:fs';
import { afterEach, expect, it } from 'vitest';
import type { Reading } from '../../../core/bridge/records.ts';
import { createMeterShop } from '../../../electron/backend/meters/connect.ts';
import { MeterFault } from '../../../electron/backend/meters/meter-shop.ts';
import { scpi } from '../../../electron/backend/meters/profiles/scpi.ts';
import { openSerialLink } from '../../../electron/backend/meters/serial-link.ts';
import { openTestPty } from '../../support/pty.ts';

const never = new AbortController().signal;
const plan = Array.from({ length: 158 }, (_, i) => 57 + 6 * i);
const onLinux = it.skipIf(process.platform === 'win32');

const atEnd: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const end of atEnd.splice(0).reverse()) await end();
});

async function pluggedIn(readingMs = 0) {
  const pty = await openTestPty(undefined, readingMs);
  atEnd.push(() => pty.unplug());
  const shop = createMeterShop({ now: () => new Date(), recovery: null });
  const connect = async () => {
    const meter = await shop.connect({ kind: 'serial', path: pty.path, profile: 'scpi' }, never);
    atEnd.push(() => meter.close());
    return meter;
  };
  return { pty, shop, connect };
}

async function readAll(readings: AsyncGenerator<Reading>, each: (count: number) => void = () => undefined) {
  const rows: Reading[] = [];
  try {
    for await (const reading of readings) each(rows.push(reading));
    return { rows, fault: null };
  } catch (fault) {
    return { rows, fault };
  }
}

const asExpected = (rows: readonly Reading[]) =>
  rows.every((row) => Math.abs((row.meterDbmv ?? Number.NaN) - row.frequencyMhz / 100) <= 0.00501);

onLinux('reads 158 channels from a pseudo-terminal, three sessions after one another', async () => {
  const { connect } = await pluggedIn();
  for (let session = 0; session < 3; session += 1) {
    const meter = await connect();
    const { rows, fault } = await readAll(meter.readLevels(plan, never));
    expect(fault).toBeNull();
    expect(rows.map(({ frequencyMhz }) => frequencyMhz)).toEqual(plan);
    expect(asExpected(rows)).toBe(true);
    await meter.close();
  }
});

onLinux(
  'is lost within a second when the far end closes in the middle, and keeps what was read',
  async () => {
    const { pty, connect } = await pluggedIn(5);
    const meter = await connect();
    let unpluggedAt = 0;
    const { rows, fault } = await readAll(meter.readLevels(plan, never), (count) => {
      if (count === 40) {
        unpluggedAt = performance.now();
        void pty.unplug();
      }
    });
    expect(performance.now() - unpluggedAt).toBeLessThan(1000);
    expect(fault).toMatchObject({ name: 'MeterFault', code: 'lost', where: pty.path });
    expect(rows.length).toBeGreaterThanOrEqual(40);
    expect(rows.length).toBeLessThan(158);
    expect(asExpected(rows)).toBe(true);
    expect((await meter.lost).help).toMatch(/check the cable/);
    const next = await readAll(meter.readLevels(plan, never));
    expect(next).toMatchObject({ rows: [], fault: { code: 'lost' } });
  },
);

onLinux('tells a meter that is unplugged while nothing is read', async () => {
  const { pty, connect } = await pluggedIn();
  const meter = await connect();
  await pty.unplug();
  expect((await meter.lost).help).toMatch(/check the cable/);
});

onLinux('stops in the middle at once, and reads on rightly after that', async () => {
  const { connect } = await pluggedIn(700);
  const meter = await connect();
  const stop = new AbortController();
  let stoppedAt = 0;
  const { rows, fault } = await readAll(meter.readLevels(plan, stop.signal), (count) => {
    if (count !== 1) return;
    setTimeout(() => {
      stoppedAt = performance.now();
      stop.abort();
    }, 30);
  });
  expect(performance.now() - stoppedAt).toBeLessThan(500);
  expect(fault).toBeNull();
  expect(rows).toHaveLength(1);
  const again = await readAll(meter.readLevels([867, 57], never));
  expect(again.rows).toHaveLength(2);
  expect(asExpected(again.rows)).toBe(true);
});

onLinux('refuses a port that somebody has already, and says so in plain words', async () => {
  const { connect, pty } = await pluggedIn();
  await connect();
  await expect(connect()).rejects.toMatchObject({
    code: 'port-busy',
    where: pty.path,
    help: expect.stringContaining('another program'),
  });
});

onLinux('refuses a port that is not there, and what is no port', async () => {
  const { shop } = await pluggedIn();
  const connect = (path: string) => shop.connect({ kind: 'serial', path, profile: 'scpi' }, never);
  await expect(connect('/dev/ttyNONE7')).rejects.toMatchObject({ code: 'no-such-port' });
  await expect(connect('/etc/hostname')).rejects.toMatchObject({
    code: 'no-such-port',
    help: expect.stringContaining('not a serial port'),
  });
});

onLinux('can be stopped while it connects to a port that nobody answers on', async () => {
  const pty = await openTestPty(() => null, 0);
  atEnd.push(() => pty.unplug());
  const stop = new AbortController();
  const link = await openSerialLink(pty.path, scpi, never);
  await link.close();
  const shop = createMeterShop({
    now: () => new Date(),
    profiles: [{ ...scpi, settleMs: 5000 }],
  });
  setTimeout(() => stop.abort(new Error('enough')), 30);
  const before = performance.now();
  const connecting = shop.connect({ kind: 'serial', path: pty.path, profile: 'scpi' }, stop.signal);
  await expect(connecting).rejects.toThrow('enough');
  expect(performance.now() - before).toBeLessThan(1000);
  // The port is free again.
  await (await openSerialLink(pty.path, scpi, never)).close();
});

onLinux('does not take what an earlier session left behind', async () => {
  const { pty, connect } = await pluggedIn(60);
  const first = await connect();
  const stop = new AbortController();
  // Stopped and closed while an answer is on its way: it comes when the port is open again, or between the two.
  setTimeout(() => stop.abort(), 30);
  await readAll(first.readLevels([57], stop.signal));
  await first.close();
  // Half a command of a killed program is still in the meter.
  const left = openSync(pty.path, constants.O_RDWR | constants.O_NOCTTY);
  writeSync(left, 'SENS:FREQ:CE');
  closeSync(left);
  const second = await connect();
  expect(second.identity.serialNumber).toBe('QIW-0042');
  const { rows, fault } = await readAll(second.readLevels([867], never));
  expect(fault).toBeNull();
  expect(asExpected(rows)).toBe(true);
});

onLinux('never sends the meter its own answers: the terminal is raw before anybody opens it', async () => {
  const heard: string[] = [];
  const pty = await openTestPty((frequencyMhz) => {
    heard.push(String(frequencyMhz));
    return 0;
  });
  atEnd.push(() => pty.unplug());
  // A program that does not set the terminal at all, as `cat` or `echo` would.
  const plain = openSync(pty.path, constants.O_RDWR | constants.O_NOCTTY);
  writeSync(plain, 'NO:SUCH\nFREQ:CENT 711E6;:READ:POW?\n');
  await new Promise((resolve) => setTimeout(resolve, 80));
  writeSync(plain, 'FREQ:CENT 57E6;:READ:POW?\n');
  await new Promise((resolve) => setTimeout(resolve, 80));
  closeSync(plain);
  expect(heard).toEqual(['711', '57']);
  // Had the answers come back as commands, there would be more errors than the one we made.
  const link = await openSerialLink(pty.path, scpi, never);
  atEnd.push(() => link.close());
  expect(await link.ask('SYST:ERR:COUN?', never)).toBe('1');
});

onLinux('survives closing while the far end takes nothing (a pending write is cancelled twice)', async () => {
  const { pty } = await pluggedIn();
  const link = await openSerialLink(pty.path, scpi, never);
  pty.stall();
  const told = link.tell('x'.repeat(200_000), never).catch((fault: unknown) => fault);
  // The driver never says that it took them: only the link's own patience can end this.
  const first = await Promise.race([told, new Promise((resolve) => setTimeout(resolve, 300, 'pending'))]);
  expect(first).toBe('pending');
  const before = performance.now();
  await Promise.all([link.close(), link.close()]);
  await link.close();
  expect(performance.now() - before).toBeLessThan(1500);
  expect(await told).toBeInstanceOf(MeterFault);
  expect((await told) as MeterFault).toMatchObject({ code: 'lost' });
});

onLinux('survives an unplugging while a write is pending, and is lost once', async () => {
  const { pty } = await pluggedIn();
  const link = await openSerialLink(pty.path, scpi, never);
  pty.stall();
  const told = link.tell('x'.repeat(200_000), AbortSignal.timeout(3000)).catch((fault: unknown) => fault);
  await new Promise((resolve) => setTimeout(resolve, 100));
  await pty.unplug();
  expect(await told).toMatchObject({ name: 'MeterFault', code: 'lost' });
  expect(await link.lost).toMatchObject({ code: 'lost' });
  await link.close();
});

onLinux(
  'gives up a question that a stalled meter never takes, closes the port, and can open it again',
  async () => {
    const { pty, shop } = await pluggedIn();
    const link = await openSerialLink(pty.path, scpi, never);
    pty.stall();
    // Fills whatever the system holds between the two.
    await link.tell('x'.repeat(100_000), AbortSignal.timeout(100)).catch(() => undefined);
    await expect(link.ask('*OPC?', AbortSignal.timeout(200))).rejects.toMatchObject({ name: 'TimeoutError' });
    await link.close();
    const again = shop.connect({ kind: 'serial', path: pty.path, profile: 'scpi' }, AbortSignal.timeout(500));
    // It stalls still: the port is free and opened, and nobody answers on it.
    await expect(again).rejects.toMatchObject({ name: 'TimeoutError' });
  },
);

onLinux('reads though the port has no lines that could be set as the profile wishes', async () => {
  const { pty } = await pluggedIn();
  const wished = { ...scpi, serial: { ...scpi.serial, dtr: true, rts: false } };
  const link = await openSerialLink(pty.path, wished, never);
  expect(await link.ask('*OPC?', never)).toBe('1');
  await link.close();
});
