import type { Unfit } from '../checked.ts';
import type { SourceNotes } from '../files/station-figures.ts';
import { done, type Refusal, type Result, refuse } from '../result.ts';
import { cnrOfAlikeDb, cnrOfUnlikeDb } from './cascade.ts';
import {
  type AddingLaw,
  addingLaws,
  type Distortion,
  distortionOfAlikeDbc,
  distortionOfUnlikeDbc,
} from './distortion.ts';
import type { StationNoise } from './station-noise.ts';

export type CascadeNoise = Readonly<{
  /** Stations that were counted, those alike among them. */
  count: number;
  lowDb: number;
  highDb: number;
  /** The worse end, and the source's share in it. */
  worstDb: number;
  worstEnd: 'low' | 'high';
}>;
export type CascadeDistortion = Readonly<{
  kind: Distortion;
  law: AddingLaw;
  valueDbc: number;
  /** By the other law that is in use; null where there is one law only. */
  other: Readonly<{ law: AddingLaw; valueDbc: number }> | null;
}>;
/** A part that can't be told: whose figure is missing. */
export type CascadeGap = Refusal<'figures-missing'>;

/** A cascade from its source to the station that is looked at. */
export type Cascade = Readonly<{
  source: SourceNotes | null;
  /** So many stations like the first one stand in front of it. */
  alikeAhead: number;
  /** The first station first. Null: nobody entered its figures; its name is told. */
  members: readonly (StationNoise | Readonly<{ name: string; missing: true }>)[];
}>;

const isMissing = (member: Cascade['members'][number]): member is Readonly<{ name: string; missing: true }> =>
  'missing' in member;

const gap = (what: string, names: readonly string[]): CascadeGap =>
  refuse('figures-missing', what, `not told for ${names.join(', ')}; enter it there`);

/**
 * Carrier to noise behind a whole cascade: source, stations alike ahead, each station.
 * @returns  dB at both ends of the design, or a refusal that names the stations whose figures are missing
 * @source   see `cnrOfAlikeDb`, `cnrOfUnlikeDb`
 */
export function cascadeCnr(cascade: Cascade): Result<CascadeNoise, Unfit | 'figures-missing'> {
  const { members, alikeAhead, source } = cascade;
  const without = members.filter((member) => isMissing(member) || !('lowDb' in member.cnr));
  if (members.length === 0 || without.length > 0)
    return gap(
      'carrier to noise',
      without.map(({ name }) => name),
    );
  const at = (end: 'lowDb' | 'highDb'): Result<number, Unfit> => {
    const each: number[] = source?.cnrDb === undefined ? [] : [source.cnrDb];
    for (const [i, member] of members.entries()) {
      if (isMissing(member) || !('lowDb' in member.cnr)) continue;
      const own = cnrOfAlikeDb(member.cnr[end], i === 0 ? alikeAhead + 1 : 1);
      if (!own.ok) return own;
      each.push(own.value);
    }
    return cnrOfUnlikeDb(each);
  };
  const low = at('lowDb');
  if (!low.ok) return low;
  const high = at('highDb');
  if (!high.ok) return high;
  return done({
    count: members.length + alikeAhead,
    lowDb: low.value,
    highDb: high.value,
    worstDb: Math.min(low.value, high.value),
    worstEnd: low.value <= high.value ? 'low' : 'high',
  });
}

const SOURCE_KEY = { ctb: 'ctbDbc', cso: 'csoDbc' } as const;

/**
 * A distortion behind a whole cascade.
 * @returns  dBc by the law that is taken first, and by the other one where two are in use; or a refusal that names the
 *           stations without a rating
 * @source   see `addingLaws`
 */
export function cascadeDistortion(
  cascade: Cascade,
  kind: Distortion,
): Result<CascadeDistortion, Unfit | 'no-such-law' | 'figures-missing'> {
  const { members, alikeAhead, source } = cascade;
  const own = (member: Cascade['members'][number]) =>
    isMissing(member) ? undefined : member.distortions.find((one) => one.kind === kind)?.valueDbc;
  const without = members.filter((member) => own(member) === undefined);
  if (members.length === 0 || without.length > 0)
    return gap(
      kind.toUpperCase(),
      without.map(({ name }) => name),
    );
  const fromSource = kind === 'xmod' ? undefined : source?.[SOURCE_KEY[kind]];
  const by = (law: AddingLaw): Result<number, Unfit | 'no-such-law'> => {
    const each: number[] = fromSource === undefined ? [] : [fromSource];
    for (const [i, member] of members.entries()) {
      const alike = distortionOfAlikeDbc(kind, own(member) ?? 0, i === 0 ? alikeAhead + 1 : 1, law);
      if (!alike.ok) return alike;
      // Beyond all use is beyond all use: no ratio above the carrier is added on.
      each.push(Math.min(0, alike.value));
    }
    return distortionOfUnlikeDbc(kind, each, law);
  };
  const [first, second] = addingLaws(kind);
  const value = by(first);
  if (!value.ok) return value;
  const other = second === undefined ? null : by(second);
  return done({
    ...{ kind, law: first, valueDbc: value.value },
    other: other?.ok === true && second !== undefined ? { law: second, valueDbc: other.value } : null,
  });
}
