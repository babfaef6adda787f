import { type Design, Station } from '../../../core/files/station.ts';
import { capital } from '../../../core/words/numbers.ts';
import type { DesignDraft, PortDraft, PositionDraft, StationDraft } from './draft.ts';
import { kitTrouble, valuesOf } from './kit.ts';

/** What of a draft is looked at. */
export type DraftPart =
  | Readonly<{ at: 'name' }>
  | Readonly<{ at: 'port'; key: number }>
  | Readonly<{ at: 'position'; key: number }>
  | Readonly<{ at: 'stage' }>
  | Readonly<{ at: 'span' }>
  | Readonly<{ at: 'gain-control' }>;

/** Something that is still empty or can't be, and where it stands. */
export type Lack = Readonly<{ part: DraftPart; words: string }>;

/** The id that a station has unless another is typed: its name, so that two laptops that describe one station mean the same. */
export const idOf = ({ id, name }: Pick<StationDraft, 'id' | 'name'>): string =>
  id ??
  name
    .trim()
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 120);

const empty = (fields: readonly (readonly [number | null, string])[]): readonly string[] =>
  fields.flatMap(([value, words]) => (value === null ? [words] : []));

function twice(names: readonly string[]): ReadonlySet<string> {
  const trimmed = names.map((name) => name.trim());
  return new Set(trimmed.filter((name, i) => trimmed.indexOf(name) !== i));
}

function designLacks(design: DesignDraft): readonly string[] {
  const lacks = empty([
    [design.lowMhz, 'the low frequency of its design'],
    [design.lowDbmv, 'the level there'],
    [design.highMhz, 'the high frequency of its design'],
    [design.highDbmv, 'the level there'],
    [design.toleranceDb, 'how far a channel may be off'],
    [design.flatnessDb, 'the flatness'],
  ]);
  const crossed =
    design.lowMhz !== null && design.highMhz !== null && design.lowMhz >= design.highMhz
      ? ['a low frequency below the high one']
      : [];
  return [...lacks, ...crossed];
}

const portLacks = (port: PortDraft, doubled: ReadonlySet<string>): readonly string[] => [
  ...(port.name.trim() === '' ? ['a name'] : []),
  ...(doubled.has(port.name.trim()) ? ['a name of its own'] : []),
  ...empty([[port.testPointLossDb, 'the loss of its test point']]),
  ...(port.design === null ? [] : designLacks(port.design)),
];

function positionLacks(
  position: PositionDraft,
  topMhz: number | null,
  doubled: ReadonlySet<string>,
): readonly string[] {
  const kit = kitTrouble(position.kit);
  return [
    ...(position.name.trim() === '' ? ['a name'] : []),
    ...(doubled.has(position.name.trim()) ? ['a name of its own'] : []),
    ...empty([[position.installedDb, 'what is in it now']]),
    ...(kit === null ? [] : [kit]),
    ...(position.kind !== 'pad' && topMhz === null ? ['its top frequency'] : []),
  ];
}

/** The top of a slope device: its own, else that of the design that it serves. */
export const topOf = (draft: StationDraft, position: PositionDraft): number | null =>
  position.topMhz ??
  draft.ports.find(({ design, through }) => design !== null && through.includes(position.key))?.design
    ?.highMhz ??
  null;

