import type { Design, PluggedIn, Port, Position, Station } from '../files/station.ts';
import type { Trim } from '../files/station-notes.ts';
import { targetDbmv } from '../line/design-line.ts';
import { fitLine } from '../line/fit-line.ts';
import { positionOf } from '../line/position.ts';
import { residualsOf } from '../line/residuals.ts';
import type { UsableRow } from '../line/usable-rows.ts';
import { lossDb } from '../plug-ins/loss.ts';
import type { Result } from '../result.ts';
import { type Stock, scarceParts, valuesAtHand } from './stock.ts';
import { type TrimMove, trimmed } from './trims.ts';

/** A position that may be changed, with what each of its candidates does. */
export type FreePosition = Readonly<{
  name: string;
  kind: Position['kind'];
  /** dB, rising; what is plugged in now is always among them. */
  valuesDb: readonly number[];
  nowIndex: number;
  /** Per candidate the loss at each used row, as often as the port's path passes here; zeros where it doesn't. */
  pathLossDb: readonly Float64Array[];
  /** Per candidate the loss at the stage input's frequency; zeros where that limit is not applied. */
  inputLossDb: readonly number[];
  /** Per candidate how many of each scarce part it takes or gives back; only where a stock is given. */
  use?: readonly (readonly number[])[];
}>;

/** Everything that the search needs, in numbers. */
export type Objective = Readonly<{
  design: Design;
  used: readonly UsableRow[];
  pluggedIn: PluggedIn;
  /** Level less target at each used row, as if no free position took anything away. */
  bareDb: Float64Array;
  free: readonly FreePosition[];
  /** How many there are of each part that may run short; left out where no stock is given. */
  counts?: readonly number[];
}>;

/** One combination, and what the port will look like with it. */
export type Choice = Readonly<{
  values: Readonly<Record<string, number>>;
  changes: readonly Readonly<{ position: string; from: number; to: number }>[];
  worstDb: number;
  flatnessDb: number;
  fit: Readonly<{ lowDbmv: number; highDbmv: number; tiltDb: number }>;
  /** Trims to turn once the plug-ins are in, and what the port will look like then; only where they buy something. */
  withTrims?: Readonly<{
    moves: readonly TrimMove[];
    worstDb: number;
    flatnessDb: number;
    fit: Readonly<{ lowDbmv: number; highDbmv: number; tiltDb: number }>;
  }>;
}>;

/** The stage input's frequency and path, where that limit is applied. */
export type InputPath = Readonly<{ through: readonly string[]; atMhz: number }>;

const timesIn = (through: readonly string[], name: string): number =>
  through.filter((named) => named === name).length;

/**
 * Turns a sweep and a station into the numbers of the search.
 * @param used       rows in rising MHz, dBmV at the port
 * @param port       the port that was read; `design` is its design line
 * @param pluggedIn  what is in now: every position's name to dB
 * @param input      the stage input's path where its limit is applied, else null
 * @param stock      parts at hand, by partKey; null when any number of each is
 * @returns  deviations and losses in dB; positions neither on the port's path nor on the input's are left as they are
 * @throws   RangeError when a position has no value in pluggedIn
 * @source   contract, section 3, "propose, exactly"
 */
export function objectiveOf(
  used: readonly UsableRow[],
  station: Station,
  port: Port,
  design: Design,
  pluggedIn: PluggedIn,
  input: InputPath | null,
  stock: Stock | null = null,
): Objective {
  const bareDb = Float64Array.from(used, (row) => row.levelDbmv - targetDbmv(design, row.frequencyMhz));
  const free: FreePosition[] = [];
  const mayChange = station.positions.filter(
    ({ name }) => timesIn(port.through, name) > 0 || (input !== null && timesIn(input.through, name) > 0),
  );
  for (const position of mayChange) {
    const onPath = timesIn(port.through, position.name);
    const onInput = input === null ? 0 : timesIn(input.through, position.name);
    const nowDb = pluggedIn[position.name];
    if (nowDb === undefined)
      throw new RangeError(`nothing is known of what is plugged in at "${position.name}"`);
    const listedDb = [...new Set([...position.values, nowDb])].sort((a, b) => a - b);
    const valuesDb =
      stock === null ? listedDb : valuesAtHand(position, listedDb, mayChange, pluggedIn, stock);
    const nowIndex = valuesDb.indexOf(nowDb);
    const pathLossDb = valuesDb.map((valueDb) => {
      const losses = new Float64Array(used.length);
      if (onPath === 0) return losses;
      for (let i = 0; i < used.length; i++)
        losses[i] = onPath * lossDb(position, valueDb, used[i]?.frequencyMhz ?? 0);
      return losses;
    });
    const inputLossDb = valuesDb.map((valueDb) =>
      input === null || onInput === 0 ? 0 : onInput * lossDb(position, valueDb, input.atMhz),
    );
    const now = pathLossDb[nowIndex] ?? new Float64Array(used.length);
    for (let i = 0; i < bareDb.length; i++) bareDb[i] = (bareDb[i] ?? 0) + (now[i] ?? 0);
    free.push({ name: position.name, kind: position.kind, valuesDb, nowIndex, pathLossDb, inputLossDb });
  }
  if (stock === null) return { design, used, pluggedIn, bareDb, free };
  const wanted = mayChange.map((position, p) => ({
    position,
    valuesDb: free[p]?.valuesDb ?? [],
    nowDb: pluggedIn[position.name] ?? 0,
  }));
  const { counts, uses } = scarceParts(wanted, stock);
  if (counts.length === 0) return { design, used, pluggedIn, bareDb, free };
  return {
    design,
    used,
    pluggedIn,
    bareDb,
    counts,
    free: free.map((one, p) => ({ ...one, use: uses[p] ?? [] })),
  };
}

