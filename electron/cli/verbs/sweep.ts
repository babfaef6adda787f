import type { Command } from 'commander';
import type { MeterChoice, MeterIdentity } from '../../../core/bridge/records.ts';
import { readMeterProfile } from '../../../core/files/meter-profile.ts';
import { type Plan, readPlan } from '../../../core/files/plan.ts';
import { calibrationAt } from '../../../core/meters/calibration.ts';
import { done, type Result, refuse } from '../../../core/result.ts';
import { type LevelUnitWord, levelWord } from '../../../core/words/numbers.ts';
import { knownProfiles } from '../../backend/meters/known-profiles.ts';
import type { LinkNews } from '../../backend/meters/link-news.ts';
import { type Meter, MeterFault } from '../../backend/meters/meter-shop.ts';
import type { Profile } from '../../backend/meters/profile.ts';
import { levelCell, type UnitOption, unitOption } from '../level-option.ts';
import { numberOption } from '../number-option.ts';
import { type Answer, answered, type Outcome, refused } from '../outcome.ts';
import { readInput } from '../read-input.ts';
import { beginReadingFile } from '../reading-file.ts';
import { type PlaceOptions, placeOf, withPlaceOptions } from '../simulated-place.ts';
import { aligned, megahertz } from '../table.ts';
import { jsonFlag, type RunVerb, type Verb, type VerbIo } from '../verb.ts';

type Options = PlaceOptions &
  UnitOption &
  Readonly<{ port: string; plan: string; profile: string; out?: string; waitS: number; repeats: number }>;
/** A reading as the contract has it: the level at the port, the meter's own plus the test point loss. */
type Row = Readonly<{ frequencyMhz: number; levelDbmv: number | null; takenAt: string }>;

const simulated = 'simulated';
/** As many as a sweep of the workbench may take. */
const MOST_REPEATS = 16;

function newsText(news: LinkNews): string {
  switch (news.link) {
    case 'looking':
      return `the link broke off (${news.why}); looking for the meter`;
    case 'back':
      return `the meter is back after ${(news.afterMs / 1000).toFixed(1)} s; the sweep goes on`;
    case 'waiting':
      return `the port was plugged in just now and is not ready (${news.why}); trying for ${Math.ceil(news.leftMs / 1000)} s more`;
  }
}

/** What is known of the meter's calibration, as a line of the file; null where nothing is. */
function calibrationLine({ calibratedOn, calibrationDueOn }: MeterIdentity): string | null {
  const known = [
    ...(calibratedOn === undefined ? [] : [`calibrated: ${calibratedOn}`]),
    ...(calibrationDueOn === undefined ? [] : [`calibration due: ${calibrationDueOn}`]),
  ];
  return known.length === 0 ? null : known.join(', ');
}

/** The four fields of *IDN?, joined as the meter sent them. */
const identityLine = ({ maker, model, serialNumber, firmware }: MeterIdentity): string =>
  [maker, model, serialNumber, firmware].join(',');

const rowText = ({ frequencyMhz, levelDbmv }: Row, unit: LevelUnitWord = 'dBmV'): string[] => [
  megahertz(frequencyMhz),
  ...(levelDbmv === null ? ['no level'] : [levelCell(levelDbmv, unit), levelWord(unit)]),
];

function answerOf(meter: Meter, plan: Plan, rows: readonly Row[]): Answer {
  const complete = rows.length === plan.frequenciesMhz.length;
  const count = `${rows.length} of ${plan.frequenciesMhz.length} readings`;
  return {
    json: {
      readings: rows,
      meter: { identity: identityLine(meter.identity), ...meter.identity },
      testPointLossDb: plan.testPointLossDb,
      complete,
    },
    text: `${complete ? 'Complete' : 'Cut short'}: ${count}, ${meter.identity.maker} ${meter.identity.model} ${meter.identity.serialNumber}`,
  };
}

async function act(options: Options, io: VerbIo): Promise<Outcome> {
  const plan = readPlan(await readInput(options.plan), options.plan);
  if (!plan.ok) return refused(plan);
  if (!Number.isInteger(options.repeats) || options.repeats > MOST_REPEATS) {
    const help = `a channel is read 1 to ${MOST_REPEATS} times, a whole number`;
    return refused(refuse('out-of-range', `--repeats ${options.repeats}`, help));
  }
  const isSimulated = options.port === simulated;
  const stray = (['scenario', 'station', 'stationId', 'portName', 'ambientC'] as const).find(
    (key) => options[key] !== undefined,
  );
  if (!isSimulated && stray !== undefined) {
    const where = `--port ${options.port}`;
    return refused(refuse('bad-command', where, 'a scenario or station is for --port simulated only'));
  }
  const place = isSimulated ? await placeOf(options) : null;
  // Only now: it brings the serial port's native part, which no other verb needs.
  const { createMeterShop } = await import('../../backend/meters/connect.ts');
  const { usualRecovery } = await import('../../backend/meters/steady-meter.ts');
  const written = await ownProfile(options.profile);
  if (!written.ok) return refused(written);
  const shopProfiles = written.value === null ? {} : { profiles: [...knownProfiles, written.value] };
  const shop = createMeterShop({
    now: () => new Date(),
    ...shopProfiles,
    recovery: options.waitS === 0 ? null : { ...usualRecovery, withinMs: options.waitS * 1000 },
    news: (news) => io.note(newsText(news)),
    ...(place === null ? {} : { createPlace: () => place }),
  });
  const choice: MeterChoice = isSimulated
    ? { kind: 'simulated' }
    : { kind: 'serial', path: options.port, profile: written.value?.name ?? options.profile };
  const meter = await shop.connect(choice, io.signal).catch((fault: unknown) => {
    if (io.signal.aborted && fault === io.signal.reason) throw stoppedEarly(options.port);
    throw fault;
  });
  try {
    return await readAll(meter, plan.value, options, io);
  } finally {
    await meter.close();
  }
}

