import { execFile } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, describe, expect, it } from 'vitest';
import { builtInLabel, readKernelPorts } from '../../../electron/backend/meters/kernel-ports.ts';
import { findPorts, type PortSources } from '../../../electron/backend/meters/ports.ts';

const base = mkdtempSync(join(tmpdir(), 'tiltwright-ports-'));
afterAll(() => rmSync(base, { recursive: true }));

/** Folders as Linux has them: an adapter with a name, one without, a built-in port, and one that is not there. */
function kernelFolders(name: string) {
  const byId = join(base, name, 'by-id');
  const ttyClass = join(base, name, 'tty');
  for (const tty of ['ttyUSB0', 'ttyACM3', 'ttyS0', 'ttyS1', 'tty1', 'console']) {
    mkdirSync(join(ttyClass, tty), { recursive: true });
  }
  writeFileSync(join(ttyClass, 'ttyS0', 'type'), '4\n');
  writeFileSync(join(ttyClass, 'ttyS1', 'type'), '0\n');
  mkdirSync(byId, { recursive: true });
  symlinkSync('../../ttyUSB0', join(byId, 'usb-Harbour_Serial_Works_A17-if00-port0'));
  return { byId, ttyClass, devices: '/dev' };
}
const noFolders = { byId: join(base, 'none'), ttyClass: join(base, 'none'), devices: '/dev' };
const emptyFolders = { ...noFolders, ttyClass: base };
const fromKernel = [
  { path: '/dev/ttyACM3', label: 'adapter', likely: true },
  {
    path: '/dev/ttyUSB0',
    label: 'usb-Harbour Serial Works A17-if00-port0',
    likely: true,
    adapter: 'by-id:usb-Harbour Serial Works A17-if00-port0',
  },
  { path: '/dev/ttyS0', label: builtInLabel, likely: false },
];
const sources = (parts: Partial<PortSources>): PortSources => ({
  list: async () => [],
  platform: 'linux',
  folders: noFolders,
  limitMs: 50,
  ...parts,
});

it('knows an adapter by the numbers of its USB device, as the system lists it, and each port of one with several', async () => {
  const root = join(base, 'usb');
  const usb = join(root, 'devices', 'usb1', '1-2');
  const devices = { ttyUSB0: '1-2:1.0/ttyUSB0', ttyUSB1: '1-2:1.1/ttyUSB1' };
  for (const [tty, below] of Object.entries(devices)) {
    mkdirSync(join(usb, below), { recursive: true });
    mkdirSync(join(root, 'tty', tty), { recursive: true });
    symlinkSync(join(usb, below), join(root, 'tty', tty, 'device'));
  }
  writeFileSync(join(usb, 'idVendor'), '0403\n');
  writeFileSync(join(usb, 'idProduct'), '6010\n');
  writeFileSync(join(usb, 'serial'), 'Harbour 17\n');
  const folders = { byId: join(root, 'none'), ttyClass: join(root, 'tty'), devices: '/dev' };
  const fromKernel = await findPorts(sources({ folders, list: () => new Promise(() => undefined) }));
  const listed = await findPorts(
    sources({
      // As udev writes the serial number: an underscore for the blank.
      list: async () =>
        ['/dev/ttyUSB0', '/dev/ttyUSB1'].map((path) => ({
          path,
          vendorId: '0403',
          productId: '6010',
          serialNumber: 'Harbour_17',
        })),
    }),
  );
  const named = ({ ports }: typeof listed) => ports.map(({ path, adapter }) => [path, adapter]);
  expect(named(fromKernel)).toEqual([
    ['/dev/ttyUSB0', '0403:6010:harbour_17'],
    ['/dev/ttyUSB1', '0403:6010:harbour_17'],
  ]);
  expect(named(listed)).toEqual(named(fromKernel));
});

it('reads the adapters by their names, and leaves out ports without a chip', async () => {
  expect(await readKernelPorts(kernelFolders('kernel'))).toEqual(fromKernel);
});

