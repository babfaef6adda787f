import type { LineFormat } from './line-link.ts';

/** How the port is set; a pseudo-terminal takes anything. */
export type SerialSettings = Readonly<{
  baudRate: number;
  dataBits: 7 | 8;
  parity: 'none' | 'even' | 'odd';
  stopBits: 1 | 2;
  flowControl: 'none' | 'hardware' | 'software';
  /** Whether closing the port drops DTR, which resets some meters. */
  hangUpOnClose: boolean;
}>;

/** A question, and the grammar of the one line that answers it: a match of the whole line with named groups. */
export type Question = Readonly<{ ask: string; answer: RegExp; timeoutMs: number }>;

/** What a meter may count its levels in. */
export const levelUnits = ['DBMV', 'DBUV', 'DBM', 'V'] as const;
export type LevelUnit = (typeof levelUnits)[number];

/**
 * A kind of meter as data: what is asked, how the answer reads, in which unit, how long it may take. Nothing here
 * talks; `connect.ts` and `read-levels.ts` walk it over a `LineLink`.
 */
export type Profile = Readonly<{
  name: string;
  title: string;
  serial: SerialSettings;
  lines: LineFormat;
  /** Rest after opening before anything is said: some meters start when the port opens. */
  settleMs: number;
  /** Said first, without answers: brings the meter to a known state. */
  wake: readonly string[];
  /** Groups `maker`, `model`, `serialNumber`, `firmware`. */
  identify: Question;
  /** `wish` asks for dBmV; what the meter then says it uses is what counts. Group `unit`. */
  unit: Readonly<{ wish: string; confirm: Question }>;
  /** Impedance that dBm and volt of this meter refer to. */
  impedanceOhm: 75;
  /** Brings the meter to a frequency and reads it, in one line; `{hz}` stands for the frequency in Hz. Groups
   * `hz` (where the meter says it is), `level`, `errorCode`, `errorText` (the oldest entry of its error queue). */
  level: Question;
  /** A level of this size or more, of either sign, says that there is none. */
  noLevelFrom: number;
  /** How far from the frequency asked for the meter may tune itself and still have read the carrier. */
  tuneWithinMhz: number;
  /** The oldest error. Groups `errorCode`, `errorText`; code 0 when there is none (left). */
  nextError: Question;
  /** More errors than this in a row, and the meter does not mean it. */
  errorQueueDepth: number;
  /** What a code means for the person at the meter. */
  errorHelp: (errorCode: number) => string;
}>;
