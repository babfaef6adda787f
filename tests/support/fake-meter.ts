import type { MeterChoice, Reading } from '../../core/bridge/records.ts';
import { createLinkMonitor } from '../../electron/backend/meters/link-health.ts';
import type {
  HowToRead,
  Meter,
  MeterFault,
  MeterShop,
  Probe,
} from '../../electron/backend/meters/meter-shop.ts';
import { scpi } from '../../electron/backend/meters/profiles/scpi.ts';

/** A meter whose answers a test writes. */
export type FakeMeter = Meter &
  Readonly<{
    /** Where its probe was put, in order. */
    probes: readonly Probe[];
    closed(): boolean;
    /** The link is gone: reading breaks off with this fault, and `lost` settles. */
    lose(fault: MeterFault): void;
    /** With `stepped`: lets so many more readings come. */
    release(count: number): void;
  }>;

export type FakeMeterScript = Readonly<{
  now: () => Date;
  /** What it says at a frequency; a `MeterFault` breaks the reading off. Unless told, 20 dBmV. */
  levelDbmv?: (frequencyMhz: number) => number | null | MeterFault;
  /** Each reading waits until it is released. */
  stepped?: boolean;
  /** Milliseconds before each reading. */
  paceMs?: number;
}>;

export type FakeMeterShop = MeterShop &
  Readonly<{
    /** Every meter that was connected, in order. */
    connected: readonly FakeMeter[];
    /** The next connecting ends with this. */
    refuseNext(fault: Error): void;
  }>;

const identity = { maker: 'Quillmere Works', model: 'Scripted', serialNumber: '0001', firmware: '1' };

export function createFakeMeter(choice: MeterChoice, script: FakeMeterScript): FakeMeter {
  const probes: Probe[] = [];
  const lost = Promise.withResolvers<Readonly<{ help: string }>>();
  let fault: MeterFault | null = null;
  let released = script.stepped === true ? 0 : Number.POSITIVE_INFINITY;
  let closed = false;
  let wake = () => {};

  const turn = async (signal: AbortSignal): Promise<void> => {
    while (released < 1 && !signal.aborted && fault === null)
      await new Promise<void>((resolve) => {
        wake = resolve;
        signal.addEventListener('abort', () => resolve(), { once: true });
      });
    released -= 1;
    if (script.paceMs !== undefined) await new Promise((resolve) => setTimeout(resolve, script.paceMs));
  };

  async function* readLevels(
    frequenciesMhz: readonly number[],
    signal: AbortSignal,
    how: HowToRead = {},
  ): AsyncGenerator<Reading, void> {
    how.tape?.opened(scpi, 'DBMV');
    for (const frequencyMhz of frequenciesMhz) {
      await turn(signal);
      if (fault !== null) throw fault;
      if (signal.aborted) return;
      const said = script.levelDbmv?.(frequencyMhz);
      if (said instanceof Error) throw said;
      yield {
        frequencyMhz,
        meterDbmv: said === undefined ? 20 : said,
        kind: 'analog',
        takenAt: script.now().toISOString(),
      };
    }
  }
  return {
    choice,
    identity,
    profileName: 'scripted',
    moveProbe: (probe) => {
      probes.push(probe);
    },
    readLevels,
    async *watchLevel(frequencyMhz, signal) {
      while (!signal.aborted) {
        yield* readLevels([frequencyMhz], signal);
        await new Promise((resolve) => setTimeout(resolve, 1));
      }
    },
    lost: lost.promise,
    close: async () => {
      closed = true;
    },
    probes,
    closed: () => closed,
    lose(with_) {
      fault = with_;
      wake();
      lost.resolve({ help: with_.help });
    },
    release(count) {
      released += count;
      wake();
    },
  };
}

export function createFakeMeterShop(script: FakeMeterScript): FakeMeterShop {
  const connected: FakeMeter[] = [];
  let refusal: Error | null = null;
  return {
    profiles: () => [{ name: 'scripted', title: 'A meter that reads from a script' }],
    find: async () => ({
      ports: [{ path: '/dev/scripted', label: 'scripted', likely: true }],
      problem: null,
    }),
    health: () => createLinkMonitor(() => 0).health(),
    check: async () => [],
    async connect(choice) {
      if (refusal !== null) {
        const fault = refusal;
        refusal = null;
        throw fault;
      }
      const meter = createFakeMeter(choice, script);
      connected.push(meter);
      return meter;
    },
    connected,
    refuseNext(fault) {
      refusal = fault;
    },
  };
}
