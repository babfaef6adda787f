import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { root } from '../../tests/support/source-files.ts';
import type { Order, Place, Said } from './said.ts';

const program = fileURLToPath(new URL('child.ts', import.meta.url));
/** Where the moment never comes, it is any moment. */
const PATIENCE_MS = 8000;
/** Shorter waits than this are too short for a timer. */
const SPIN_MS = 12;

/** When a program is killed. */
export type Moment =
  | Readonly<{ kind: 'any'; afterMs: number }>
  /** A while after it has come into a place; of a migration into a step. */
  | Readonly<{ kind: 'in'; place: Place; step: number | null; afterMs: number }>;

export type Killed = Readonly<{
  /** What was under way; of a migration with its step. */
  under: ReadonlySet<Place>;
  step: number | null;
  /** Null unless the program ended by itself. */
  ended: string | null;
  complaint: string;
}>;

export type Victim = Readonly<{
  /** Gives it its order, and kills it at the moment. */
  run(order: Order, moment: Moment): Promise<Killed>;
  /** Without an order. */
  dismiss(): Promise<void>;
}>;

/** How long a place lasts, as seen so far; the moments are drawn over that. */
export type Durations = Readonly<{ of(place: Place): number; seen(place: Place, ms: number): void }>;

export function createDurations(): Durations {
  const means = new Map<Place, number>();
  return {
    of: (place) => means.get(place) ?? 5,
    seen: (place, ms) => {
      means.set(place, (means.get(place) ?? ms) * 0.7 + ms * 0.3);
    },
  };
}

const spin = (ms: number): void => {
  const until = performance.now() + ms;
  while (performance.now() < until);
};

/**
 * A program that has loaded all its parts and waits for what it is to do.
 * @param hear      told of all that it acknowledges, also of what came in just before its end
 * @param compiled  a folder for what is compiled, so that only the first program compiles
 */
export function createVictim(
  hear: (said: Said) => void,
  { durations, compiled }: Readonly<{ durations: Durations; compiled: string }>,
): Victim {
  const child: ChildProcess = spawn(process.execPath, [program], {
    cwd: root,
    env: { ...process.env, NODE_COMPILE_CACHE: compiled },
    stdio: ['pipe', 'pipe', 'pipe'],
  });
  const closed = once(child, 'close');
  let complaint = '';
  child.stderr?.setEncoding('utf8').on('data', (more: string) => {
    complaint += more;
  });
  // An order to a program that is gone already; its end says more.
  child.stdin?.on('error', () => undefined);

  return {
    async run(order, moment) {
      const since = new Map<Place, number>();
      let step: number | null = null;
      let rest = '';
      let struck = false;
      const strike = () => {
        if (struck) return;
        struck = true;
        child.kill('SIGKILL');
      };
      const after = (ms: number) => {
        if (ms >= SPIN_MS) return void setTimeout(strike, ms);
        spin(ms);
        strike();
      };
      const fallback = setTimeout(strike, PATIENCE_MS);
      let faulty: unknown = null;
      const take = (said: Said) => {
        if (said.say === 'in') {
          since.set(said.place, performance.now());
          if (said.step !== undefined) step = said.step;
          const isIt = moment.kind === 'in' && moment.place === said.place;
          if (isIt && (moment.step === null || moment.step === said.step)) after(moment.afterMs);
          else if (moment.kind === 'any' && said.place === 'opening the archive') after(moment.afterMs);
        } else if (said.say === 'out') {
          durations.seen(said.place, performance.now() - (since.get(said.place) ?? 0));
          since.delete(said.place);
        } else hear(said);
      };
      child.stdout?.setEncoding('utf8').on('data', (more: string) => {
        rest += more;
        for (let end = rest.indexOf('\n'); end !== -1; end = rest.indexOf('\n')) {
          const line = rest.slice(0, end);
          rest = rest.slice(end + 1);
          try {
            take(JSON.parse(line) as Said);
          } catch (fault) {
            faulty ??= fault;
            strike();
          }
        }
      });
      child.stdin?.end(JSON.stringify(order));
      await closed;
      clearTimeout(fallback);
      if (faulty !== null) throw faulty;
      const ended =
        child.signalCode === 'SIGKILL' && struck ? null : `exit ${child.exitCode ?? child.signalCode}`;
      return {
        under: new Set(since.keys()),
        step: since.has('migrating an older archive') ? step : null,
        ended,
        complaint,
      };
    },
    async dismiss() {
      child.kill('SIGKILL');
      await closed;
    },
  };
}
