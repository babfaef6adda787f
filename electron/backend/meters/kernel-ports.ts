import { readdir, readFile, readlink, realpath } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import type { FoundPort } from '../../../core/bridge/records.ts';
import { adapterName } from './adapters.ts';

/** Where Linux itself says which ports there are. */
export type KernelFolders = Readonly<{ byId: string; ttyClass: string; devices: string }>;
export const linuxFolders: KernelFolders = {
  byId: '/dev/serial/by-id',
  ttyClass: '/sys/class/tty',
  devices: '/dev',
};

const adapterEntry = /^(ttyUSB|ttyACM|ttyXRUSB|ttyWCH|rfcomm)\d+$/;
const builtIn = /^(ttyS|ttyAMA|ttyMFD|ttyO)\d+$/;

/**
 * Reads the links that name each adapter, and the kernel's own list of terminals, without any other program.
 * Rejects when the kernel's list can't be read. Adapters come first.
 */
export async function readKernelPorts(folders: KernelFolders): Promise<readonly FoundPort[]> {
  const names = await adapterNames(folders.byId);
  const entries = await readdir(folders.ttyClass);
  const ports: FoundPort[] = [];
  for (const entry of entries.toSorted()) {
    const path = join(folders.devices, entry);
    const named = names.get(entry);
    if (named !== undefined || adapterEntry.test(entry)) {
      // The system makes the link's name from maker, product and serial number; it is the second best.
      const adapter =
        (await usbName(join(folders.ttyClass, entry, 'device'))) ??
        (named === undefined ? null : `by-id:${named}`);
      ports.push({ path, label: named ?? 'adapter', likely: true, ...(adapter === null ? {} : { adapter }) });
    } else if (builtIn.test(entry) && (await hasHardware(join(folders.ttyClass, entry)))) {
      ports.push({ path, label: builtInLabel, likely: false });
    }
  }
  return ports.toSorted((a, b) => Number(b.likely) - Number(a.likely));
}

export const builtInLabel = 'built-in port, perhaps with nothing behind it';

async function adapterNames(byId: string): Promise<ReadonlyMap<string, string>> {
  // The folder is not there as long as no adapter is plugged in.
  const links = await readdir(byId).catch(() => []);
  const named = new Map<string, string>();
  for (const link of links) {
    const target = await readlink(join(byId, link)).catch(() => null);
    if (target !== null) named.set(basename(target), link.replaceAll('_', ' '));
  }
  return named;
}

/** How far above a terminal the USB device is that it belongs to: the port, its interface, the device. */
const LEVELS_UP = 4;

/** The adapter's name from the numbers that its USB device tells the kernel; null for one without a serial number. */
async function usbName(device: string): Promise<string | null> {
  const said = async (folder: string, what: string) =>
    (await readFile(join(folder, what), 'utf8').catch(() => undefined))?.trim();
  let folder = await realpath(device).catch(() => null);
  for (let level = 0; folder !== null && level < LEVELS_UP; level += 1, folder = dirname(folder)) {
    const vendorId = await said(folder, 'idVendor');
    if (vendorId !== undefined)
      return adapterName(vendorId, await said(folder, 'idProduct'), await said(folder, 'serial'));
  }
  return null;
}

/** The kernel keeps a row of built-in ports whether they exist or not; type 0 is one without a chip. */
async function hasHardware(folder: string): Promise<boolean> {
  const type = await readFile(join(folder, 'type'), 'utf8').catch(() => null);
  return type === null ? true : type.trim() !== '0';
}
