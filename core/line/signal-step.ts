import type { ChosenSignals } from './choose-rows.ts';
import { positionsOf, type Shape } from './position.ts';
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
export type Joined = Readonly<{ used: readonly UsableRow[]; findings: readonly SignalStep[] }>;

/** Fewer rows than this cannot show a step. */
const FEWEST_ROWS = 3;
/** A step more uncertain than this says less than the usual one. */
const MOST_ERROR_DB = 0.75;

const db = (valueDb: number): string => Math.abs(valueDb).toFixed(1);
const side = (stepDb: number): string => (stepDb <= 0 ? 'below' : 'above');

/**
 * Joins rows of several kinds of signal by the step that the sweep itself shows: one slope for all, a level of its own
 * for each kind, least squares.
 * @param used     rows in rising MHz, levels in dBmV already moved by the usual steps
 * @param signals  their groups, as chooseRows made them
 * @param shape    straight in f or in sqrt(f)
 * @returns  the rows moved on to the measured step, and a finding for each kind but the reference. A kind with fewer than
 *           three rows, or whose step is uncertain by more than 0.75 dB (standard error), keeps its usual step
 * @source   N. R. Draper, H. Smith, Applied Regression Analysis, ch. 14: parallel lines by least squares; the two limits
 *           are common practice, no published source
 */
export function joinSignals(used: readonly UsableRow[], signals: ChosenSignals, shape: Shape): Joined {
  const { groups, groupAt } = signals;
  const reference = groups.findIndex(({ name }) => name === signals.reference);
  const counts = groups.map(() => 0);
  for (const at of groupAt) counts[at] = (counts[at] ?? 0) + 1;
  const lowMhz = used[0]?.frequencyMhz ?? 0;
  const highMhz = used.at(-1)?.frequencyMhz ?? 0;
  const isOpen = groups.map(
    (_, at) => at !== reference && (counts[at] ?? 0) >= FEWEST_ROWS && lowMhz < highMhz,
  );
  const position = lowMhz < highMhz ? [...positionsOf(used, shape, lowMhz, highMhz)] : [];
  // A step that turns out too uncertain is given up, and the others are measured anew.
  let measured = stepsOf(used, position, groupAt, isOpen);
  for (let at = 0; at < groups.length; at++) {
    const worst = measured.reduce(
      (most, step, i) => ((step?.errorDb ?? 0) > (measured[most]?.errorDb ?? 0) ? i : most),
      0,
    );
    if ((measured[worst]?.errorDb ?? 0) <= MOST_ERROR_DB) break;
    isOpen[worst] = false;
    measured = stepsOf(used, position, groupAt, isOpen);
  }
  const findings = groups.flatMap((group, at): SignalStep[] => {
    if (at === reference || counts[at] === 0) return [];
    const step = measured[at] ?? null;
    const stepDb = group.offsetDb + (step?.stepDb ?? 0);
    const from = `${group.name} is carried ${db(stepDb)} dB ${side(stepDb)} ${signals.reference}`;
    const unknown = group.kind === null;
    return [
      {
        kind: 'signal-step',
        text:
          step === null
            ? `${group.name}: too few rows to tell its step from ${signals.reference}; ${unknown ? 'compared as it stands' : `the usual ${db(stepDb)} dB taken`}.`
            : `${from}${unknown ? '' : `; usual is ${db(group.offsetDb)}${side(group.offsetDb) === side(stepDb) || group.offsetDb === 0 ? '' : ` ${side(group.offsetDb)}`}`}.`,
        signal: group.name,
        reference: signals.reference,
        stepDb,
        usualDb: group.offsetDb,
        standardErrorDb: step?.errorDb ?? null,
        count: counts[at] ?? 0,
      },
    ];
  });
  const joined = used.map((row, i) => {
    const further = measured[groupAt[i] ?? 0]?.stepDb ?? 0;
    return further === 0 ? row : { ...row, levelDbmv: row.levelDbmv - further };
  });
  return { used: joined, findings };
}

type Step = Readonly<{ stepDb: number; errorDb: number }>;

/** Level of each open group less that of all the others together, at one place; null where that can't be told. */
function stepsOf(
  used: readonly UsableRow[],
  position: readonly number[],
  groupAt: Int32Array,
  isOpen: readonly boolean[],
): (Step | null)[] {
  const none = isOpen.map(() => null);
  const own = (i: number): number => {
    const at = groupAt[i] ?? 0;
    return isOpen[at] === true ? at + 1 : 0;
  };
  const size = isOpen.length + 1;
  const [n, meanX, meanL] = [new Float64Array(size), new Float64Array(size), new Float64Array(size)];
  position.forEach((x, i) => {
    const at = own(i);
    n[at] = (n[at] ?? 0) + 1;
    meanX[at] = (meanX[at] ?? 0) + x;
    meanL[at] = (meanL[at] ?? 0) + (used[i]?.levelDbmv ?? 0);
  });
  for (let at = 0; at < size; at++) {
    meanX[at] = (meanX[at] ?? 0) / (n[at] ?? 1);
    meanL[at] = (meanL[at] ?? 0) / (n[at] ?? 1);
  }
  let sxx = 0;
  let sxl = 0;
  position.forEach((x, i) => {
    const fromMean = x - (meanX[own(i)] ?? 0);
    sxx += fromMean * fromMean;
    sxl += fromMean * ((used[i]?.levelDbmv ?? 0) - (meanL[own(i)] ?? 0));
  });
  const kinds = n.filter((count) => count > 0).length;
  const freedom = position.length - kinds - 1;
  if (!(sxx > 0) || freedom < 1 || !((n[0] ?? 0) > 0)) return none;
  const tiltDb = sxl / sxx;
  let squares = 0;
  position.forEach((x, i) => {
    const at = own(i);
    squares += ((used[i]?.levelDbmv ?? 0) - (meanL[at] ?? 0) - tiltDb * (x - (meanX[at] ?? 0))) ** 2;
  });
  return isOpen.map((open, group) => {
    const at = group + 1;
    if (!open || !((n[at] ?? 0) > 0)) return null;
    const betweenX = (meanX[at] ?? 0) - (meanX[0] ?? 0);
    const stepDb = (meanL[at] ?? 0) - (meanL[0] ?? 0) - tiltDb * betweenX;
    const share = 1 / (n[at] ?? 1) + 1 / (n[0] ?? 1) + betweenX ** 2 / sxx;
    const errorDb = Math.sqrt((squares / freedom) * share);
    return Number.isFinite(stepDb) && Number.isFinite(errorDb) ? { stepDb, errorDb } : null;
  });
}
