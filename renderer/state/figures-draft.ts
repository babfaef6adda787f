import type { AmplifierNotes, CascadeNotes, SourceNotes } from '../../core/files/station-figures.ts';
import { AmplifierNotes as Amplifier, CascadeNotes as Cascade } from '../../core/files/station-figures.ts';
import type { NotesChange } from './kept-commands.ts';

/** What is being entered; null is an empty field. */
export type FiguresDraft = Readonly<{
  noiseFigureDb: number | null;
  gainDb: number | null;
  ratedAtDbmv: number | null;
  ctbDbc: number | null;
  csoDbc: number | null;
  xmodDbc: number | null;
  fedBy: string | null;
  alikeAhead: number | null;
  sourceCnrDb: number | null;
  sourceCtbDbc: number | null;
  sourceCsoDbc: number | null;
  sourceMerDb: number | null;
}>;
export type FigureKey = Exclude<keyof FiguresDraft, 'fedBy'>;

export const draftOf = (
  amplifier: AmplifierNotes | undefined,
  cascade: CascadeNotes | undefined,
): FiguresDraft => ({
  noiseFigureDb: amplifier?.noiseFigureDb ?? null,
  gainDb: amplifier?.gainDb ?? null,
  ratedAtDbmv: amplifier?.ratedAtDbmv ?? null,
  ctbDbc: amplifier?.ctbDbc ?? null,
  csoDbc: amplifier?.csoDbc ?? null,
  xmodDbc: amplifier?.xmodDbc ?? null,
  fedBy: cascade?.fedBy ?? null,
  alikeAhead: cascade?.alikeAhead ?? null,
  sourceCnrDb: cascade?.source?.cnrDb ?? null,
  sourceCtbDbc: cascade?.source?.ctbDbc ?? null,
  sourceCsoDbc: cascade?.source?.csoDbc ?? null,
  sourceMerDb: cascade?.source?.merDb ?? null,
});

/** Only the fields that hold something: an empty one is no figure. */
function filled<K extends string>(
  fields: Readonly<Record<K, number | string | null>>,
): Record<string, unknown> {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null));
}

/** What the draft makes of the notes, or in one line what is wrong with it. Data sheets write 73 as well as −73 dBc. */
export function notesOfDraft(draft: FiguresDraft): NotesChange | Readonly<{ wrong: string }> {
  const below = (valueDbc: number | null) => (valueDbc === null ? null : -Math.abs(valueDbc));
  const { noiseFigureDb, gainDb, ratedAtDbmv, fedBy, alikeAhead } = draft;
  if (noiseFigureDb === null)
    return { wrong: 'The noise figure is what everything else rests on: enter it.' };
  const distortions = {
    ctbDbc: below(draft.ctbDbc),
    csoDbc: below(draft.csoDbc),
    xmodDbc: below(draft.xmodDbc),
  };
  const amplifier = Amplifier.safeParse(filled({ noiseFigureDb, gainDb, ratedAtDbmv, ...distortions }));
  if (!amplifier.success) return { wrong: plainly(amplifier.error.issues[0]) };
  const source = filled<keyof SourceNotes>({
    cnrDb: draft.sourceCnrDb,
    ctbDbc: below(draft.sourceCtbDbc),
    csoDbc: below(draft.sourceCsoDbc),
    merDb: draft.sourceMerDb,
  });
  // Who is fed by a station has no source of its own: what stands in those fields is not kept.
  const place =
    fedBy !== null
      ? { fedBy }
      : { ...filled({ alikeAhead }), ...(Object.keys(source).length === 0 ? {} : { source }) };
  const cascade = Cascade.safeParse(place);
  if (!cascade.success) return { wrong: plainly(cascade.error.issues[0]) };
  return {
    amplifier: amplifier.data,
    cascade: Object.keys(place).length === 0 ? undefined : cascade.data,
  };
}

const KEYS: Readonly<Record<string, string>> = {
  noiseFigureDb: 'Noise figure',
  gainDb: 'Gain',
  ratedAtDbmv: 'Output level of the rating',
  ctbDbc: 'CTB',
  csoDbc: 'CSO',
  xmodDbc: 'Cross modulation',
  alikeAhead: 'Stations alike ahead',
  cnrDb: 'Carrier to noise of the source',
  merDb: 'MER of the source',
};

function plainly(issue: Readonly<{ path: readonly PropertyKey[]; message: string }> | undefined): string {
  if (issue === undefined) return 'Something is not a figure.';
  const key = String(issue.path.at(-1));
  return `${KEYS[key] ?? key}: ${issue.message}.`;
}
