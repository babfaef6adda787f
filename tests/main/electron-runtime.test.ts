import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { findRuntime, type Machine } from '../../electron/electron-runtime.ts';

describe('the runtime of the window', () => {
  let packageDir = '';
  let fetched = 0;
  beforeEach(() => {
    packageDir = mkdtempSync(path.join(tmpdir(), 'tiltwright-electron-'));
    writeFileSync(path.join(packageDir, 'package.json'), '{}');
    fetched = 0;
  });
  afterEach(() => rmSync(packageDir, { recursive: true, force: true }));

  const install = () => {
    mkdirSync(path.join(packageDir, 'dist'), { recursive: true });
    writeFileSync(path.join(packageDir, 'dist', 'electron'), '');
    writeFileSync(path.join(packageDir, 'path.txt'), 'electron');
  };
  const machine = (some: Partial<Machine> = {}): Machine => ({
    platform: 'linux',
    env: { DISPLAY: ':0' },
    isRoot: false,
    packageDir,
    async fetchRuntime() {
      fetched += 1;
      return false;
    },
    ...some,
  });

  it('is the installed one, and nothing is fetched', async () => {
    install();
    const file = path.join(packageDir, 'dist', 'electron');
    expect(await findRuntime(machine())).toEqual({ file });
    expect(await findRuntime(machine({ env: { WAYLAND_DISPLAY: 'wayland-0' } }))).toEqual({ file });
    expect(await findRuntime(machine({ platform: 'win32', env: {} }))).toEqual({ file });
    expect(await findRuntime(machine({ platform: 'darwin', env: {}, isRoot: true }))).toEqual({ file });
    expect(fetched).toBe(0);
  });

  it.each([
    ['without a display', { env: {} }, 'there is no display here'],
    ['with an empty display', { env: { DISPLAY: '' } }, 'there is no display here'],
    ['as root', { isRoot: true }, "the window's sandbox does not run for the root user"],
    ['without the package', { packageDir: '/nowhere/electron' }, 'Electron is not installed'],
  ])('is not looked for %s, nor fetched', async (_how, some, why) => {
    install();
    expect(await findRuntime(machine(some))).toEqual({ why });
    expect(fetched).toBe(0);
  });

  it('is fetched once when it is missing, also when only its name is there', async () => {
    writeFileSync(path.join(packageDir, 'path.txt'), 'electron');
    const found = await findRuntime(
      machine({
        async fetchRuntime() {
          install();
          return true;
        },
      }),
    );
    expect(found).toEqual({ file: path.join(packageDir, 'dist', 'electron') });
  });

  it('that can not be fetched is a reason in plain words', async () => {
    expect(await findRuntime(machine())).toEqual({ why: "Electron's runtime could not be fetched" });
    expect(fetched).toBe(1);
    expect(await findRuntime(machine({ fetchRuntime: async () => true }))).toEqual({
      why: "Electron's runtime is not where its installer says",
    });
  });
});
