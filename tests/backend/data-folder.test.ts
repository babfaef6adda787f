import { join, resolve } from 'node:path';
import { expect, it } from 'vitest';
import {
  checkedFolder,
  classifyFolder,
  dataFolder,
  defaultDataFolder,
} from '../../electron/backend/data-folder.ts';
import { throwAwayFolder } from '../support/archive.ts';

it.each([
  ['/home/reed/.local/share/Tiltwright', 'linux', 0xef53, 'local'],
  ['/home/reed/.local/share/Tiltwright', 'linux', null, 'local'],
  ['C:\\Users\\reed\\AppData\\Local\\Tiltwright\\Data', 'win32', null, 'local'],
  ['\\\\?\\C:\\Users\\reed\\Tiltwright', 'win32', null, 'local'],
  ['/Users/reed/Library/Application Support/Tiltwright', 'darwin', null, 'local'],
  ['/home/reed/dropbox-of-old-parts/Tiltwright', 'linux', 0xef53, 'local'],
  ['\\\\truck-server\\sweeps', 'win32', null, 'network'],
  ['\\\\?\\UNC\\truck-server\\sweeps', 'win32', null, 'network'],
  ['//truck-server/sweeps', 'win32', null, 'network'],
  ['/mnt/share/Tiltwright', 'linux', 0x6969, 'network'],
  ['/mnt/share/Tiltwright', 'linux', 0xfe534d42, 'network'],
  ['/mnt/c/Tiltwright', 'linux', 0x01021997, 'network'],
  ['C:\\Users\\reed\\OneDrive\\Tiltwright', 'win32', null, 'synced'],
  ['C:\\Users\\reed\\OneDrive - Harbour Cable\\Tiltwright', 'win32', null, 'synced'],
  ['/home/reed/Dropbox/Tiltwright', 'linux', 0xef53, 'synced'],
  ['/Users/reed/Library/Mobile Documents/com~apple~CloudDocs', 'darwin', null, 'synced'],
  ['/Users/reed/Library/CloudStorage/Box/Tiltwright', 'darwin', null, 'synced'],
] as const)('%s on %s is %s, %s', (path, platform, filesystemType, kind) => {
  expect(classifyFolder(path, platform, filesystemType)).toBe(kind);
});

it('refuses with what would help', () => {
  const refusal = checkedFolder('/home/reed/Dropbox', 'linux', null);
  expect(refusal).toMatchObject({ ok: false, code: 'synced-folder', where: '/home/reed/Dropbox' });
  expect(refusal.ok ? '' : refusal.help).toContain('--data DIR');
});

it('takes the folder that is asked for, made or not yet, else the user’s own', () => {
  const folder = join(throwAwayFolder(), 'not', 'yet');
  expect(dataFolder(folder)).toEqual({ ok: true, value: folder });
  expect(dataFolder('here')).toEqual({ ok: true, value: resolve('here') });
  expect(defaultDataFolder()).toMatch(/Tiltwright/);
  expect(defaultDataFolder()).not.toMatch(/nodejs/);
});
