import { z } from 'zod';
import { CABLES } from '../coax/cables.ts';

const names = CABLES.map(({ name }) => name);
const belowCarrier = z.number().min(-200).max(0);
const ratioDb = z.number().min(0).max(200);

/** The cable in front of the station: which one, how long in m, and by what part of its loss it changes a degree F. */
export const SpanNotes = z.strictObject({
  cable: z.string().refine((name) => names.includes(name), {
    message: `no such cable; choose one of ${names.join(', ')}`,
  }),
  lengthM: z.number().positive().max(10_000),
  perDegreeF: z.number().min(0).max(0.004).exactOptional(),
});
export type SpanNotes = z.infer<typeof SpanNotes>;

/**
 * What the data sheet of the amplifier says. The noise figure is that of its first stage, behind input pad and equalizer; the
 * distortions are those of one amplifier, in dBc and below 0, at the output level `ratedAtDbmv` at its top frequency.
 */
export const AmplifierNotes = z
  .strictObject({
    noiseFigureDb: z.number().min(0).max(40),
    /** From the first stage to the output with no pad and no equalizer between the stages. */
    gainDb: z.number().min(0).max(80).exactOptional(),
    ratedAtDbmv: z.number().min(0).max(80).exactOptional(),
    ctbDbc: belowCarrier.exactOptional(),
    csoDbc: belowCarrier.exactOptional(),
    xmodDbc: belowCarrier.exactOptional(),
  })
  .refine(
    ({ ratedAtDbmv, ctbDbc, csoDbc, xmodDbc }) =>
      ratedAtDbmv !== undefined || (ctbDbc ?? csoDbc ?? xmodDbc) === undefined,
    { path: ['ratedAtDbmv'], message: 'say at which output level the distortions are rated' },
  );
export type AmplifierNotes = z.infer<typeof AmplifierNotes>;

/** What comes to the first station of a cascade: figures of the optical link or the headend, whose data sheet tells them. */
export const SourceNotes = z.strictObject({
  cnrDb: ratioDb.exactOptional(),
  ctbDbc: belowCarrier.exactOptional(),
  csoDbc: belowCarrier.exactOptional(),
  merDb: ratioDb.exactOptional(),
});
export type SourceNotes = z.infer<typeof SourceNotes>;

/** Where the station stands. Stations that are in nobody's archive can be told as so many like this one. */
export const CascadeNotes = z
  .strictObject({
    /** The id of the station whose output feeds this one. */
    fedBy: z.string().trim().min(1).max(120).exactOptional(),
    alikeAhead: z.number().int().min(0).max(100).exactOptional(),
    source: SourceNotes.exactOptional(),
  })
  .refine(({ fedBy, alikeAhead, source }) => fedBy === undefined || (alikeAhead ?? source) === undefined, {
    path: ['fedBy'],
    message:
      'a station that another one feeds has no source and no stations alike of its own; say them there',
  });
export type CascadeNotes = z.infer<typeof CascadeNotes>;