describe('findPorts', () => {
  it('puts those with a vendor first and labels the rest', async () => {
    const found = await findPorts(
      sources({
        list: async () => [
          { path: '/dev/ttyS0' },
          {
            path: '/dev/ttyUSB0',
            vendorId: '0403',
            productId: '6001',
            manufacturer: 'Harbour',
            serialNumber: 'A17',
          },
          { path: '/dev/ttyUSB1', vendorId: '0403' },
        ],
      }),
    );
    expect(found).toEqual({
      ports: [
        { path: '/dev/ttyUSB0', label: 'Harbour A17', likely: true, adapter: '0403:6001:a17' },
        { path: '/dev/ttyUSB1', label: 'adapter', likely: true },
        { path: '/dev/ttyS0', label: builtInLabel, likely: false },
      ],
      problem: null,
    });
  });

  it('tells "none there" and "could not be listed" apart', async () => {
    expect(await findPorts(sources({ folders: emptyFolders }))).toEqual({ ports: [], problem: null });
    const failed = await findPorts(
      sources({ list: () => Promise.reject(new Error('spawn udevadm ENOENT')) }),
    );
    expect(failed.ports).toEqual([]);
    expect(failed.problem).toMatch(/spawn udevadm ENOENT.*typed by hand/);
    expect((await findPorts(sources({}))).problem).toMatch(/can not be read/);
  });

  it('falls back to the kernel when the list fails, hangs, or is empty without a word', async () => {
    const folders = kernelFolders('fallback');
    const failed = await findPorts(sources({ folders, list: () => Promise.reject(new Error('no')) }));
    const hung = await findPorts(sources({ folders, list: () => new Promise(() => undefined) }));
    const empty = await findPorts(sources({ folders }));
    for (const { ports, problem } of [failed, hung, empty]) {
      expect(ports).toEqual(fromKernel);
      expect(problem).not.toBeNull();
    }
    expect(hung.problem).toMatch(/within/);
  });

  it('shows both names of a port on macOS, the one that does not wait first', async () => {
    const list = async () => [{ path: '/dev/tty.usbserial-1', vendorId: '0403' }];
    const { ports } = await findPorts(sources({ platform: 'darwin', list }));
    expect(ports.map(({ path }) => path)).toEqual(['/dev/cu.usbserial-1', '/dev/tty.usbserial-1']);
  });

  it('says only what failed where there is no kernel list to fall back to', async () => {
    const found = await findPorts(
      sources({ platform: 'win32', list: () => Promise.reject(new Error('no')) }),
    );
    expect(found.ports).toEqual([]);
    expect(found.problem).toMatch(/\(no\)/);
  });
});

describe.skipIf(process.platform !== 'linux')('find, in a process whose udevadm is', () => {
  const run = promisify(execFile);
  const ports = resolve('electron/backend/meters/ports.ts');
  const script = `
    import { findPorts } from ${JSON.stringify(ports)};
    const before = performance.now();
    const found = await findPorts();
    process.stdout.write(JSON.stringify({ ...found, tookMs: performance.now() - before }));
    process.exit(0);`;
  async function findWith(name: string, udevadm: string | null) {
    const folder = join(base, name);
    mkdirSync(folder, { recursive: true });
    if (udevadm !== null) {
      writeFileSync(join(folder, 'udevadm'), udevadm);
      chmodSync(join(folder, 'udevadm'), 0o755);
    }
    const { stdout } = await run(process.execPath, ['--input-type=module', '-e', script], {
      env: { PATH: folder },
      timeout: 15_000,
    });
    return JSON.parse(stdout);
  }

  it('missing', async () => {
    const found = await findWith('missing', null);
    expect(found.problem).toMatch(/udevadm/);
    expect(found.tookMs).toBeLessThan(3000);
  });

  it('failing with exit 3', async () => {
    const found = await findWith('exit-3', '#!/bin/sh\nexit 3\n');
    expect(found.problem === null).toBe(found.ports.length === 0);
    expect(found.tookMs).toBeLessThan(3000);
  });

  it('hanging', async () => {
    const found = await findWith('hanging', '#!/bin/sh\nexec /bin/sleep 5\n');
    expect(found.problem).toMatch(/within 2\.0 s/);
    expect(found.tookMs).toBeLessThan(3000);
  });
});
