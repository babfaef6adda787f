import { spawn } from 'node:child_process';
import { chmodSync, chownSync } from 'node:fs';
import { expect, it, onTestFinished } from 'vitest';
import { createMeterShop } from '../../../electron/backend/meters/connect.ts';
import { createLineSplitter } from '../../../electron/backend/meters/lines.ts';
import { scpi } from '../../../electron/backend/meters/profiles/scpi.ts';
import { openSerialLink } from '../../../electron/backend/meters/serial-link.ts';
import { openTestPty } from '../../support/pty.ts';

const never = new AbortController().signal;
const onLinux = it.skipIf(process.platform !== 'linux');

/** Opens a port in a process of its own, says how that went, and ends by itself. */
const program = `
  import { openSerialLink } from './electron/backend/meters/serial-link.ts';
  import { scpi } from './electron/backend/meters/profiles/scpi.ts';
  const never = new AbortController().signal;
  try {
    const link = await openSerialLink(process.argv[1], scpi, never);
    process.stdout.write('asked ' + (await link.ask('*OPC?', never)) + '\\n');
    await Promise.all([link.close(), link.close()]);
    await link.close();
    process.stdout.write('closed\\n');
  } catch (fault) {
    process.stdout.write(fault.code + ': ' + fault.help + '\\n');
  }`;

const inAnotherProcess = (path: string, as: object = {}) =>
  new Promise<{ said: string; exitCode: number | null }>((resolve) => {
    const args = ['--input-type=module-typescript', '-e', program, path];
    const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'pipe'], ...as });
    let said = '';
    for (const stream of [child.stdout, child.stderr])
      stream.on('data', (chunk: Buffer) => {
        said += chunk.toString();
      });
    child.once('error', (fault) => resolve({ said: fault.message, exitCode: null }));
    child.once('close', (exitCode) => resolve({ said, exitCode }));
  });

async function plugged() {
  const pty = await openTestPty();
  onTestFinished(() => pty.unplug());
  return pty.path;
}

onLinux('opens, closes three times and ends by itself in a process of its own', async () => {
  expect(await inAnotherProcess(await plugged())).toEqual({ said: 'asked 1\nclosed\n', exitCode: 0 });
});

onLinux('says in plain words that another program, or a second window, has the meter', async () => {
  const path = await plugged();
  const link = await openSerialLink(path, scpi, never);
  const { said, exitCode } = await inAnotherProcess(path);
  expect(said).toMatch(/^port-busy: another program, or another window of this one, has the meter/);
  expect(exitCode).toBe(0);
  await link.close();
  expect((await inAnotherProcess(path)).said).toMatch(/^asked 1/);
});

onLinux(
  'leaves the meter to the one who has it: a second program asking again and again harms no sweep',
  async () => {
    const path = await plugged();
    const shop = createMeterShop({ now: () => new Date(), recovery: null });
    const meter = await shop.connect({ kind: 'serial', path, profile: 'scpi' }, never);
    const plan = Array.from({ length: 120 }, (_, i) => 57 + 6 * i);
    const levels: (number | null)[] = [];
    const others = [inAnotherProcess(path), inAnotherProcess(path)];
    const busy = expect(shop.connect({ kind: 'serial', path, profile: 'scpi' }, never)).rejects.toMatchObject(
      {
        code: 'port-busy',
      },
    );
    let ended = false;
    void Promise.all(others).then(() => {
      ended = true;
    });
    for (let sweeps = 0; !ended && sweeps < 200; sweeps += 1) {
      for await (const { frequencyMhz, meterDbmv } of meter.readLevels(plan, never))
        levels.push(meterDbmv === null ? null : meterDbmv - frequencyMhz / 100);
    }
    await busy;
    for (const other of others) expect((await other).said).toMatch(/^port-busy/);
    expect(levels.every((offDb) => offDb !== null && Math.abs(offDb) <= 0.00501)).toBe(true);
    expect(levels.length).toBeGreaterThanOrEqual(plan.length);
    await meter.close();
  },
);

// Only root can hand a port to somebody and take the right away from somebody else.
it.skipIf(process.platform !== 'linux' || process.getuid?.() !== 0)(
  'names the group and the exact command to somebody who may not use the port',
  async ({ skip }) => {
    const path = await plugged();
    chownSync(path, 0, 20);
    chmodSync(path, 0o660);
    const { said } = await inAnotherProcess(path, { uid: 65_534, gid: 65_534 });
    if (/Cannot find|EACCES.*(node|electron)|spawn/.test(said)) skip('another user can not read this folder');
    expect(said).toMatch(/^no-permission: .*sudo usermod -aG dialout \$USER/);
  },
);

it('keeps nothing of a megabyte without a line end, and says that the speed may be wrong', () => {
  const splitter = createLineSplitter(false);
  const chunk = Buffer.alloc(4096, 0xff);
  let endless = 0;
  for (let i = 0; i < 256; i += 1) if (splitter.push(chunk).endless) endless += 1;
  expect(endless).toBeGreaterThan(200);
  expect(splitter.push(Buffer.from('\nDBMV\n')).lines).toEqual(['DBMV']);
});
