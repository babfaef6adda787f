import { rmSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import type { FoundPort } from '../../../core/bridge/records.ts';
import { createMeterShop } from '../../../electron/backend/meters/connect.ts';
import { SimulatedInstrument } from '../../../electron/backend/meters/simulated/instrument.ts';
import { openPtyMeter } from '../../../electron/backend/meters/simulated/pty.ts';
import { throwAwayFolder } from '../../support/archive.ts';
import { openTestPty } from '../../support/pty.ts';

const never = new AbortController().signal;
const plan = Array.from({ length: 60 }, (_, i) => 57 + 6 * i);
const onLinux = it.skipIf(process.platform === 'win32');
const plugged = async () => {
  const pty = await openTestPty(undefined, 3);
  onTestFinished(() => pty.unplug());
  return pty;
};

/** Sweeps over a port that is pulled at the twentieth reading; `pulled` says what is plugged in where after that. */
async function sweepOver(
  path: string,
  find: () => Promise<{ ports: FoundPort[]; problem: null }>,
  pulled: () => Promise<void>,
) {
  const shop = createMeterShop({
    now: () => new Date(),
    find,
    recovery: { firstMs: 50, mostMs: 200, withinMs: 4000, afterSleepMs: 50 },
  });
  const meter = await shop.connect({ kind: 'serial', path, profile: 'scpi' }, never);
  onTestFinished(() => meter.close());
  const levels: [number, number | null][] = [];
  for await (const { frequencyMhz, meterDbmv } of meter.readLevels(plan, never)) {
    levels.push([frequencyMhz, meterDbmv]);
    if (levels.length === 20) await pulled();
  }
  return levels;
}
const everyOnce = plan.map((mhz) => [mhz, Number((mhz / 100).toFixed(2))]);

onLinux(
  'finishes the same sweep when the cable is plugged in again: no reading lost, none twice',
  async () => {
    const port = join(throwAwayFolder(), 'ttyUSB0');
    const first = await plugged();
    symlinkSync(first.path, port);
    const levels = await sweepOver(
      port,
      async () => ({ ports: [], problem: null }),
      async () => {
        void first.unplug();
        rmSync(port);
        const second = await plugged();
        setTimeout(() => symlinkSync(second.path, port), 300);
      },
    );
    expect(levels).toEqual(everyOnce);
  },
);

onLinux('finds it by its adapter when the port has another name after it was plugged in again', async () => {
  const folder = throwAwayFolder();
  const [before, after] = [join(folder, 'ttyUSB0'), join(folder, 'ttyUSB1')];
  const first = await plugged();
  symlinkSync(first.path, before);
  const ports: FoundPort[] = [{ path: before, label: 'Harbour A17', likely: true, adapter: '0403:6001:a17' }];
  const levels = await sweepOver(
    before,
    async () => ({ ports, problem: null }),
    async () => {
      void first.unplug();
      rmSync(before);
      const second = await plugged();
      symlinkSync(second.path, after);
      ports[0] = { path: after, label: 'Harbour A17', likely: true, adapter: '0403:6001:a17' };
    },
  );
  expect(levels).toEqual(everyOnce);
});

onLinux('finds it by its adapter though its old name belongs to another meter by now', async () => {
  const folder = throwAwayFolder();
  const [name, moved] = [join(folder, 'ttyUSB0'), join(folder, 'ttyUSB1')];
  const first = await plugged();
  symlinkSync(first.path, name);
  const mine = { label: 'Harbour A17', likely: true, adapter: '0403:6001:a17' };
  const ports: FoundPort[] = [{ path: name, ...mine }];
  const other = await openPtyMeter(
    new SimulatedInstrument({ source: () => -40, identity: 'Quillmere,Other,B99,1' }),
    { messageMs: 0, readingMs: 0 },
  );
  onTestFinished(() => other.unplug());
  const levels = await sweepOver(
    name,
    async () => ({ ports, problem: null }),
    async () => {
      void first.unplug();
      rmSync(name);
      const second = await plugged();
      symlinkSync(other.path, name);
      symlinkSync(second.path, moved);
      ports.splice(
        0,
        1,
        { path: name, label: 'b', likely: true, adapter: '0403:6001:b99' },
        { path: moved, ...mine },
      );
    },
  );
  expect(levels).toEqual(everyOnce);
});

onLinux('does not take another adapter, and is lost with what was read', async () => {
  const port = join(throwAwayFolder(), 'ttyUSB0');
  const first = await plugged();
  symlinkSync(first.path, port);
  const ports: FoundPort[] = [{ path: port, label: 'a', likely: true, adapter: '0403:6001:a17' }];
  const sweep = sweepOver(
    port,
    async () => ({ ports, problem: null }),
    async () => {
      void first.unplug();
      rmSync(port);
      const second = await plugged();
      ports[0] = { path: second.path, label: 'b', likely: true, adapter: '0403:6001:b99' };
    },
  );
  await expect(sweep).rejects.toMatchObject({ code: 'lost' });
});