/** The profile of a file; null where the option names one that is shipped. */
async function ownProfile(named: string): Promise<Result<Profile | null>> {
  if (!named.toLowerCase().endsWith('.json')) return done(null);
  const read = readMeterProfile(await readInput(named), named);
  if (!read.ok || !knownProfiles.some(({ name }) => name === read.value.name)) return read;
  return refuse('name-taken', `${named}, name`, 'a profile that is shipped has this name; give it another');
}

const stoppedEarly = (port: string) =>
  new MeterFault('lost', port, 'stopped before the meter had told who it is; nothing was read');

function endOf(fault: unknown, path: string): Readonly<{ where: string; help: string }> {
  if (fault instanceof MeterFault) return fault;
  if (!isSystemError(fault)) throw fault;
  return { where: path, help: `can't be written any more (${fault.code}); name a file on another disk` };
}

const isSystemError = (fault: unknown): fault is Error & { code: string } =>
  fault instanceof Error && 'code' in fault && typeof fault.code === 'string';

async function readAll(meter: Meter, plan: Plan, options: Options, io: VerbIo): Promise<Outcome> {
  const { frequenciesMhz, testPointLossDb } = plan;
  const calibration = calibrationLine(meter.identity);
  const counts = calibrationAt(meter.identity, new Date().toISOString().slice(0, 10));
  if (counts.at === 'past') io.note(`the meter's calibration is past since ${counts.dueOn}`);
  const file =
    options.out === undefined
      ? null
      : await beginReadingFile(options.out, [
          `meter: ${identityLine(meter.identity)}`,
          ...(calibration === null ? [] : [calibration]),
          ...(options.repeats === 1 ? [] : [`each level: the mean of ${options.repeats} readings`]),
          `test point loss: ${testPointLossDb} dB, added`,
        ]);
  const rows: Row[] = [];
  const how = { manner: { repeats: options.repeats, recheck: true } };
  try {
    for await (const { frequencyMhz, meterDbmv, takenAt } of meter.readLevels(
      frequenciesMhz,
      io.signal,
      how,
    )) {
      const levelDbmv = meterDbmv === null ? null : Number((meterDbmv + testPointLossDb).toFixed(6));
      const row = { frequencyMhz, levelDbmv, takenAt };
      rows.push(row);
      io.say(aligned([rowText(row, options.unit)]).join(''));
      await file?.append(row);
    }
  } catch (fault) {
    // Whatever ended it, what was read is answered.
    const { where, help } = endOf(fault, options.out ?? '');
    return { kind: 'failed', where, help, answer: answerOf(meter, plan, rows) };
  } finally {
    await file?.close();
  }
  if (rows.length < frequenciesMhz.length)
    io.note(`stopped: ${rows.length} of ${frequenciesMhz.length} read`);
  const { json, text } = answerOf(meter, plan, rows);
  return answered(json, text);
}

export const sweep: Verb = {
  name: 'sweep',
  summary: 'reads a meter over a plan of frequencies',
  register(program: Command, run: RunVerb) {
    const command = program
      .command('sweep')
      .summary(sweep.summary)
      .description(
        'Reads one level after another from a meter on a serial port, or from the simulated one.\n' +
          "Levels are those at the port: what the meter says plus the plan's test point loss (dBmV).\n" +
          'Ctrl-C ends it; what was read until then is answered, with "complete" false.',
      )
      .requiredOption('--port <path>', 'serial port or pseudo-terminal of the meter, or the word simulated')
      .requiredOption('--plan <file>', 'frequencies: a plan (JSON), a sweep, or one MHz a line')
      .option(
        '--profile <name>',
        `how the meter speaks: a profile (JSON), or ${knownProfiles.map(({ name, title }) => `${name} (${title})`).join(', ')}`,
        'scpi',
      )
      .option('--out <file.csv>', 'also writes each reading to a new sweep file as it comes')
      .option(
        '--wait-s <s>',
        'how long a meter that is lost in the middle is looked for; 0: not at all',
        numberOption('a time in s', 0),
        30,
      )
      .option(
        '--repeats <n>',
        'each level is the mean of so many readings',
        numberOption('a number of readings', 1),
        1,
      )
      .option(...unitOption)
      .option(...jsonFlag);
    withPlaceOptions(command).action((options: Options, self: Command) =>
      run(self, (io) => act(options, io)),
    );
  },
};
