import type { LevelRow, SignalKind } from '../line/level-row.ts';
import { done, type Result, refuse } from '../result.ts';
import type { PlanName } from './channel.ts';
import { type ChannelAt, channelAt } from './channel-at.ts';
import { likelyPlan } from './likely-plan.ts';
import { checkedLineUp, type LineUpEntry, usualOffset } from './line-up.ts';
import { OFDM_BAND_MHZ } from './ofdm-power.ts';
import { planTitle } from './plans.ts';
import { qamOrderOf } from './qam-order.ts';

/** Something that a person should look at before the line-up is used. `frequencyMhz` is null for the whole of it. */
export type Doubt = Readonly<{ frequencyMhz: number | null; why: string }>;

export type LearnedLineUp = Readonly<{
  /** Null where the frequencies stand on no plan. */
  plan: PlanName | null;
  /** Rising in frequency, one a frequency. */
  entries: readonly LineUpEntry[];
  uncertain: readonly Doubt[];
  /** Rows that make no entry, each with its reason. */
  leftOut: readonly Readonly<{ row: LevelRow; reason: string }>[];
}>;

/** Offset of a QAM signal whose order is not known: that of 256-QAM, the commonest. Always said as a doubt. */
const UNKNOWN_QAM_DB = -6;

const placeOf = (frequencyMhz: number, plan: PlanName | null): ChannelAt | null => {
  const at = plan === null ? null : channelAt(frequencyMhz, plan);
  return at?.ok === true ? at.value : null;
};

function kindOf(
  row: LevelRow,
  at: ChannelAt | null,
  order: number | null,
  doubt: (why: string) => void,
): SignalKind {
  if (row.kind !== undefined) {
    if (row.kind === 'analog' && at?.place === 'center')
      doubt('analog, but read at the middle of its channel');
    if (row.kind === 'qam' && at?.place === 'visual carrier')
      doubt('QAM, but read where an analog carrier would be');
    return row.kind;
  }
  if (order !== null) return 'qam';
  if (at === null) {
    doubt('kind not told and no channel of the plan is here: taken as a tone, compared as it stands');
    return 'cw';
  }
  const kind = at.place === 'center' ? 'qam' : 'analog';
  doubt(
    `kind not told: taken as ${kind === 'qam' ? 'QAM' : kind} because it was read at the ${at.place} of channel ${at.channel.label}`,
  );
  return kind;
}

function offsetOfKind(kind: SignalKind, order: number | null, doubt: (why: string) => void): number {
  const usual = usualOffset(kind, order ?? undefined);
  if (usual.ok) return usual.value.offsetDb;
  doubt(`${usual.where}: ${UNKNOWN_QAM_DB} dB taken; ${usual.help}`);
  return UNKNOWN_QAM_DB;
}

const fallbackWidthMhz = (plan: PlanName | null) => (plan === 'europe' || plan === 'europe-digital' ? 8 : 6);

function entryOf(
  row: LevelRow,
  frequencyMhz: number,
  plan: PlanName | null,
  uncertain: Doubt[],
): LineUpEntry {
  const doubt = (why: string) => uncertain.push({ frequencyMhz, why });
  const at = placeOf(frequencyMhz, plan);
  const written = row.modulation === undefined ? null : qamOrderOf(row.modulation);
  const kind = kindOf(row, at, written, doubt);
  const order = kind === 'qam' ? written : null;
  const known = at?.channel.label;
  const label = row.label?.trim() || known;
  if (known !== undefined && label !== known && /^\d+$/.test(label ?? ''))
    doubt(`called ${label}, but channel ${known} of the plan is here`);
  const widthMhz = { cw: 0, ofdm: OFDM_BAND_MHZ, qam: null, analog: null }[kind];
  if (widthMhz === null && at === null) doubt('outside the plan: the width of its channel is not known');
  return {
    channelLabel: label ?? `${frequencyMhz} MHz`,
    frequencyMhz,
    kind,
    ...(order === null ? {} : { qamOrder: order }),
    widthMhz: widthMhz ?? at?.channel.widthMhz ?? fallbackWidthMhz(plan),
    offsetDb: offsetOfKind(kind, order, doubt),
  };
}

function choosePlan(
  frequenciesMhz: readonly number[],
  chosen: PlanName | undefined,
  uncertain: Doubt[],
): PlanName | null {
  if (chosen !== undefined) return chosen;
  const likely = likelyPlan(frequenciesMhz);
  if (!likely.ok) {
    uncertain.push({ frequencyMhz: null, why: 'the frequencies stand on no channel plan' });
    return null;
  }
  const { plan, matchedCount, ofCount, equallyLikely } = likely.value;
  if (equallyLikely.length > 0)
    uncertain.push({
      frequencyMhz: null,
      why: `${planTitle(plan)} taken; ${equallyLikely.map(planTitle).join(', ')} would fit these frequencies as well`,
    });
  if (matchedCount < ofCount)
    uncertain.push({
      frequencyMhz: null,
      why: `${matchedCount} of ${ofCount} frequencies stand on ${planTitle(plan)}`,
    });
  return plan;
}

/**
 * Proposes a line-up from a sweep: its frequencies, kinds and modulations. Levels are not looked at.
 * @param rows    the sweep, in any order
 * @param chosen  the plan, where a person knows it; otherwise the likeliest is taken
 * @returns  a proposal to be looked over, with everything in doubt named (plan, kind, QAM order, width, overlap) and
 *           every row that makes no entry; a refusal when no row names a frequency with a signal
 * @source   common practice, no published source; offsets: see `usualOffset`
 */
export function learnLineUp(
  rows: readonly LevelRow[],
  chosen?: PlanName,
): Result<LearnedLineUp, 'no-carriers'> {
  const leftOut: { row: LevelRow; reason: string }[] = [];
  const uncertain: Doubt[] = [];
  const read = new Map<number, LevelRow>();
  for (const row of rows) {
    const { frequencyMhz, levelDbmv } = row;
    const reason =
      frequencyMhz === null || !(frequencyMhz > 0 && Number.isFinite(frequencyMhz))
        ? 'no frequency'
        : row.unlocked === true
          ? 'not locked: no telling whether a signal is there'
          : levelDbmv === null || !Number.isFinite(levelDbmv)
            ? 'no level: no telling whether a signal is there'
            : read.has(frequencyMhz)
              ? 'this frequency was read before'
              : null;
    if (reason !== null) leftOut.push({ row, reason });
    else if (frequencyMhz !== null) read.set(frequencyMhz, row);
  }
  if (read.size === 0)
    return refuse(
      'no-carriers',
      `${rows.length} rows`,
      'no row has a frequency and a level; sweep again, or enter the channels by hand',
    );
  const plan = choosePlan([...read.keys()], chosen, uncertain);
  const entries = [...read]
    .sort(([a], [b]) => a - b)
    .map(([frequencyMhz, row]) => entryOf(row, frequencyMhz, plan, uncertain));
  const checked = checkedLineUp(entries);
  if (!checked.ok) uncertain.push({ frequencyMhz: null, why: `${checked.where}: ${checked.help}` });
  return done({ plan, entries, uncertain, leftOut });
}
