import type { FoundPort } from '../../../core/bridge/records.ts';

/**
 * What tells an adapter from every other, whatever name its port gets: maker, product and serial number. Without a serial
 * number two of a kind are alike, so there is none. Written as udev writes it, which puts an underscore in the place of a
 * blank or a special sign, so that the system's list and the kernel's own files give the same name.
 */
export function adapterName(
  vendorId: string | undefined,
  productId: string | undefined,
  serialNumber: string | undefined,
): string | null {
  const serial = (serialNumber ?? '').trim();
  if (vendorId === undefined || serial === '') return null;
  const written = serial.replace(/\s+/g, '_').replace(/[^\w#+.:=@-]/g, '_');
  return [vendorId, productId ?? '', written].join(':').toLowerCase();
}

/** A list of ports, and why it may be incomplete; null where it is whole. */
type Listed = Readonly<{ ports: readonly FoundPort[]; problem: string | null }>;

/**
 * Where to look for a meter that was used last at `path`: the ports of its adapter. An adapter with several ports keeps the
 * one that was used, as long as that is still its own. Nothing: the adapter is not plugged in. A list that may be incomplete
 * proves no adapter's absence, so its old place is tried.
 * @param adapter  null where the port has no name but its path
 */
export function placesOf(
  adapter: string | null,
  path: string,
  { ports, problem }: Listed,
): readonly string[] {
  if (adapter === null) return [path];
  const places = ports.filter((port) => port.adapter === adapter).map((port) => port.path);
  if (places.includes(path)) return [path, ...places.filter((place) => place !== path)];
  return places.length === 0 && problem !== null ? [path] : places;
}
