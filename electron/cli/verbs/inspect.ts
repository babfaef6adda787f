import type { Command } from 'commander';
import { type Inspection, inspectSweep } from '../../../core/inspect/all.ts';
import { VELOCITY_FACTOR } from '../../../core/inspect/distance.ts';
import type { Finding } from '../../../core/inspect/finding.ts';
import { numberOption } from '../number-option.ts';
import { answered, type Outcome, refused } from '../outcome.ts';
import { type SweepOptions, sweepIn, withSweepOptions } from '../sweep-option.ts';
import { aligned, decibels, megahertz, signed } from '../table.ts';
import { jsonFlag, type RunVerb, type Verb } from '../verb.ts';

type Options = SweepOptions & Readonly<{ velocityFactor: number }>;

/** As exact as a sweep can know it. */
const near = (frequencyMhz: number): string => megahertz(Number(frequencyMhz.toFixed(1)));

function lineOf(finding: Finding): string[] {
  switch (finding.kind) {
    case 'ripple':
      return [
        'Ripple',
        `${decibels(finding.peakToPeakDb)} dB peak to peak every ${near(finding.periodMhz)}:`,
        `mismatches ${finding.distanceM.toFixed(1)} m (${finding.distanceFt.toFixed(0)} ft) apart`,
      ];
    case 'notch':
      return [
        'Notch',
        `${decibels(finding.depthDb)} dB at ${near(finding.centerMhz)},`,
        `${near(finding.widthMhz)} wide`,
      ];
    case 'rolloff':
      return [
        'Roll-off',
        `${decibels(finding.depthDb)} dB at the ${finding.edge} end,`,
        `from ${near(finding.fromMhz)}`,
      ];
    case 'missing':
      return ['Missing', `no carrier at ${megahertz(finding.frequencyMhz)}`];
    case 'step':
      return ['Step', `${signed(finding.stepDb)} dB at ${near(finding.atMhz)}`];
  }
}

/** The inspection as a person reads it. */
function textOf(inspection: Inspection, file: string, notes: readonly string[]): string {
  const { findings, bumps, rowCount, ripplePeriods, velocityFactor } = inspection;
  const rows = [
    ...findings.map(lineOf),
    ...bumps.map((bump) => [
      'Bump',
      `${signed(bump.heightDb)} dB at ${near(bump.centerMhz)},`,
      `${near(bump.widthMhz)} wide; no fault by itself`,
    ]),
  ];
  const shown =
    ripplePeriods === null
      ? 'These rows can show no ripple: they are too few or too far apart.'
      : `These rows can show ripple of ${near(ripplePeriods.shortestMhz)} to ${near(ripplePeriods.longestMhz)}; velocity factor ${velocityFactor}.`;
  return [
    `${file}: ${rowCount} rows, ${findings.length === 0 ? 'no fault found' : `${findings.length} found`}`,
    ...aligned(rows),
    `Note: ${shown}`,
    ...notes.map((note) => `Note: ${note}`),
  ].join('\n');
}

async function act(file: string, options: Options): Promise<Outcome> {
  const sweep = await sweepIn(file, options);
  const inspection = inspectSweep(sweep.rows, options.velocityFactor);
  if (!inspection.ok)
    return refused(
      inspection.code === 'no-readings'
        ? { ...inspection, where: `${file}, ${inspection.where}` }
        : inspection,
    );
  return answered({ ...inspection.value }, textOf(inspection.value, file, sweep.notes));
}

export const inspect: Verb = {
  name: 'inspect',
  summary: 'ripple, notch, roll-off, missing carriers and steps in a sweep',
  register(program: Command, run: RunVerb) {
    withSweepOptions(program.command('inspect'))
      .summary(inspect.summary)
      .description(
        'Looks for faults in a sweep, each told once. The period of a ripple (MHz) gives the distance of the two\n' +
          'mismatches that make it; rows on a 6 MHz raster can show periods from 12 MHz up.',
      )
      .argument('<file>', 'sweep: CSV, a pasted table, or .s2p (its S21 in dB)')
      .option(
        '--velocity-factor <K>',
        'of the cable, above 0, at most 1',
        numberOption('a velocity factor', 0),
        VELOCITY_FACTOR,
      )
      .option(...jsonFlag)
      .action((file: string, options: Options, command: Command) => run(command, () => act(file, options)));
  },
};
