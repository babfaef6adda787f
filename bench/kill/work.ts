import type { Handlers } from '../../core/bridge/contract.ts';
import type { Order, Place, Said } from './said.ts';

/** What each line of work of the program has at hand. */
export type Work = Readonly<{
  call: Handlers;
  chance: () => number;
  signal: AbortSignal;
  order: Order;
  tell: (said: Said) => void;
  enter: (place: Place) => void;
  leave: (place: Place) => void;
  /** Acknowledges the newest record of the chain, and with it all before. */
  head: () => void;
  quiet: Quiet;
  /** Told at each sweep's end. */
  sweepHeard: { ended: (state: 'complete' | 'partial', count: number) => void };
  /** A backup that is made in here was asked for by hand. */
  handed<T>(make: () => Promise<T>): Promise<T>;
}>;

export type Quiet = Readonly<{
  /** Waits until no sweep runs; none begins before what is returned was called. */
  ask(): Promise<() => void>;
  /** Between two sweeps: lets whoever asked go first. */
  give(): Promise<void>;
}>;

export function createQuiet(): Quiet {
  let asked: ((release: () => void) => void) | null = null;
  return {
    ask: () =>
      new Promise((resolve) => {
        asked = resolve;
      }),
    async give() {
      const resolve = asked;
      if (resolve === null) return;
      asked = null;
      await new Promise<void>((release) => resolve(release));
    },
  };
}

export const below = (chance: () => number, most: number): number => Math.floor(chance() * most);

/** One of them; never of an empty list. */
export function oneOf<T>(chance: () => number, list: readonly T[]): T {
  const [first] = list;
  if (first === undefined) throw new RangeError('nothing to choose from');
  return list[below(chance, list.length)] ?? first;
}

export function shuffled<T>(chance: () => number, list: readonly T[]): T[] {
  const left = [...list];
  const order: T[] = [];
  while (left.length > 0) order.push(...left.splice(below(chance, left.length), 1));
  return order;
}

/** The visit that is open at a station, or a new one. */
export async function visitAt({ call, signal, tell, head }: Work, stationId: string): Promise<string> {
  const { openVisit } = await call['stations.open']({ stationId }, signal);
  if (openVisit !== null) return openVisit.visitId;
  const begun = { stationId, operator: 'R. Voss', ambientC: 12, cautionsRead: true } as const;
  const { visitId, operator } = await call['visits.begin'](begun, signal);
  tell({ say: 'visit', visitId, operator });
  head();
  return visitId;
}

export async function stationOf({ call, signal, tell, head }: Work, text: string): Promise<string> {
  const { stationId, revision } = await call['stations.import']({ fileName: 's.json', text }, signal);
  const { station } = await call['stations.open']({ stationId }, signal);
  tell({ say: 'station', stationId, revision, name: station.name });
  head();
  return stationId;
}
