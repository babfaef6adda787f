import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, it } from 'vitest';
import {
  classifyFolder,
  dataFolder,
  defaultDataFolder,
  folderWarningOf,
  mountedType,
} from '../../electron/backend/data-folder.ts';
import { throwAwayFolder } from '../support/archive.ts';

it.each([
  ['/home/reed/.local/share/Tiltwright', 'linux', 'ext4', 'local'],
  ['/home/reed/.local/share/Tiltwright', 'linux', null, 'local'],
  ['C:\\Users\\reed\\AppData\\Local\\Tiltwright\\Data', 'win32', null, 'local'],
  ['\\\\?\\C:\\Users\\reed\\Tiltwright', 'win32', null, 'local'],
  ['/Users/reed/Library/Application Support/Tiltwright', 'darwin', null, 'local'],
  ['/home/reed/dropbox-of-old-parts/Tiltwright', 'linux', 'btrfs', 'local'],
  ['/media/stick/Tiltwright', 'linux', 'fuseblk', 'local'],
  ['\\\\truck-server\\sweeps', 'win32', null, 'network'],
  ['\\\\?\\UNC\\truck-server\\sweeps', 'win32', null, 'network'],
  ['//truck-server/sweeps', 'win32', null, 'network'],
  ['/mnt/share/Tiltwright', 'linux', 'nfs4', 'network'],
  ['/mnt/share/Tiltwright', 'linux', 'cifs', 'network'],
  ['/mnt/share/Tiltwright', 'linux', 'fuse.sshfs', 'network'],
  ['/mnt/c/Tiltwright', 'linux', '9p', 'network'],
  ['C:\\Users\\reed\\OneDrive\\Tiltwright', 'win32', null, 'synced'],
  ['C:\\Users\\reed\\OneDrive - Harbour Cable\\Tiltwright', 'win32', null, 'synced'],
  ['/home/reed/Dropbox/Tiltwright', 'linux', 'ext4', 'synced'],
  ['/Users/reed/Library/Mobile Documents/com~apple~CloudDocs', 'darwin', null, 'synced'],
  ['/Users/reed/Library/CloudStorage/Box/Tiltwright', 'darwin', null, 'synced'],
] as const)('%s on %s is %s, %s', (path, platform, filesystemType, kind) => {
  expect(classifyFolder(path, platform, { filesystemType, hasSyncedMark: false })).toBe(kind);
});

it('reads from what is mounted which file system a path is on: the innermost, and of two the later', () => {
  const mounted = [
    '22 1 8:2 / / rw,relatime shared:1 - ext4 /dev/sda2 rw',
    '40 22 0:41 / /home rw,relatime - btrfs /dev/sda3 rw,subvol=/home',
    '51 22 0:50 /sweeps /mnt/the\\040share rw,relatime shared:9 - nfs4 harbour:/sweeps rw',
    '60 22 0:60 / /mnt/twice rw - ext4 /dev/sdb1 rw',
    '61 60 0:61 / /mnt/twice rw - cifs //harbour/sweeps rw',
    'nonsense',
  ].join('\n');
  const asked = ['/var/lib', '/home', '/home/reed', '/homestead', '/mnt/the share/a', '/mnt/twice/b'];
  expect(asked.map((path) => mountedType(mounted, path))).toEqual([
    'ext4',
    'btrfs',
    'btrfs',
    'ext4',
    'nfs4',
    'cifs',
  ]);
  expect(mountedType('', '/home')).toBeNull();
});

it('warns of a folder below one that a copying program keeps its state in, also through a link, and says what to do', () => {
  const outer = throwAwayFolder();
  const folder = join(outer, 'records', 'not-there-yet');
  expect(folderWarningOf(folder)).toBeNull();
  mkdirSync(join(outer, '.stfolder'));
  expect(folderWarningOf(folder)).toMatch(
    /^a program copies this folder elsewhere.*; start with --data and a folder outside of it, and share records as exported files$/,
  );
  if (process.platform === 'win32') return;
  const elsewhere = throwAwayFolder();
  symlinkSync(outer, join(elsewhere, 'archive'));
  expect(folderWarningOf(join(elsewhere, 'archive'))).toMatch(/^a program copies this folder/);
  expect(folderWarningOf(elsewhere)).toBeNull();
  writeFileSync(join(elsewhere, '.owncloudsync.log'), '');
  expect(folderWarningOf(elsewhere)).toMatch(/^a program copies this folder/);
});

it('takes the folder that is asked for, made or not yet, else the user’s own', () => {
  const folder = join(throwAwayFolder(), 'not', 'yet');
  expect(dataFolder(folder)).toBe(folder);
  expect(dataFolder('here')).toBe(resolve('here'));
  expect(defaultDataFolder()).toMatch(/Tiltwright/);
  expect(defaultDataFolder()).not.toMatch(/nodejs/);
});
