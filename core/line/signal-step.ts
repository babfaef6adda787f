import type { FitErrors } from '../uncertainty/fit-errors.ts';
import type { ChosenSignals, RowChoice } from './choose-rows.ts';
import { positionsOf } from './position.ts';
import type { UsableRow } from './usable-rows.ts';

/** How far one kind of signal is carried from another, as the sweep itself shows it. */
export type SignalStep = Readonly<{
  kind: 'signal-step';
  text: string;
  /** "64-QAM" ... measured against `reference`, "256-QAM". */
  signal: string;
  reference: string;
  /** dB: level of the signal less that of the reference, at one frequency. Usual: common practice. */
  stepDb: number;
  usualDb: number;
  /** Standard error of stepDb; null where it was not measured and the usual step was taken. */
  standardErrorDb: number | null;
  count: number;
}>;
export type Joined = Readonly<{
  /** dBmV, one a row: on the line of the reference. */
  levelDbmv: Float64Array;
  findings: readonly SignalStep[];
  /** Of the reference's line, with what the steps leave open; null where too few rows are left to tell, or no place. */
  errors: FitErrors | null;
}>;

/** Fewer rows than this cannot show a step. */
const FEWEST_ROWS = 3;
/** A step more uncertain than this says less than the usual one. */
const MOST_ERROR_DB = 0.75;

const db = (valueDb: number): string => Math.abs(valueDb).toFixed(1);
const side = (stepDb: number): string => (stepDb <= 0 ? 'below' : 'above');
const rows = (count: number): string => (count === 1 ? '1 row' : `${count} rows`);

/**
 * Joins rows of several kinds of signal by the step that the sweep itself shows: one slope for all, a level of its own
 * for each kind, least squares.
 * @param used     rows in rising MHz, levels in dBmV already moved by the usual steps
 * @param signals  their groups, as chooseRows made them
 * @param choice   shape (linear), low and high in MHz (lowest and highest row): where the errors are told
 * @returns  the levels moved on to the measured step, a finding for each kind but the reference, and the standard errors of
 *           the line that least squares puts through all of them. A kind with fewer than three rows, or whose step is
 *           uncertain by more than 0.75 dB (standard error), keeps its usual step
 * @source   N. R. Draper, H. Smith, Applied Regression Analysis, ch. 14: parallel lines by least squares; the two limits
 *           are common practice, no published source
 */
export function joinSignals(used: readonly UsableRow[], signals: ChosenSignals, choice: RowChoice): Joined {
  const { groups, groupAt } = signals;
  const reference = groups.findIndex(({ name }) => name === signals.reference);
  const counts = groups.map(() => 0);
  for (const at of groupAt) counts[at] = (counts[at] ?? 0) + 1;
  const lowMhz = choice.lowMhz ?? used[0]?.frequencyMhz ?? 0;
  const highMhz = choice.highMhz ?? used.at(-1)?.frequencyMhz ?? 0;
  const hasPlace = Math.sqrt(lowMhz) < Math.sqrt(highMhz);
  const isOpen = groups.map((_, at) => at !== reference && (counts[at] ?? 0) >= FEWEST_ROWS && hasPlace);
  const position = hasPlace ? positionsOf(used, choice.shape ?? 'linear', lowMhz, highMhz) : NO_PLACE;
  // A step that turns out too uncertain is given up, and the others are measured anew.
  let measured = stepsOf(used, position, groupAt, isOpen);
  for (let at = 0; at < groups.length; at++) {
    const { steps } = measured;
    const worst = steps.reduce(
      (most, step, i) => ((step?.errorDb ?? 0) > (steps[most]?.errorDb ?? 0) ? i : most),
      0,
    );
    if ((steps[worst]?.errorDb ?? 0) <= MOST_ERROR_DB) break;
    isOpen[worst] = false;
    measured = stepsOf(used, position, groupAt, isOpen);
  }
  const findings = groups.flatMap((group, at): SignalStep[] => {
    if (at === reference || counts[at] === 0) return [];
    const step = measured.steps[at] ?? null;
    const stepDb = group.offsetDb + (step?.stepDb ?? 0);
    const from = `${group.name} is carried ${db(stepDb)} dB ${side(stepDb)} ${signals.reference}`;
    const unknown = group.kind === null;
    const moved =
      stepDb === 0 ? '' : ` ${rows(counts[at] ?? 0)} moved by that onto the line of ${signals.reference}.`;
    return [
      {
        kind: 'signal-step',
        text:
          step === null
            ? `${group.name}: too few rows to tell its step from ${signals.reference}; ${unknown ? 'compared as it stands' : `the usual ${db(stepDb)} dB taken`}.${moved}`
            : `${from}${unknown ? '' : `; usual is ${db(group.offsetDb)}${side(group.offsetDb) === side(stepDb) || group.offsetDb === 0 ? '' : ` ${side(group.offsetDb)}`}`}.${moved}`,
        signal: group.name,
        reference: signals.reference,
        stepDb,
        usualDb: group.offsetDb,
        standardErrorDb: step?.errorDb ?? null,
        count: counts[at] ?? 0,
      },
    ];
  });
  const furtherDb = measured.steps.map((step) => step?.stepDb ?? 0);
  const levelDbmv = new Float64Array(used.length);
  for (let i = 0; i < levelDbmv.length; i++)
    levelDbmv[i] = (used[i] as UsableRow).levelDbmv - (furtherDb[groupAt[i] as number] as number);
  return { levelDbmv, findings, errors: measured.errors };
}

