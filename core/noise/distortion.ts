import { type Allowed, RATIO, type Unfit, unfit, unfitCount } from '../checked.ts';
import { done, type Result, refuse } from '../result.ts';

/** Composite triple beat, cross modulation, composite second order. */
export type Distortion = 'ctb' | 'xmod' | 'cso';

export type AddingLaw = Readonly<{
  /** Ratios add as `times` log: 20 is voltages in step, 10 is powers, 15 lies between. */
  times: 10 | 15 | 20;
  source: string;
}>;

const VOLTAGE: AddingLaw = { times: 20, source: '20 log, on a voltage basis: cabl.com "CATV Formulas"' };
/** The second order's laws: both are in use. */
export const CSO_BETWEEN: AddingLaw = { times: 15, source: '15 log: common practice, from memory' };
export const CSO_POWER: AddingLaw = { times: 10, source: '10 log: cabl.com "CATV Formulas"' };

/**
 * The laws by which a distortion adds along a cascade, the one that is taken first in front.
 * @returns  one for CTB and XMOD, two for CSO
 * @source   cabl.com "CATV Formulas" (CTB and XMOD 20 log, second order 10 log); CSO 15 log from memory
 */
export function addingLaws(kind: Distortion): readonly [AddingLaw, ...AddingLaw[]] {
  switch (kind) {
    case 'ctb':
    case 'xmod':
      return [VOLTAGE];
    case 'cso':
      return [CSO_BETWEEN, CSO_POWER];
  }
}

/** Distortion against the carrier. A positive figure is a slip of the sign, or an amplifier that is broken. */
const BELOW_CARRIER: Allowed = { unit: 'dBc', from: -200, to: 0 };

const unfitLaw = (kind: Distortion, law: AddingLaw) =>
  addingLaws(kind).some((one) => one.times === law.times)
    ? null
    : refuse(
        'no-such-law',
        `${law.times} log for ${kind.toUpperCase()}`,
        `choose ${addingLaws(kind)
          .map((one) => `${one.times} log`)
          .join(' or ')}`,
      );

/**
 * A distortion behind so many stations alike.
 * @param oneDbc  dBc of one station, 0 or below (-70, not 70)
 * @param count   stations, 1 or more, whole
 * @param law     see `addingLaws`; its first when left out
 * @returns  dBc, above 0 where the cascade is beyond all use; or a refusal
 * @source   see `addingLaws`: each law names its own
 */
export function distortionOfAlikeDbc(
  kind: Distortion,
  oneDbc: number,
  count: number,
  law: AddingLaw = addingLaws(kind)[0],
): Result<number, Unfit | 'no-such-law'> {
  const wrong =
    unfit([[kind.toUpperCase(), oneDbc, BELOW_CARRIER]]) ??
    unfitCount('stations', count) ??
    unfitLaw(kind, law);
  return wrong ?? done(oneDbc + law.times * Math.log10(count));
}

/**
 * A distortion behind unlike stations.
 * @param eachDbc  dBc of each, 0 or below; one or more
 * @param law      see `addingLaws`; its first when left out
 * @returns  dBc, or a refusal
 * @source   20 log sum 10^(x/20) for CTB and XMOD: cabl.com "CATV Formulas"; the same form for the laws of CSO
 */
export function distortionOfUnlikeDbc(
  kind: Distortion,
  eachDbc: readonly number[],
  law: AddingLaw = addingLaws(kind)[0],
): Result<number, Unfit | 'no-such-law'> {
  if (eachDbc.length === 0) return refuse('out-of-range', '0 stations', 'give one station or more');
  const wrong =
    unfit(eachDbc.map((dbc, i) => [`${kind.toUpperCase()} of station ${i + 1}`, dbc, BELOW_CARRIER])) ??
    unfitLaw(kind, law);
  if (wrong !== null) return wrong;
  return done(law.times * Math.log10(eachDbc.reduce((sum, dbc) => sum + 10 ** (dbc / law.times), 0)));
}

/** dB of distortion against the carrier for each dB of output level. */
const PER_DB: Readonly<Record<Distortion, number>> = { ctb: 2, xmod: 2, cso: 1 };

/**
 * A distortion at another output level, as long as the amplifier does not compress.
 * @param dbc       dBc at the level where it is known, 0 or below
 * @param changeDb  new output level less the known one, dB
 * @returns  dBc, worse by 2 dB a dB (CTB, XMOD) or 1 dB a dB (CSO); or a refusal
 * @source   2 dB a dB: cabl.com "CATV Formulas"; 1 dB a dB for CSO from memory
 */
export function distortionAtLevelDbc(kind: Distortion, dbc: number, changeDb: number): Result<number, Unfit> {
  const wrong = unfit([
    [kind.toUpperCase(), dbc, BELOW_CARRIER],
    ['change of level', changeDb, RATIO],
  ]);
  return wrong ?? done(dbc + PER_DB[kind] * changeDb);
}
