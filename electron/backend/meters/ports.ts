import { SerialPort } from 'serialport';
import type { FoundPort } from '../../../core/bridge/records.ts';
import { adapterName } from './adapters.ts';
import { builtInLabel, type KernelFolders, linuxFolders, readKernelPorts } from './kernel-ports.ts';

/** The parts of the driver's list that a person can tell a port by. */
export type ListedPort = Readonly<{
  path: string;
  vendorId?: string | undefined;
  productId?: string | undefined;
  manufacturer?: string | undefined;
  serialNumber?: string | undefined;
}>;

export type Found = Readonly<{ ports: readonly FoundPort[]; problem: string | null }>;

export type PortSources = Readonly<{
  list: () => Promise<readonly ListedPort[]>;
  platform: NodeJS.Platform;
  folders: KernelFolders;
  limitMs: number;
}>;

/** The driver asks another program on Linux, which can be missing or hang; one such question at a time is enough. */
let asked: Promise<readonly ListedPort[]> | null = null;
function listOnce(): Promise<readonly ListedPort[]> {
  asked ??= SerialPort.list().finally(() => {
    asked = null;
  });
  return asked;
}

const usual: PortSources = {
  list: listOnce,
  platform: process.platform,
  folders: linuxFolders,
  // With the reading of the folders it stays below the three seconds that the shop promises.
  limitMs: 2000,
};

/**
 * The ports of this machine, those of adapters first. Never rejects. `problem` says why the list may be incomplete;
 * an empty list without a problem means that there is none. A pseudo-terminal is in no list: its path is typed.
 */
export async function findPorts(sources: PortSources = usual): Promise<Found> {
  const listed = await listInTime(sources);
  if (listed.problem === null && listed.ports.length > 0) {
    return { ports: withBothNames(ordered(listed.ports), sources.platform), problem: null };
  }
  if (sources.platform !== 'linux') return { ports: [], problem: listed.problem };
  try {
    const ports = await readKernelPorts(sources.folders);
    // The driver's list can be empty because its helper failed without a word, so the kernel has the last one.
    const missed = listed.problem === null && ports.length > 0;
    return { ports, problem: missed ? 'the system named no port, but the kernel has some' : listed.problem };
  } catch {
    return { ports: [], problem: listed.problem ?? "the system's list of ports can not be read" };
  }
}

async function listInTime({ list, limitMs }: PortSources) {
  const limit = Promise.withResolvers<never>();
  const seconds = (limitMs / 1000).toFixed(1);
  const timer = setTimeout(
    () => limit.reject(new Error(`the system did not list its ports within ${seconds} s`)),
    limitMs,
  );
  try {
    // Awaited at once: a rejection that nobody awaits would end the process.
    return { ports: await Promise.race([list(), limit.promise]), problem: null };
  } catch (fault) {
    const why = fault instanceof Error ? fault.message : String(fault);
    return {
      ports: [],
      problem: `the system's list of ports is not complete (${why}); a port can be typed by hand`,
    };
  } finally {
    clearTimeout(timer);
  }
}

const ordered = (ports: readonly ListedPort[]): readonly FoundPort[] =>
  ports
    .map((port) => ({
      path: port.path,
      label: labelOf(port),
      likely: port.vendorId !== undefined,
      ...withAdapter(adapterName(port.vendorId, port.productId, port.serialNumber)),
    }))
    .toSorted((a, b) => Number(b.likely) - Number(a.likely));

const withAdapter = (adapter: string | null) => (adapter === null ? {} : { adapter });

function labelOf({ vendorId, manufacturer, serialNumber }: ListedPort): string {
  if (vendorId === undefined) return builtInLabel;
  const named = [manufacturer, serialNumber].filter((part) => part !== undefined && part.trim() !== '');
  return named.length === 0 ? 'adapter' : named.join(' ');
}

/** On macOS the name that is listed (tty) can wait for ever or stay silent where its twin (cu) works. */
function withBothNames(ports: readonly FoundPort[], platform: NodeJS.Platform): readonly FoundPort[] {
  if (platform !== 'darwin') return ports;
  return ports.flatMap((port) => {
    const twin = port.path.replace(/^\/dev\/tty\./, '/dev/cu.');
    return twin === port.path ? [port] : [{ ...port, path: twin }, port];
  });
}
