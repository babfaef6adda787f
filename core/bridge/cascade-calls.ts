import { z } from 'zod';
import { Station } from '../files/station.ts';
import { StationNotes } from '../files/station-notes.ts';
import { Sweep } from './records.ts';

const text = z.string().trim().min(1).max(400);

/** A station of a cascade as it stands: what its noise and the loss of its span are reckoned from. */
export const CascadeLink = z.strictObject({
  station: Station,
  pluggedIn: z.record(z.string(), z.number()),
  notes: StationNotes.nullable(),
  /** The newest complete sweeps of its forward output and of the port in front of its first stage. */
  output: Sweep.nullable(),
  input: Sweep.nullable(),
});
export type CascadeLink = z.infer<typeof CascadeLink>;

export const cascadeCalls = {
  /** The station and all that feed it, as their notes say; the first in the cascade first, the station itself last. */
  'cascade.read': {
    in: z.strictObject({ stationId: text }),
    out: z.strictObject({
      links: z.array(CascadeLink).min(1),
      /** The id of a station that is named as feeding the first one and is not in the archive. */
      unknownId: text.nullable(),
    }),
  },
} as const;
