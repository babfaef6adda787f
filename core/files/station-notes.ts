import { z } from 'zod';
import { checkedLineUp } from '../channels/line-up.ts';
import type { Result } from '../result.ts';
import { readJsonFile } from './json-file.ts';
import { MeterUncertainty } from './meter-uncertainty.ts';
import { AmplifierNotes, CascadeNotes, SpanNotes } from './station-figures.ts';

const mhz = z.number().positive().max(100_000);
const name = z.string().trim().min(1).max(120);

/** What one channel carries, as core/channels/line-up.ts uses it. */
const Entry = z.strictObject({
  channelLabel: name,
  frequencyMhz: mhz,
  kind: z.enum(['analog', 'qam', 'ofdm', 'cw']),
  qamOrder: z.number().int().min(2).max(65536).exactOptional(),
  widthMhz: z.number().min(0).max(2000),
  offsetDb: z.number().min(-200).max(200),
});

/**
 * A continuous trim. `rangeDb` is how far it can still be turned from where it stands, down (0 or less) and up (0 or
 * more), read at `atMhz`, where its effect is full: a gain trim does the same at every frequency; a slope trim does
 * nothing at the design frequency farther from `atMhz`.
 */
export const Trim = z.strictObject({
  name,
  kind: z.enum(['gain', 'slope']),
  rangeDb: z.tuple([z.number().min(-60).max(0), z.number().min(0).max(60)]),
  atMhz: mhz,
  /** The port whose level it moves; without one, every port with a design. */
  port: name.optional(),
});
export type Trim = z.infer<typeof Trim>;

/** A station that stands in the plant no more, or for now not: its records stay, and nobody is sent there. */
const OutOfService = z.strictObject({ reason: z.string().trim().min(1).max(400) });

/** What the contract's station file has no key for, kept beside it. Unknown keys are refused by name. */
export const StationNotes = z
  .strictObject({
    format: z.literal('tiltwright-station-notes/1'),
    lineUp: z.array(Entry).max(2000).optional(),
    trims: z.array(Trim).max(4).optional(),
    meter: MeterUncertainty.optional(),
    span: SpanNotes.optional(),
    amplifier: AmplifierNotes.optional(),
    cascade: CascadeNotes.optional(),
    outOfService: OutOfService.optional(),
  })
  .superRefine(({ lineUp, trims }, issues) => {
    const checked = lineUp === undefined ? null : checkedLineUp(lineUp);
    if (checked?.ok === false)
      issues.addIssue({ code: 'custom', path: ['lineUp'], message: `${checked.where}: ${checked.help}` });
    const names = trims?.map((trim) => trim.name) ?? [];
    names.forEach((one, i) => {
      if (names.indexOf(one) !== i)
        issues.addIssue({
          code: 'custom',
          path: ['trims', i, 'name'],
          message: `two trims are named "${one}"`,
        });
    });
  });
export type StationNotes = z.infer<typeof StationNotes>;

/**
 * A station notes file's text to checked notes.
 * @param text      JSON
 * @param fileName  named in a refusal
 * @returns  the notes, the meter's missing numbers filled in with their defaults; or a refusal that names file and key
 * @source   the notes' format is this program's own
 */
export function readStationNotes(
  text: string,
  fileName: string,
): Result<StationNotes, 'not-json' | 'not-station-notes'> {
  return readJsonFile(
    StationNotes,
    { noun: 'station notes file', format: 'tiltwright-station-notes/1', code: 'not-station-notes' },
    text,
    fileName,
  );
}
