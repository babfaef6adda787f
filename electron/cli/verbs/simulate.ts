import { type Command, Option } from 'commander';
import { refuse } from '../../../core/result.ts';
import { usualPace } from '../../backend/meters/simulated/front.ts';
import { SimulatedInstrument } from '../../backend/meters/simulated/instrument.ts';
import { LineInstrument } from '../../backend/meters/simulated/line-instrument.ts';
import { openPtyMeter } from '../../backend/meters/simulated/pty.ts';
import { numberOption } from '../number-option.ts';
import { answered, type Outcome, refused } from '../outcome.ts';
import { type PlaceOptions, placeOf, withPlaceOptions } from '../simulated-place.ts';
import type { RunVerb, Verb, VerbIo } from '../verb.ts';

type Options = PlaceOptions & Readonly<{ pty?: true; paceMs: number; speaks: 'scpi' | 'line' }>;

async function act(options: Options, io: VerbIo): Promise<Outcome> {
  if (options.pty !== true) {
    const help =
      'say --pty to put the meter on a pseudo-terminal; inside this program it is sweep --port simulated';
    return refused(refuse('bad-command', 'tiltwright simulate', help));
  }
  if (process.platform === 'win32') {
    const help = 'Windows has no pseudo-terminal that opens as a serial port; use sweep --port simulated';
    return refused(refuse('bad-command', 'tiltwright simulate --pty', help));
  }
  const place = await placeOf(options);
  const source = place.levelAt;
  const instrument =
    options.speaks === 'scpi'
      ? new SimulatedInstrument({ source })
      : new LineInstrument({ source, calibratedOn: '2026-01-15' });
  const meter = await openPtyMeter(instrument, { ...usualPace, readingMs: options.paceMs });
  try {
    io.say(meter.path);
    io.note(`a simulated meter answers there (${options.speaks}) until Ctrl-C`);
    await stopped(io.signal);
  } finally {
    await meter.unplug();
  }
  return answered({ path: meter.path }, 'The simulated meter is unplugged.');
}

const stopped = (signal: AbortSignal) =>
  new Promise<void>((resolve) => {
    if (signal.aborted) resolve();
    else signal.addEventListener('abort', () => resolve(), { once: true });
  });

export const simulate: Verb = {
  name: 'simulate',
  summary: 'a simulated meter on a pseudo-terminal',
  register(program: Command, run: RunVerb) {
    const command = program
      .command('simulate')
      .summary(simulate.summary)
      .description(
        'Plays a level meter on a pseudo-terminal and prints its path on the first line.\n' +
          'Any program can open that path as a serial port, until Ctrl-C unplugs it.',
      )
      .option('--pty', 'on a pseudo-terminal')
      .option(
        '--pace-ms <ms>',
        'how long a reading takes',
        numberOption('a time in ms', 0),
        usualPace.readingMs,
      )
      .addOption(
        new Option('--speaks <language>', 'SCPI, or the plain line protocol')
          .choices(['scpi', 'line'])
          .default('scpi'),
      );
    withPlaceOptions(command).action((options: Options, self: Command) =>
      run(self, (io) => act(options, io)),
    );
  },
};