/**
 * Level less target at each used row with one combination, reckoned from the rows themselves.
 * @param indices  a candidate's index for each free position, in their order
 * @returns  dB
 * @throws   RangeError when an index names no candidate
 * @source   contract, section 3, "propose, exactly"
 */
export function offOf(objective: Objective, indices: readonly number[]): Float64Array {
  const offDb = objective.bareDb.slice();
  objective.free.forEach((position, p) => {
    const losses = position.pathLossDb[indices[p] ?? -1];
    if (losses === undefined) throw new RangeError(`no candidate ${indices[p]} at "${position.name}"`);
    for (let i = 0; i < offDb.length; i++) offDb[i] = (offDb[i] ?? 0) - (losses[i] ?? 0);
  });
  return offDb;
}

/** Worst channel, flatness and line of what a port gives. */
export type Looks = Pick<Choice, 'worstDb' | 'flatnessDb' | 'fit'>;

/**
 * What the port looks like from its deviations.
 * @param offDb  level less target at each used row, dB
 * @returns  worst |off| (dB), flatness (dB) and line (dBmV, dB) of the rows; refused when no line can be fitted
 * @source   contract, section 3, "propose, exactly" and "fit, exactly"
 */
function looksOf(
  { design, used }: Objective,
  offDb: Float64Array,
): Result<Looks, 'too-few' | 'one-frequency' | 'not-finite'> {
  const place: number[] = [];
  const afterDbmv: number[] = [];
  let worstDb = 0;
  for (let i = 0; i < used.length; i++) {
    const x = positionOf(used[i]?.frequencyMhz ?? 0, design.shape, design.lowMhz, design.highMhz);
    const off = offDb[i] ?? 0;
    place.push(x);
    afterDbmv.push(off + design.lowDbmv + (design.highDbmv - design.lowDbmv) * x);
    worstDb = Math.max(worstDb, Math.abs(off));
  }
  const line = fitLine(place, afterDbmv);
  if (!line.ok) return line;
  const { lowDbmv, tiltDb } = line.value;
  const { flatnessDb } = residualsOf(line.value, place, afterDbmv);
  return { ok: true, value: { worstDb, flatnessDb, fit: { lowDbmv, highDbmv: lowDbmv + tiltDb, tiltDb } } };
}

/**
 * What one combination does, and what the trims can still do after it.
 * @param objective  as objectiveOf made it
 * @param indices    a candidate's index for each free position, in their order
 * @param trims      those that move this port
 * @returns  values and changes, worst |after - target| (dB), flatness (dB) and line (dBmV, dB) of the rows after; refused
 *           when no line can be fitted
 * @throws   RangeError when an index names no candidate
 * @source   contract, section 3, "propose, exactly" and "fit, exactly"
 */
export function choiceOf(
  objective: Objective,
  indices: readonly number[],
  trims: readonly Trim[] = [],
): Result<Choice, 'too-few' | 'one-frequency' | 'not-finite'> {
  const offDb = offOf(objective, indices);
  const looks = looksOf(objective, offDb);
  if (!looks.ok) return looks;
  const values: Record<string, number> = { ...objective.pluggedIn };
  const changes: { position: string; from: number; to: number }[] = [];
  objective.free.forEach((position, p) => {
    const index = indices[p] ?? -1;
    const to = position.valuesDb[index];
    const from = position.valuesDb[position.nowIndex];
    if (to === undefined || from === undefined)
      throw new RangeError(`no candidate ${index} at "${position.name}"`);
    values[position.name] = to;
    if (index !== position.nowIndex) changes.push({ position: position.name, from, to });
  });
  const choice: Choice = { values, changes, ...looks.value };
  if (trims.length === 0) return { ok: true, value: choice };
  const frequenciesMhz = objective.used.map(({ frequencyMhz }) => frequencyMhz);
  const turned = trimmed(offDb, frequenciesMhz, objective.design, trims);
  const then = turned === null ? null : looksOf(objective, turned.offDb);
  if (turned === null || then?.ok !== true) return { ok: true, value: choice };
  return { ok: true, value: { ...choice, withTrims: { moves: turned.moves, ...then.value } } };
}
