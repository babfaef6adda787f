import { closeSync, constants, fstatSync, openSync, readdirSync, statSync } from 'node:fs';
import type { ReadStream } from 'node:tty';
import { createFront, type Pace } from './front.ts';
import type { Instrument } from './instrument.ts';

/** The parts of node-pty's terminal that its types do not show: it has no other way to a pair without a program. */
type OpenPair = Readonly<{ _master: ReadStream; _slave: ReadStream; _pty: string }>;

/** What becomes of an answer on its way: a test may harm it. */
export type Cable = (answer: Uint8Array, arrive: (bytes: Uint8Array) => void) => void;
const goodCable: Cable = (answer, arrive) => arrive(answer);

/** A simulated meter on a pseudo-terminal: any program may open `path` as a serial port. */
export type PtyMeter = Readonly<{
  path: string;
  /** It takes no more bytes, as a meter does that holds its flow control; the terminal stays as it is. */
  stall(): void;
  /** Settles when it is unplugged. Idempotent. */
  unplug(): Promise<void>;
}>;

/**
 * Opens a pseudo-terminal and puts the instrument on its far end. We keep our own handle on the near end, so that the
 * terminal stays when a program closes it and can be opened again; without that the far end would read an error.
 */
export async function openPtyMeter(
  instrument: Instrument,
  pace: Pace,
  cable: Cable = goodCable,
): Promise<PtyMeter> {
  const pair = await openPair();
  const { _master: master, _slave: slave, _pty: path } = pair;
  // Raw before anybody opens it: a terminal that echoes would send the instrument its own answers as commands. Set at
  // the far end, because the near end puts its own setting back when it is closed.
  master.setRawMode(true);
  const own = openSync(path, constants.O_RDWR | constants.O_NOCTTY | constants.O_NONBLOCK);
  // The library reads the near end itself, and would take our answers away from whoever opens it.
  await new Promise<void>((resolve) => {
    slave.once('close', () => resolve());
    slave.destroy();
  });
  const held = [own, ...leftOpen(path, own)];
  const arrive = (bytes: Uint8Array) => {
    if (master.writable) master.write(bytes);
  };
  const front = createFront(instrument, pace, (bytes) => cable(bytes, arrive));
  const closed = new Promise<void>((resolve) => master.once('close', () => resolve()));
  master.on('data', (chunk: Uint8Array) => front.receive(chunk));
  let plugged = true;
  return {
    path,
    stall: () => void master.pause(),
    async unplug() {
      if (plugged) {
        plugged = false;
        front.stop();
        master.destroy();
        for (const handle of held) closeSync(handle);
      }
      await closed;
    },
  };
}

/**
 * Handles on the near end that nobody will close: Node opens a terminal that it is given a handle on a second time, and
 * closes only that one. Asked before anybody else knows the path, so that there is none of theirs among them.
 */
function leftOpen(path: string, own: number): readonly number[] {
  const { rdev } = statSync(path);
  const isNearEnd = (handle: number): boolean => {
    try {
      return fstatSync(handle).rdev === rdev;
    } catch {
      // The folder's own handle was among them and is closed by now.
      return false;
    }
  };
  return readdirSync('/dev/fd')
    .map(Number)
    .filter((handle) => handle > 2 && handle !== own && isNearEnd(handle));
}

async function openPair(): Promise<OpenPair> {
  // Loaded only here: it is a native module, and nothing but this needs it.
  const library: unknown = await import('@lydell/node-pty');
  const open = memberOf(memberOf(library, 'default') ?? library, 'open') ?? memberOf(library, 'open');
  if (typeof open !== 'function') throw new Error('no pseudo-terminal can be opened on this system');
  const pair: unknown = open({ encoding: null });
  if (!isOpenPair(pair)) throw new Error('the pseudo-terminal of this system is of an unknown make');
  // The library throws an error of the far end at the process unless somebody besides itself listens for it.
  pair._master.on('error', () => undefined);
  return pair;
}

const memberOf = (from: unknown, key: string): unknown =>
  typeof from === 'object' && from !== null ? Reflect.get(from, key) : undefined;

const isOpenPair = (pair: unknown): pair is OpenPair =>
  ['_master', '_slave'].every((key) => typeof memberOf(memberOf(pair, key), 'destroy') === 'function') &&
  typeof memberOf(pair, '_pty') === 'string';