type Step = Readonly<{ stepDb: number; errorDb: number }>;
type Steps = Readonly<{ steps: readonly (Step | null)[]; errors: FitErrors | null }>;

const NO_PLACE = new Float64Array(0);

/** Level of each open group less that of all the others together, at one place; null where that can't be told. */
function stepsOf(
  used: readonly UsableRow[],
  position: Float64Array,
  groupAt: Int32Array,
  isOpen: readonly boolean[],
): Steps {
  const none: Steps = { steps: isOpen.map(() => null), errors: null };
  // The reference and all that are not measured are one body of rows, and the first.
  const bodyOf = isOpen.map((open, group) => (open ? group + 1 : 0));
  const body = (i: number): number => bodyOf[groupAt[i] as number] as number;
  const size = isOpen.length + 1;
  const [n, meanX, meanL] = [new Float64Array(size), new Float64Array(size), new Float64Array(size)];
  for (let i = 0; i < position.length; i++) {
    const at = body(i);
    n[at] = (n[at] as number) + 1;
    meanX[at] = (meanX[at] as number) + (position[i] as number);
    meanL[at] = (meanL[at] as number) + (used[i] as UsableRow).levelDbmv;
  }
  for (let at = 0; at < size; at++) {
    meanX[at] = (meanX[at] as number) / (n[at] as number);
    meanL[at] = (meanL[at] as number) / (n[at] as number);
  }
  let sxx = 0;
  let sxl = 0;
  for (let i = 0; i < position.length; i++) {
    const at = body(i);
    const x = (position[i] as number) - (meanX[at] as number);
    const level = (used[i] as UsableRow).levelDbmv - (meanL[at] as number);
    sxx += x * x;
    sxl += x * level;
  }
  const bodies = n.filter((count) => count > 0).length;
  const freedom = position.length - bodies - 1;
  const [firstRows, firstX, firstL] = [n[0] as number, meanX[0] as number, meanL[0] as number];
  if (!(sxx > 0) || freedom < 1 || !(firstRows > 0)) return none;
  const tiltDb = sxl / sxx;
  let squares = 0;
  for (let i = 0; i < position.length; i++) {
    const at = body(i);
    const lineDbmv = (meanL[at] as number) + tiltDb * ((position[i] as number) - (meanX[at] as number));
    squares += ((used[i] as UsableRow).levelDbmv - lineDbmv) ** 2;
  }
  const scatterDb = Math.sqrt(squares / freedom);
  const steps = isOpen.map((open, group): Step | null => {
    const at = group + 1;
    const rowCount = n[at] as number;
    if (!open || !(rowCount > 0)) return null;
    const betweenX = (meanX[at] as number) - firstX;
    const stepDb = (meanL[at] as number) - firstL - tiltDb * betweenX;
    const errorDb = scatterDb * Math.sqrt(1 / rowCount + 1 / firstRows + betweenX ** 2 / sxx);
    return Number.isFinite(stepDb) && Number.isFinite(errorDb) ? { stepDb, errorDb } : null;
  });
  const errorAt = (x: number): number => scatterDb * Math.sqrt(1 / firstRows + (x - firstX) ** 2 / sxx);
  const errors = { lowDb: errorAt(0), highDb: errorAt(1), tiltDb: scatterDb / Math.sqrt(sxx), scatterDb };
  return { steps, errors: Object.values(errors).every(Number.isFinite) ? errors : null };
}
