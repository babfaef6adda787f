import type { Design, PluggedIn, Port, Position, Station } from '../files/station.ts';
import { targetDbmv } from '../line/design-line.ts';
import { fitLine } from '../line/fit-line.ts';
import { positionOf } from '../line/position.ts';
import { residualsOf } from '../line/residuals.ts';
import type { UsableRow } from '../line/usable-rows.ts';
import { lossDb } from '../plug-ins/loss.ts';
import type { Result } from '../result.ts';

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
}>;

/** Everything that the search needs, in numbers. */
export type Objective = Readonly<{
  design: Design;
  used: readonly UsableRow[];
  pluggedIn: PluggedIn;
  /** Level less target at each used row, as if no free position took anything away. */
  bareDb: Float64Array;
  free: readonly FreePosition[];
}>;

/** One combination, and what the port will look like with it. */
export type Choice = Readonly<{
  values: Readonly<Record<string, number>>;
  changes: readonly Readonly<{ position: string; from: number; to: number }>[];
  worstDb: number;
  flatnessDb: number;
  fit: Readonly<{ lowDbmv: number; highDbmv: number; tiltDb: number }>;
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
): Objective {
  const bareDb = Float64Array.from(used, (row) => row.levelDbmv - targetDbmv(design, row.frequencyMhz));
  const free: FreePosition[] = [];
  for (const position of station.positions) {
    const onPath = timesIn(port.through, position.name);
    const onInput = input === null ? 0 : timesIn(input.through, position.name);
    if (onPath === 0 && onInput === 0) continue;
    const nowDb = pluggedIn[position.name];
    if (nowDb === undefined)
      throw new RangeError(`nothing is known of what is plugged in at "${position.name}"`);
    const valuesDb = [...new Set([...position.values, nowDb])].sort((a, b) => a - b);
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
  return { design, used, pluggedIn, bareDb, free };
}

/**
 * What one combination does, reckoned from the rows themselves.
 * @param objective  as objectiveOf made it
 * @param indices    a candidate's index for each free position, in their order
 * @returns  values and changes, worst |after - target| (dB), flatness (dB) and line (dBmV, dB) of the rows after; refused
 *           when no line can be fitted
 * @throws   RangeError when an index names no candidate
 * @source   contract, section 3, "propose, exactly" and "fit, exactly"
 */
export function choiceOf(
  objective: Objective,
  indices: readonly number[],
): Result<Choice, 'too-few' | 'one-frequency' | 'not-finite'> {
  const { design, used, free, bareDb } = objective;
  const offDb = bareDb.slice();
  const values: Record<string, number> = { ...objective.pluggedIn };
  const changes: { position: string; from: number; to: number }[] = [];
  free.forEach((position, p) => {
    const index = indices[p] ?? -1;
    const losses = position.pathLossDb[index];
    const to = position.valuesDb[index];
    const from = position.valuesDb[position.nowIndex];
    if (losses === undefined || to === undefined || from === undefined)
      throw new RangeError(`no candidate ${index} at "${position.name}"`);
    values[position.name] = to;
    if (index !== position.nowIndex) changes.push({ position: position.name, from, to });
    for (let i = 0; i < offDb.length; i++) offDb[i] = (offDb[i] ?? 0) - (losses[i] ?? 0);
  });
  const place = used.map((row) => positionOf(row.frequencyMhz, design.shape, design.lowMhz, design.highMhz));
  const afterDbmv = used.map((row, i) => (offDb[i] ?? 0) + targetDbmv(design, row.frequencyMhz));
  const line = fitLine(place, afterDbmv);
  if (!line.ok) return line;
  const { lowDbmv, tiltDb } = line.value;
  return {
    ok: true,
    value: {
      values,
      changes,
      worstDb: offDb.reduce((worst, off) => Math.max(worst, Math.abs(off)), 0),
      flatnessDb: residualsOf(line.value, place, afterDbmv).flatnessDb,
      fit: { lowDbmv, highDbmv: lowDbmv + tiltDb, tiltDb },
    },
  };
}
