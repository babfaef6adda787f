import type { Command } from 'commander';
import { readMeterProfile } from '../../../core/files/meter-profile.ts';
import { refuse } from '../../../core/result.ts';
import type { Exchange } from '../../backend/meters/check-profile.ts';
import { knownProfiles } from '../../backend/meters/known-profiles.ts';
import { numberOption } from '../number-option.ts';
import { answered, type Outcome, refused } from '../outcome.ts';
import { readInput } from '../read-input.ts';
import { jsonFlag, type RunVerb, type Verb, type VerbIo } from '../verb.ts';

type Options = Readonly<{ port?: string; profile: string; atMhz: number }>;

/** What was said and heard, and what was made of it: three short lines. */
function exchangeText({ step, said, heard, understood, problem }: Exchange): string {
  const parts = Object.entries(understood ?? {}).map(([name, value]) => `${name} = ${value}`);
  return [
    `${step.padEnd(12)} > ${said}`,
    ...(heard === null ? [] : [`${''.padEnd(12)} < ${heard}`]),
    ...(parts.length === 0 ? [] : [`${''.padEnd(14)} ${parts.join(', ')}`]),
    ...(problem === null ? [] : [`${''.padEnd(12)} ! ${problem}`]),
  ].join('\n');
}

async function act(options: Options, io: VerbIo): Promise<Outcome> {
  const known = knownProfiles.find(({ name }) => name === options.profile);
  const read =
    known === undefined
      ? readMeterProfile(await readInput(options.profile), options.profile)
      : { ok: true as const, value: known };
  if (!read.ok) return refused(read);
  const profile = read.value;
  if (options.port === undefined) {
    const text = `${options.profile} is a profile: ${profile.name}, ${profile.title}. Name a --port to try it.`;
    return answered({ profile: profile.name, exchanges: [], problems: 0 }, text);
  }
  const { lowestMhz, highestMhz } = profile.limits;
  if (options.atMhz < lowestMhz || options.atMhz > highestMhz) {
    const help = `the profile reads from ${lowestMhz} to ${highestMhz} MHz`;
    return refused(refuse('out-of-range', `--at-mhz ${options.atMhz}`, help));
  }
  // Only now: it brings the serial port's native part.
  const { openLink } = await import('../../backend/meters/connect.ts');
  const { checkProfile } = await import('../../backend/meters/check-profile.ts');
  const link = await openLink(options.port, profile, io.signal);
  const exchanges: Exchange[] = [];
  try {
    const talk = { link, where: options.port, signal: io.signal };
    for await (const exchange of checkProfile(talk, profile, options.atMhz)) {
      exchanges.push(exchange);
      io.say(exchangeText(exchange));
    }
  } finally {
    await link.close();
  }
  const problems = exchanges.filter(({ problem }) => problem !== null).length;
  const verdict =
    problems === 0
      ? 'Every answer reads as the profile says.'
      : `${problems} of ${exchanges.length} lines have a problem.`;
  return answered({ profile: profile.name, exchanges, problems }, verdict, problems === 0 ? 'pass' : 'fail');
}

export const meterCheck: Verb = {
  name: 'meter-check',
  summary: 'tries a meter profile: question, answer, and what was understood',
  register(program: Command, run: RunVerb) {
    program
      .command('meter-check')
      .summary(meterCheck.summary)
      .description(
        'Checks a profile file, and with a port talks to the meter as the profile says, one question at a time.\n' +
          'Nothing is asked twice and nothing is mended: what is wrong is to be seen. Exit 1 when an answer has a problem.',
      )
      .requiredOption(
        '--profile <file>',
        `a profile (JSON), or the name of one that is shipped: ${knownProfiles.map(({ name }) => name).join(', ')}`,
      )
      .option('--port <path>', 'serial port or pseudo-terminal of the meter')
      .option('--at-mhz <MHz>', 'the frequency to read', numberOption('a frequency in MHz', 1), 57)
      .option(...jsonFlag)
      .action((options: Options, self: Command) => run(self, (io) => act(options, io)));
  },
};
