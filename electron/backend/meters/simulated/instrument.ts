import type { LevelUnit } from '../profile.ts';
import { type Effect, type InstrumentState, instrumentCommands } from './instrument-commands.ts';
import { startTrace } from './instrument-trace-commands.ts';
import { ErrorQueue } from './scpi-errors.ts';
import { matchHeader } from './scpi-header.ts';
import { type MessageUnit, parseMessage } from './scpi-message.ts';

/** The level in dBmV at a frequency, null where there is none; `draw` counts the readings. */
export type LevelSource = (frequencyMhz: number, draw: number) => number | null;

/** What a message led to: one line of answers or none, and how many readings and points of a trace it took. */
export type Response = Readonly<{ answer: string | null; readings: number; points: number }>;

/** Anything that answers lines as a meter does. */
export interface Instrument {
  take(line: string): Response;
  /** A message was too long to be kept. */
  overrun(): void;
}

export type InstrumentParts = Readonly<{
  source: LevelSource;
  identity?: string;
  /** The units that it can count in, the first one after switching on. */
  units?: readonly [LevelUnit, ...LevelUnit[]];
  errorQueueDepth?: number;
}>;

const PARAMETER_NOT_ALLOWED = -108;
const MISSING_PARAMETER = -109;
const UNDEFINED_HEADER = -113;
const SUFFIX_OUT_OF_RANGE = -114;
const INPUT_BUFFER_OVERRUN = -363;
const isCommandError = (code: number) => code <= -100 && code > -200;

/**
 * A level meter of the invented Quillmere Instrument Works that speaks SCPI-1999 over IEEE 488.2. It knows no clock
 * and no wire: a line goes in, a line may come out. It starts in dBm, as many do, so that agreeing on the unit is
 * part of every demonstration.
 */
export class SimulatedInstrument implements Instrument {
  readonly #state: InstrumentState;
  #draw = 0;
  #readings = 0;
  #points = 0;

  constructor(parts: InstrumentParts) {
    const units = parts.units ?? ['DBM', 'DBMV', 'DBUV', 'V'];
    const state: InstrumentState = {
      identity: parts.identity ?? 'Quillmere Instrument Works,Bench Level Meter,QIW-0042,1.0',
      units,
      startUnit: units[0],
      rangeHz: { lowest: 1e6, highest: 1.3e9, start: 1e8 },
      errors: new ErrorQueue(parts.errorQueueDepth ?? 16),
      measure: () => {
        this.#readings += 1;
        return parts.source(state.centerHz / 1e6, this.#draw++);
      },
      measureAt: (hz) => {
        this.#points += 1;
        return parts.source(hz / 1e6, this.#draw++);
      },
      unit: units[0],
      centerHz: 1e8,
      eventsEnabled: 0,
      requestsEnabled: 0,
      held: undefined,
      trace: startTrace(),
    };
    this.#state = state;
  }

  /** Takes one message. Answers of its queries are joined by semicolons; a command error ends the message. */
  take(line: string): Response {
    this.#readings = 0;
    this.#points = 0;
    const answers: string[] = [];
    for (const parsed of parseMessage(line)) {
      const effect = parsed.ok ? this.#run(parsed.unit) : parsed;
      if (typeof effect === 'string') answers.push(effect);
      else if (effect !== null) {
        this.#state.errors.push(effect.code);
        if (isCommandError(effect.code)) break;
      }
    }
    const answer = answers.length === 0 ? null : answers.join(';');
    return { answer, readings: this.#readings, points: this.#points };
  }

  /** A message that was too long to be kept. */
  overrun(): void {
    this.#state.errors.push(INPUT_BUFFER_OVERRUN);
  }

  /** Something happened to it that is none of its messages' doing, an overload: it goes to the error queue. */
  report(code: number): void {
    this.#state.errors.push(code);
  }

  #run({ header, query, parameters }: MessageUnit): Effect {
    let code = UNDEFINED_HEADER;
    for (const command of instrumentCommands) {
      if (command.query !== query) continue;
      const match = matchHeader(command.nodes, header);
      if (match === 'suffix-out-of-range') code = SUFFIX_OUT_OF_RANGE;
      if (match !== 'match') continue;
      if (parameters.length > command.parameterCount) return { code: PARAMETER_NOT_ALLOWED };
      if (parameters.length === 0 && command.parameterCount > 0) return { code: MISSING_PARAMETER };
      return command.act(this.#state, parameters);
    }
    return { code };
  }
}
