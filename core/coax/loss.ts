import { type Allowed, FREQUENCY, type Unfit, unfit } from '../checked.ts';
import { done, type Result, refuse } from '../result.ts';
import { CABLES, type Cable, type CableBasis, type LossTable } from './cables.ts';

/** Where two terms describe foam hardline: the return band's beginning to the highest forward band. */
const TWO_TERM: Allowed = { unit: 'MHz', from: 5, to: 1218 };

export type CableLoss = Readonly<{
  /** dB in 100 ft at 20 degrees C. */
  per100FtDb: number;
  /** On whose word: the table that was fitted or interpolated. */
  basis: CableBasis;
  model: 'two-term' | 'interpolated';
  /** True where two terms were carried on past the first or the last point of their table. Drop cable never is. */
  beyondTable: boolean;
}>;

/**
 * A cable by its name.
 * @param name  as in CABLES, ".750" or "RG-6"
 * @returns  the cable, or a refusal that lists the names
 * @source   see CABLES
 */
export function cableNamed(name: string): Result<Cable, 'no-such-cable'> {
  const found = CABLES.find((cable) => cable.name === name);
  return found === undefined
    ? refuse(
        'no-such-cable',
        `cable "${name}"`,
        `choose one of ${CABLES.map((cable) => cable.name).join(', ')}`,
      )
    : done(found);
}

function tableOf(cable: Cable, basis: CableBasis): LossTable {
  const table = cable.tables.find((one) => one.basis === basis);
  if (table === undefined) throw new RangeError(`${cable.name} has no table "${basis}"`);
  return table;
}

/** The points of a table as pairs, so that no index can miss. */
const pointsOf = (table: LossTable) =>
  table.frequenciesMhz.map((mhz, i) => ({ mhz, db: table.per100FtDb[i] ?? Number.NaN }));

/** Straight in sqrt f between two points, because that is how the loss of a conductor goes. */
function betweenPoints(table: LossTable, frequencyMhz: number): number | null {
  const points = pointsOf(table);
  let left = points[0];
  for (const right of points) {
    if (left === undefined || frequencyMhz < left.mhz) return null;
    if (frequencyMhz <= right.mhz) {
      if (right.mhz === left.mhz) return right.db;
      const way =
        (Math.sqrt(frequencyMhz) - Math.sqrt(left.mhz)) / (Math.sqrt(right.mhz) - Math.sqrt(left.mhz));
      return left.db + way * (right.db - left.db);
    }
    left = right;
  }
  return null;
}

/**
 * What 100 ft of a cable lose at 20 degrees C.
 * @param frequencyMhz  MHz; 5 to 1218 for hardline, within its table for drop cable
 * @returns  dB in 100 ft with its basis, which is never a manufacturer's; or a refusal outside what is known. Drop cable
 *           with a centre of copper-clad steel is interpolated (straight in sqrt f) and never carried on.
 * @throws   RangeError when a cable names a table that it does not have
 * @source   two terms for foam hardline: fit to public and remembered tables (see CABLES); scaling by sqrt f:
 *           cabl.com "CATV Formulas"
 */
export function lossPer100FtDb(
  cable: Cable,
  frequencyMhz: number,
): Result<CableLoss, Unfit | 'outside-table'> {
  const { model } = cable;
  switch (model.kind) {
    case 'two-term': {
      const wrong = unfit([[`${cable.name}: frequency`, frequencyMhz, TWO_TERM]]);
      if (wrong !== null) return wrong;
      const { frequenciesMhz } = tableOf(cable, model.fittedTo);
      return done({
        per100FtDb: model.k1 * Math.sqrt(frequencyMhz) + model.k2 * frequencyMhz,
        basis: model.fittedTo,
        model: 'two-term',
        beyondTable: frequencyMhz < Math.min(...frequenciesMhz) || frequencyMhz > Math.max(...frequenciesMhz),
      });
    }
    case 'interpolated': {
      const wrong = unfit([[`${cable.name}: frequency`, frequencyMhz, FREQUENCY]]);
      if (wrong !== null) return wrong;
      const table = tableOf(cable, model.from);
      const per100FtDb = betweenPoints(table, frequencyMhz);
      return per100FtDb === null
        ? refuse(
            'outside-table',
            `${cable.name} at ${frequencyMhz} MHz`,
            `its table goes from ${Math.min(...table.frequenciesMhz)} to ${Math.max(...table.frequenciesMhz)} MHz, and drop cable is not carried on beyond it`,
          )
        : done({ per100FtDb, basis: model.from, model: 'interpolated', beyondTable: false });
    }
  }
}
