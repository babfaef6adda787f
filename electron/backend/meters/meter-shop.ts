import type { LinkHealth } from '../../../core/bridge/meter-calls.ts';
import type { FoundPort, MeterChoice, MeterIdentity, Reading } from '../../../core/bridge/records.ts';
import type { PluggedIn, Station } from '../../../core/files/station.ts';
import type { TimedHand } from '../../../core/simulate/gain-module.ts';
import type { Exchange } from './check-profile.ts';
import type { Profile } from './profile.ts';
import type { Manner } from './read-carefully.ts';
import type { TapeRecorder } from './tape.ts';

/** Where the meter's probe sits. A real meter can't know and ignores it; the simulated one plays this place. */
export type Probe = Readonly<{
  station: Station;
  portName: string;
  pluggedIn: PluggedIn;
  ambientC: number | null;
  /** For the simulated meter: what hands did to the station's gain control, in order. */
  hands?: readonly TimedHand[];
}>;

/** How a plan is read: how carefully, and who keeps the bytes. */
export type HowToRead = Readonly<{ manner?: Manner; tape?: TapeRecorder }>;

/** A meter that has told its identity. */
export interface Meter {
  readonly choice: MeterChoice;
  readonly identity: MeterIdentity;
  /** The profile's name. */
  readonly profileName: string;
  /** For the simulated meter: where it measures from now on. */
  moveProbe(probe: Probe): void;
  /**
   * One reading a frequency, in the order given, each as it comes, converted to dBmV at the test point.
   * Returns when the signal aborts. Throws `MeterFault` when the meter is lost, silent or talks nonsense.
   */
  readLevels(
    frequenciesMhz: readonly number[],
    signal: AbortSignal,
    how?: HowToRead,
  ): AsyncGenerator<Reading, void>;
  /**
   * One frequency over and over, at the meter's pace but at most 20 times a second, until the signal aborts. Throws as
   * `readLevels` does.
   */
  watchLevel(frequencyMhz: number, signal: AbortSignal): AsyncGenerator<Reading, void>;
  /** Settles when the link is gone without having been asked to close; `help` says what would help. */
  readonly lost: Promise<Readonly<{ help: string }>>;
  /** Idempotent, and never hangs. */
  close(): Promise<void>;
}

/** What went wrong between us and a meter, in words for the technician. */
export class MeterFault extends Error {
  readonly code:
    | 'no-such-port'
    | 'no-permission'
    | 'port-busy'
    | 'lost'
    | 'silent'
    | 'not-understood'
    | 'meter-error';
  readonly where: string;
  readonly help: string;
  constructor(code: MeterFault['code'], where: string, help: string) {
    super(`${where}: ${help}`);
    this.name = 'MeterFault';
    this.code = code;
    this.where = where;
    this.help = help;
  }
}

/** Everything that the backend needs of meters. */
export interface MeterShop {
  profiles(): readonly Readonly<{ name: string; title: string }>[];
  /** Never rejects and never takes longer than three seconds. */
  find(): Promise<Readonly<{ ports: readonly FoundPort[]; problem: string | null }>>;
  /** How the link is that was opened last, and what went over it. */
  health(): LinkHealth;
  /** Tries a profile that may not be kept yet, question by question. Throws as `connect` does. */
  check(path: string, profile: Profile, atMhz: number, signal: AbortSignal): Promise<readonly Exchange[]>;
  /** Throws `MeterFault`, `Refused` for a profile that nobody has, or the reason of the signal when that aborts. */
  connect(choice: MeterChoice, signal: AbortSignal): Promise<Meter>;
}
