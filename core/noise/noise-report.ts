import type { Refusal } from '../result.ts';
import type { Carried } from './carried.ts';
import { type Cascade, type CascadeDistortion, cascadeCnr, cascadeDistortion } from './cascade-noise.ts';
import type { Distortion } from './distortion.ts';
import { cnrLimit, distortionLimit, inHandDb, merLimit, type NoiseLimit } from './limits.ts';
import { J83B_64_QAM_MSYM, J83B_256_QAM_MSYM, type MerEstimate, merEstimate } from './mer.ts';
import { sheetDoubtDb } from './sheet-doubt.ts';
import type { StationNoise } from './station-noise.ts';

export type NoiseKey = 'cnr' | Distortion | 'mer';

/** One figure: what the station alone gives, what arrives behind the cascade, and how that stands against a limit. */
export type NoiseRow = Readonly<{
  key: NoiseKey;
  /** dB, or dBc for a distortion; null where it can't be told. */
  ownDb: number | null;
  cascadeDb: number | null;
  limit: NoiseLimit | null;
  /** Of the cascade's figure; null without a limit or a figure. */
  inHandDb: number | null;
  /** `undecided` where the limit is nearer than `doubtDb`. */
  verdict: 'pass' | 'fail' | 'undecided' | 'unknown';
  /** How far the typical figures of data sheets may lead it off, dB. */
  doubtDb: number;
  /** Why the cascade's figure can't be told. */
  missing: Refusal | null;
}>;

export type NoiseReport = Readonly<{
  rows: readonly NoiseRow[];
  /** Null while its figures are not entered. */
  own: StationNoise | null;
  /** At the worse end of the band, for its popover. */
  worstEnd: 'low' | 'high';
  distortions: readonly CascadeDistortion[];
  mer: MerEstimate | null;
  count: number;
  /** The row with the least in hand; null where no limit can be held against a figure. */
  tightest: NoiseRow | null;
}>;

/** The symbol rate of a QAM order; an order that is neither is taken as wide as 256-QAM. */
const symbolRateOf = (order: number): number => (order === 64 ? J83B_64_QAM_MSYM : J83B_256_QAM_MSYM);

function row(
  key: NoiseKey,
  ownDb: number | null,
  cascadeDb: number | null,
  limit: NoiseLimit | null,
  missing: Refusal | null,
): NoiseRow {
  const hand = limit === null || cascadeDb === null ? null : inHandDb(limit, cascadeDb);
  const doubtDb = sheetDoubtDb(key);
  const decided = hand === null ? 'unknown' : hand >= 0 ? 'pass' : 'fail';
  const verdict = hand !== null && Math.abs(hand) < doubtDb ? 'undecided' : decided;
  return { key, ownDb, cascadeDb, limit, inHandDb: hand, verdict, doubtDb, missing };
}

/**
 * Noise and distortion of the last station of a cascade and of the cascade, each figure held against its limit.
 * @param cascade  from the source to the station; its last member is the station
 * @param carried  by which rules it is judged
 * @returns  a row for each figure that the data sheets tell of, carrier to noise first, MER last where QAM is carried
 * @source   see `cascadeCnr`, `cascadeDistortion`, `merEstimate`, `cnrLimit`, `distortionLimit`, `merLimit`, `sheetDoubtDb`
 */
export function noiseReport(cascade: Cascade, carried: Carried): NoiseReport {
  const last = cascade.members.at(-1);
  const own = last === undefined || 'missing' in last ? null : last;
  const ownCnr = own !== null && 'lowDb' in own.cnr ? own.cnr : null;
  const ownDb = ownCnr === null ? null : Math.min(ownCnr.lowDb, ownCnr.highDb);
  const cnr = cascadeCnr(cascade);
  const rows = [
    row(
      'cnr',
      ownDb,
      cnr.ok ? cnr.value.worstDb : null,
      cnrLimit(carried.judgedAs),
      cnr.ok ? null : own !== null && !('lowDb' in own.cnr) ? own.cnr : cnr,
    ),
  ];
  const distortions: CascadeDistortion[] = [];
  for (const kind of ['ctb', 'cso', 'xmod'] as const) {
    const alone = own?.distortions.find((one) => one.kind === kind)?.valueDbc ?? null;
    const all = cascadeDistortion(cascade, kind);
    // Cross modulation is on few data sheets; without one nothing is said of it.
    if (kind === 'xmod' && alone === null) continue;
    if (all.ok) distortions.push(all.value);
    rows.push(
      row(
        kind,
        alone,
        all.ok ? all.value.valueDbc : null,
        distortionLimit(carried.judgedAs, kind, carried.coherence),
        all.ok ? null : all,
      ),
    );
  }
  const mer = cnr.ok ? merBehind(cnr.value.worstDb, cascade, carried, distortions) : null;
  if (carried.qam !== null) {
    const alone = ownDb === null ? null : merBehind(ownDb, null, carried, []);
    rows.push(
      row('mer', alone?.merDb ?? null, mer?.merDb ?? null, merLimit(carried.qam.order), cnr.ok ? null : cnr),
    );
  }
  const judged = rows.filter((one) => one.inHandDb !== null);
  return {
    ...{ rows, own, distortions, mer },
    worstEnd: cnr.ok ? cnr.value.worstEnd : ownCnr !== null && ownCnr.highDb < ownCnr.lowDb ? 'high' : 'low',
    count: cascade.members.length + cascade.alikeAhead,
    tightest: judged.reduce<NoiseRow | null>(
      (least, one) => (least === null || (one.inHandDb ?? 0) < (least.inHandDb ?? 0) ? one : least),
      null,
    ),
  };
}

/** Distortion of many digital signals looks like noise: it is added as if it were. */
function merBehind(
  cnrDb: number,
  cascade: Cascade | null,
  { qam, bandwidthMhz }: Carried,
  distortions: readonly CascadeDistortion[],
): MerEstimate | null {
  if (qam === null) return null;
  const modulator = cascade?.source?.merDb;
  const estimate = merEstimate({
    ...{ cnrDb, cnrBandwidthMhz: bandwidthMhz, levelOffsetDb: qam.offsetDb },
    symbolRateMsym: symbolRateOf(qam.order),
    otherRatiosDb: [
      ...(modulator === undefined ? [] : [modulator]),
      ...distortions.filter(({ kind }) => kind !== 'xmod').map(({ valueDbc }) => -valueDbc),
    ],
  });
  return estimate.ok ? estimate.value : null;
}
