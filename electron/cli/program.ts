import { Command, CommanderError } from 'commander';
import { refuse } from '../../core/result.ts';
import { type Outcome, oneLine, outcomeOfFault, outputOf, refused } from './outcome.ts';
import type { RunVerb, Verb, VerbIo } from './verb.ts';

/** Where a program's words go, and who can stop it: the process's own, or a test's. */
export type Surroundings = Readonly<{
  version: string;
  stdout: (text: string) => void;
  stderr: (text: string) => void;
  /** Whether a person sees standard error as it comes. */
  stderrIsTerminal: boolean;
  signal: AbortSignal;
}>;

/** What commander says about a mistaken command line, as a refusal: its first words, and where help is. */
function refusalOf(fault: CommanderError, verb: string | undefined): Outcome {
  const words =
    // A verb of several parts, named alone: commander would print the whole help as a fault.
    fault.code === 'commander.help'
      ? 'say what to do with it'
      : oneLine(fault.message.replace(/^error:\s*/i, '').replace(/\.?\s*\(Did you mean/, '; did you mean'));
  const help = `tiltwright ${verb === undefined ? '' : `${verb} `}--help`;
  return refused(
    refuse(
      'bad-command',
      verb === undefined ? 'tiltwright' : `tiltwright ${verb}`,
      `${words.replace(/\?\)$/, '?').replace(/\.$/, '')}; see ${help}`,
    ),
  );
}

const FAR_EVERY_MS = 250;
/** Back to the first column, and what stood there is wiped out: the next words take its place. */
const START_OF_LINE = '\r\u001b[2K';

/** Runs one command line and gives its exit code; it never throws and never ends the process. */
export async function runProgram(
  verbs: readonly Verb[],
  args: readonly string[],
  around: Surroundings,
): Promise<0 | 1 | 2 | 3> {
  let exitCode: 0 | 1 | 2 | 3 = 0;
  const put = (outcome: Outcome, json: boolean): void => {
    const output = outputOf(outcome, json);
    if (output.stdout !== '') around.stdout(output.stdout);
    if (output.stderr !== '') around.stderr(output.stderr);
    exitCode = output.exitCode;
  };
  const run: RunVerb = async (command, act) => {
    const json = command.opts().json === true;
    let saidFarAtMs = 0;
    const io: VerbIo = {
      json,
      signal: around.signal,
      say: (line) => {
        if (!json) around.stdout(`${line}\n`);
      },
      note: (line) => around.stderr(`${oneLine(line)}\n`),
      far: (line) => {
        if (!around.stderrIsTerminal || performance.now() - saidFarAtMs < FAR_EVERY_MS) return;
        saidFarAtMs = performance.now();
        around.stderr(`${START_OF_LINE}${oneLine(line)}`);
      },
    };
    let outcome: Outcome;
    try {
      outcome = await act(io);
    } catch (fault) {
      outcome = outcomeOfFault(fault);
    }
    if (saidFarAtMs > 0) around.stderr(START_OF_LINE);
    put(outcome, json);
  };

  const program = new Command('tiltwright')
    .description(
      'The workbench of a cable technician: reads an amplifier station, says which pads and equalizers to change, and proves it.\n' +
        'Frequencies in MHz, levels in dBmV at 75 ohm, losses in dB.',
    )
    .version(around.version, '-V, --version', 'version of this program')
    .helpOption('-h, --help', 'this help; after a verb, its own')
    .helpCommand(false)
    .usage('VERB ... [--json]')
    .exitOverride()
    .configureOutput({ writeOut: around.stdout, writeErr: () => undefined })
    .addHelpText(
      'after',
      '\nExit: 0 done, 1 done and the verdict is fail, 2 the input was refused, 3 the meter or the archive failed.',
    );
  for (const verb of verbs) {
    verb.register(program, run);
    // A verb's own command takes the parent's ways of ending and printing only where it is told to.
    program.commands.at(-1)?.copyInheritedSettings(program).helpOption('-h, --help', 'this help');
  }

  const names = verbs.map((verb) => verb.name);
  const verb = args.find((arg) => names.includes(arg));
  if (args.length === 0) {
    const help = `name a verb: ${names.join(', ')}; see tiltwright --help`;
    put(refused(refuse('bad-command', 'tiltwright', help)), false);
    return exitCode;
  }
  try {
    await program.parseAsync(args, { from: 'user' });
  } catch (fault) {
    if (!(fault instanceof CommanderError)) put(outcomeOfFault(fault), false);
    else if (fault.exitCode !== 0) put(refusalOf(fault, verb), false);
  }
  return exitCode;
}
