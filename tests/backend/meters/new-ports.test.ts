import { chmodSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { createNewPorts, deviceCameAt } from '../../../electron/backend/meters/new-ports.ts';
import { throwAwayFolder } from '../../support/archive.ts';
import { openTestPty } from '../../support/pty.ts';

const nobodyKnows = async () => null;
function ports(cameAt: (path: string) => Promise<number | null> = nobodyKnows) {
  let ms = 1_000_000;
  return {
    newPorts: createNewPorts(() => ms, cameAt),
    pass: (forMs: number) => {
      ms += forMs;
    },
  };
}

it('takes what the first list holds for old, and what a later one adds for new', async () => {
  const { newPorts, pass } = ports();
  newPorts.listed(['/dev/ttyUSB0']);
  pass(60_000);
  newPorts.listed(['/dev/ttyUSB0', '/dev/ttyUSB1']);
  pass(2000);
  newPorts.listed(['/dev/ttyUSB0', '/dev/ttyUSB1']);
  expect(await newPorts.ageMs('/dev/ttyUSB0')).toBeNull();
  expect(await newPorts.ageMs('/dev/ttyUSB1')).toBe(2000);
});

it('counts anew when a port was gone between two lists, or its meter was lost', async () => {
  const { newPorts, pass } = ports();
  newPorts.listed(['COM3']);
  newPorts.listed([]);
  newPorts.listed(['COM3']);
  pass(700);
  expect(await newPorts.ageMs('COM3')).toBe(700);
  pass(60_000);
  newPorts.lost('COM3');
  pass(100);
  expect(await newPorts.ageMs('COM3')).toBe(100);
});

it('knows a typed path by its device file, and no age of a moment to come', async () => {
  const { newPorts } = ports(async (path) => (path === 'early' ? 1_500_000 : 999_000));
  expect(await newPorts.ageMs('/dev/typed')).toBe(1000);
  expect(await newPorts.ageMs('early')).toBeNull();
});

it.skipIf(process.platform === 'win32')('sees the moment at which the system gave a file away', async () => {
  const file = join(throwAwayFolder(), 'ttyUSB0');
  writeFileSync(file, '');
  const first = await deviceCameAt(file);
  expect(Math.abs(Date.now() - (first ?? 0))).toBeLessThan(60_000);
  await new Promise((resolve) => setTimeout(resolve, 30));
  chmodSync(file, 0o660);
  expect(await deviceCameAt(file)).toBeGreaterThan(first ?? 0);
  expect(await deviceCameAt(`${file}-gone`)).toBeNull();
});

it.skipIf(process.platform !== 'linux')(
  'does not take a pseudo-terminal for something that is plugged in',
  async () => {
    const pty = await openTestPty();
    expect(await deviceCameAt(pty.path)).toBeNull();
    await pty.unplug();
  },
);