/** All that is still to say, in the order of the page. */
export function lacksOf(draft: StationDraft): readonly Lack[] {
  const lacks: Lack[] = [];
  const say = (part: DraftPart, of: string, words: readonly string[]) => {
    for (const one of words) lacks.push({ part, words: `${of}: ${one}` });
  };
  if (draft.name.trim() === '') lacks.push({ part: { at: 'name' }, words: 'Name of the station' });
  else if (idOf(draft).trim() === '') lacks.push({ part: { at: 'name' }, words: 'Id of the station' });
  const portNames = twice(draft.ports.map(({ name }) => name));
  for (const port of draft.ports)
    say({ at: 'port', key: port.key }, capital(port.name.trim()) || 'A port', portLacks(port, portNames));
  const names = twice(draft.positions.map(({ name }) => name));
  for (const position of draft.positions)
    say(
      { at: 'position', key: position.key },
      capital(position.name.trim()) || 'A plug-in',
      positionLacks(position, topOf(draft, position), names),
    );
  const { stage, span, gainControl } = draft;
  if (stage !== null) {
    const crossed =
      stage.minDbmv !== null && stage.maxDbmv !== null && stage.minDbmv > stage.maxDbmv
        ? ['a lowest level below the highest']
        : [];
    say({ at: 'stage' }, 'Stage input', [
      ...empty([
        [stage.atMhz, 'its frequency'],
        [stage.minDbmv, 'its lowest level'],
        [stage.maxDbmv, 'its highest level'],
      ]),
      ...crossed,
    ]);
  }
  if (span !== null)
    say(
      { at: 'span' },
      'Span',
      empty([
        [span.lossDb, 'its loss'],
        [span.topMhz, 'the frequency of that loss'],
      ]),
    );
  if (gainControl !== null)
    say(
      { at: 'gain-control' },
      'Gain control',
      empty([
        [gainControl.upDb, 'how far it goes up'],
        [gainControl.downDb, 'how far it goes down'],
        [gainControl.topMhz, 'the frequency where it acts in full'],
        [gainControl.setAtC, 'the temperature at which it was set'],
      ]),
    );
  return lacks;
}

/** The design as far as it can be drawn: both ends and the tolerance; null before that. */
export function completeDesign(design: DesignDraft | null): Design | null {
  if (design === null) return null;
  const { lowMhz, lowDbmv, highMhz, highDbmv, toleranceDb, shape } = design;
  if (lowMhz === null || lowDbmv === null || highMhz === null || highDbmv === null || toleranceDb === null)
    return null;
  if (lowMhz >= highMhz) return null;
  // The flatness is no part of the picture.
  return {
    lowMhz,
    lowDbmv,
    highMhz,
    highDbmv,
    toleranceDb,
    shape,
    flatnessDb: design.flatnessDb ?? toleranceDb,
  };
}

/** Only what holds something: an optional key is left out, not empty. */
const filled = (fields: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null && value !== undefined));

/**
 * The station that a draft describes, in the form of its file, checked as a file is.
 * @returns  the station, or all that it still lacks; there is always one of the two
 */
export function stationOf(
  draft: StationDraft,
): Readonly<{ station: Station }> | Readonly<{ lacks: readonly [Lack, ...Lack[]] }> {
  const [first, ...more] = lacksOf(draft);
  if (first !== undefined) return { lacks: [first, ...more] };
  const nameOf = new Map(draft.positions.map(({ key, name }) => [key, name.trim()]));
  const named = (through: readonly number[]) => through.flatMap((key) => nameOf.get(key) ?? []);
  const { stage, span, gainControl } = draft;
  const read = Station.safeParse({
    format: 'tiltwright-station/1',
    id: idOf(draft),
    name: draft.name.trim(),
    ports: draft.ports.map(({ name, direction, testPointLossDb, design, through }) =>
      filled({ name: name.trim(), direction, testPointLossDb, design, through: named(through) }),
    ),
    positions: draft.positions.map((position) => {
      const { kind, curves, insertionLossDb } = position;
      const slope = kind === 'pad' ? {} : { topMhz: topOf(draft, position), insertionLossDb };
      return filled({
        name: position.name.trim(),
        kind,
        ...slope,
        installed: position.installedDb,
        values: valuesOf(position.kit),
        curves,
      });
    }),
    ...(stage === null
      ? {}
      : {
          stageInput: {
            port: draft.ports.find(({ key }) => key === stage.portKey)?.name.trim() ?? '',
            through: named(stage.through),
            atMhz: stage.atMhz,
            minDbmv: stage.minDbmv,
            maxDbmv: stage.maxDbmv,
          },
        }),
    ...(span === null ? {} : { span: filled(span) }),
    ...(gainControl === null ? {} : { gainControl: filled(gainControl) }),
  });
  if (read.success) return { station: read.data };
  const [issue] = read.error.issues;
  return {
    lacks: [
      {
        part: { at: 'name' },
        words: `${issue?.path.join('.') ?? 'station'}: ${issue?.message ?? 'unclear'}`,
      },
    ],
  };
}
