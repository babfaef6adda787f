import type { LineUpEntry } from '../channels/line-up.ts';
import { normalizeRows } from '../channels/normalize.ts';
import type { LevelRow } from '../line/level-row.ts';
import { type Coherence, coherenceOf } from './coherence.ts';
import { type SignalClass, signalClassOf } from './limits.ts';
import { ANALOG_NOISE_EUROPE_MHZ, ANALOG_NOISE_MHZ } from './thermal-noise.ts';

/** What a network carries, as far as its noise is judged by it. */
export type Carried = Readonly<{
  /** Analog as soon as one analog channel is there: the stricter rule for carrier to noise. */
  judgedAs: SignalClass;
  /** Of the analog carriers: which limit of their distortion holds. */
  coherence: Coherence;
  /** The digital signal that most channels carry; null without one. */
  qam: Readonly<{ order: number; offsetDb: number; isTaken: boolean }> | null;
  /** Noise bandwidth of carrier to noise, MHz. */
  bandwidthMhz: number;
  /** Line-up, sweep, or nothing: then 256-QAM on the design line is taken. */
  from: 'line-up' | 'sweep' | 'nothing';
}>;

/** From this width on a channel is one of the 7 and 8 MHz rasters. */
const WIDE_CHANNEL_MHZ = 6.5;
const TAKEN_ORDER = 256;

type Group = Readonly<{
  kind: LineUpEntry['kind'] | null;
  order: number | null;
  offsetDb: number;
  count: number;
}>;

/**
 * What the channels of a station carry: by its line-up, else by what its sweep calls them.
 * @param lineUp  or null
 * @param rows    a sweep of it, or null
 * @returns  the rule that judges it, the commonest QAM with its level against the design line (dB), the noise bandwidth (MHz)
 * @source   common practice, no published source: the commonest signal stands for all
 */
export function carriedBy(
  lineUp: readonly LineUpEntry[] | null | undefined,
  rows: readonly LevelRow[] | null,
): Carried {
  const hasLineUp = lineUp != null && lineUp.length > 0;
  const groups: readonly Group[] = hasLineUp ? groupsOf(lineUp) : groupsIn(rows ?? []);
  const told = groups.filter(({ kind }) => kind !== null);
  if (told.length === 0)
    return {
      judgedAs: 'digital',
      coherence: coherenceOf([]),
      qam: { order: TAKEN_ORDER, offsetDb: 0, isTaken: true },
      bandwidthMhz: ANALOG_NOISE_MHZ,
      from: 'nothing',
    };
  const digital = told
    .filter(({ kind }) => kind === 'qam' || kind === 'ofdm')
    .reduce<Group | null>((most, group) => (most === null || group.count > most.count ? group : most), null);
  const widths = hasLineUp
    ? lineUp.filter(({ widthMhz }) => widthMhz > 0).map(({ widthMhz }) => widthMhz)
    : [];
  const wide = widths.filter((widthMhz) => widthMhz > WIDE_CHANNEL_MHZ && widthMhz <= 8).length;
  return {
    judgedAs: told.some(({ kind }) => signalClassOf(kind) === 'analog' && kind !== 'cw')
      ? 'analog'
      : 'digital',
    coherence: coherenceOf(analogMhz(hasLineUp ? lineUp : (rows ?? []))),
    qam:
      digital === null
        ? null
        : {
            order: digital.order ?? TAKEN_ORDER,
            offsetDb: digital.offsetDb,
            isTaken: digital.order === null,
          },
    bandwidthMhz: wide > widths.length / 2 ? ANALOG_NOISE_EUROPE_MHZ : ANALOG_NOISE_MHZ,
    from: hasLineUp ? 'line-up' : 'sweep',
  };
}

const analogMhz = (carriers: readonly Pick<LevelRow, 'frequencyMhz' | 'kind'>[]): readonly number[] =>
  carriers.flatMap(({ frequencyMhz, kind }) =>
    kind === 'analog' && frequencyMhz !== null ? [frequencyMhz] : [],
  );

function groupsOf(lineUp: readonly LineUpEntry[]): readonly Group[] {
  const groups = new Map<string, Group>();
  for (const { kind, qamOrder, offsetDb } of lineUp) {
    const key = `${kind} ${qamOrder ?? ''} ${offsetDb}`;
    const before = groups.get(key);
    groups.set(key, { kind, order: qamOrder ?? null, offsetDb, count: (before?.count ?? 0) + 1 });
  }
  return [...groups.values()];
}

const groupsIn = (rows: readonly LevelRow[]): readonly Group[] =>
  normalizeRows(rows, null).groups.map(({ kind, qamOrder, offsetDb, count }) => ({
    ...{ kind, order: qamOrder, offsetDb, count },
  }));
