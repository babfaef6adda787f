import type { Command } from 'commander';
import type { Outcome } from './outcome.ts';

/** What a verb gets from the program around it. */
export type VerbIo = Readonly<{
  /** True with `--json`. */
  json: boolean;
  /** Aborted when the person presses Ctrl-C or the process is told to end. */
  signal: AbortSignal;
  /** A line on standard output as it comes. With `--json` it says nothing: there the one object is the whole answer. */
  say(line: string): void;
  /** A diagnostic line on standard error. */
  note(line: string): void;
  /** How far it is, a few times a second at most; said on standard error where that is a terminal, else nowhere. */
  far(line: string): void;
}>;

/** Runs a verb's act, prints its outcome and sets the exit code. `Refused` and `MeterFault` may be thrown through it. */
export type RunVerb = (command: Command, act: (io: VerbIo) => Outcome | Promise<Outcome>) => Promise<void>;

/**
 * One verb. `register` adds `program.command(name)` with its arguments, options and help, and an action of the shape
 * `.action((file, options, command) => run(command, (io) => ...))`. A verb with `--json` declares it with `jsonFlag`.
 */
export interface Verb {
  readonly name: string;
  readonly summary: string;
  register(program: Command, run: RunVerb): void;
}

/** `command.option(...jsonFlag)` */
export const jsonFlag = ['--json', 'one JSON object on standard output and nothing else'] as const;
