import { done, type Result, refuse } from '../result.ts';
import { type FitErrors, fitErrors } from '../uncertainty/fit-errors.ts';
import { type ChosenRows, chooseRows, type RowChoice } from './choose-rows.ts';
import { fitLine } from './fit-line.ts';
import type { LevelRow } from './level-row.ts';
import { positionsOf, type Shape } from './position.ts';
import { residualsOf } from './residuals.ts';
import { joinSignals, type SignalStep } from './signal-step.ts';
import type { Excluded, UsableRow } from './usable-rows.ts';

/** Something a reader of the fit should know, with a word for programs and a sentence for people. */
export type FitFinding =
  | Readonly<{
      kind: 'rows-left-out' | 'rows-far-off' | 'rows-outside' | 'few-rows' | 'duplicates' | 'signals-moved';
      text: string;
    }>
  | SignalStep;
/** The keys are those of the contract's JSON, and the standard errors. */
export type SweepFit = Readonly<{
  shape: Shape;
  lowMhz: number;
  highMhz: number;
  count: number;
  lowDbmv: number;
  highDbmv: number;
  tiltDb: number;
  flatnessDb: number;
  rmsDb: number;
  worst: Readonly<{ frequencyMhz: number; deviationDb: number }>;
  excluded: readonly Excluded[];
  findings: readonly FitFinding[];
  /** Of the levels at low and high, of the tilt, and the rows' scatter, dB; null where two rows leave none to see. */
  standardErrors: FitErrors | null;
}>;
export type FitRefusal = 'too-few' | 'one-frequency' | 'bad-range' | 'not-finite';

const FEW_ROWS = 5;

/**
 * The line of a sweep: level at the low and the high frequency, tilt between them, flatness about it.
 * @param rows     MHz and dBmV, any order
 * @param options  shape (linear), low and high in MHz (lowest and highest usable row), keepAll (false)
 * @returns  the fit, or a refusal: fewer than two usable rows, one frequency only, a range that is none
 * @source   contract, section 3, "fit, exactly"
 */
export function fitSweep(rows: readonly LevelRow[], options: RowChoice): Result<SweepFit, FitRefusal> {
  for (const endMhz of [options.lowMhz, options.highMhz])
    if (endMhz !== undefined && !(Number.isFinite(endMhz) && endMhz >= 0))
      return refuse('bad-range', `${endMhz} MHz`, 'give low and high as frequencies in MHz');
  const chosen = chooseRows(rows, options);
  if (chosen.signals === null || options.lineUp != null) return fitChosen(chosen, options);
  const joined = joinSignals(chosen.used, chosen.signals, options);
  const fitted = fitChosen({ ...chosen, signals: null }, options, joined.levelDbmv);
  if (!fitted.ok) return fitted;
  return done({
    ...fitted.value,
    findings: [...fitted.value.findings, ...joined.findings],
    standardErrors: joined.errors,
  });
}

/**
 * The same for rows that are already chosen.
 * @param chosen   rows in rising frequency with what was left out
 * @param options  as for fitSweep; keepAll has had its effect
 * @param joined   dBmV, one a row, in the place of the rows' own levels; the rows' own when left out
 * @returns  as fitSweep
 * @source   contract, section 3, "fit, exactly"
 */
export function fitChosen(
  chosen: ChosenRows,
  options: RowChoice,
  joined?: Float64Array,
): Result<SweepFit, FitRefusal> {
  const { used, excluded } = chosen;
  const shape = options.shape ?? 'linear';
  if (options.lowMhz !== undefined && options.highMhz !== undefined && options.lowMhz >= options.highMhz)
    return refuse(
      'bad-range',
      `${options.lowMhz} to ${options.highMhz} MHz`,
      'the low frequency must lie below the high one',
    );
  const lowMhz = options.lowMhz ?? used[0]?.frequencyMhz;
  const highMhz = options.highMhz ?? used.at(-1)?.frequencyMhz;
  if (lowMhz === undefined || highMhz === undefined || used.length < 2)
    return refuse('too-few', rowCount(used.length, chosen), 'measure two carriers or more');
  if (used[0]?.frequencyMhz === used.at(-1)?.frequencyMhz || Math.sqrt(lowMhz) >= Math.sqrt(highMhz))
    return refuse('one-frequency', `every row at ${lowMhz} MHz`, 'measure at two frequencies or more');

  const position = positionsOf(used, shape, lowMhz, highMhz);
  const levelDbmv = joined ?? levelsOf(used);
  const line = fitLine(position, levelDbmv);
  if (!line.ok) return line;
  const left = residualsOf(line.value, position, levelDbmv);
  const fit: SweepFit = {
    shape,
    lowMhz,
    highMhz,
    count: used.length,
    lowDbmv: line.value.lowDbmv,
    highDbmv: line.value.lowDbmv + line.value.tiltDb,
    tiltDb: line.value.tiltDb,
    flatnessDb: left.flatnessDb,
    rmsDb: left.rmsDb,
    worst: {
      frequencyMhz: used[left.worstIndex]?.frequencyMhz ?? lowMhz,
      deviationDb: left.deviationDb[left.worstIndex] ?? 0,
    },
    excluded,
    findings: findingsOf(chosen),
    standardErrors: used.length > 2 ? fitErrors(position, left.deviationDb) : null,
  };
  if (![fit.highDbmv, fit.flatnessDb, fit.rmsDb, fit.standardErrors?.scatterDb ?? 0].every(Number.isFinite))
    return refuse('not-finite', 'the levels', 'too large to compute with; look at their unit');
  return done(fit);
}

function levelsOf(used: readonly UsableRow[]): Float64Array {
  const levelDbmv = new Float64Array(used.length);
  for (let i = 0; i < used.length; i++) levelDbmv[i] = (used[i] as UsableRow).levelDbmv;
  return levelDbmv;
}

const rows = (count: number): string => (count === 1 ? '1 row' : `${count} rows`);

function rowCount(count: number, { excluded, outsideCount }: ChosenRows): string {
  const outside = outsideCount > 0 ? [`${outsideCount} outside the range`] : [];
  const left = excluded.length > 0 ? [`${excluded.length} left out: ${excluded[0]?.reason}`] : [];
  const why = [...outside, ...left];
  const usable = count === 0 ? 'no usable row' : `${count} usable row`;
  return why.length === 0 ? usable : `${usable} (${why.join('; ')})`;
}

function findingsOf({ used, excluded, farOff, outsideCount, signals }: ChosenRows): FitFinding[] {
  const findings: FitFinding[] = [];
  if (excluded.length > 0)
    findings.push({
      kind: 'rows-left-out',
      text: `${rows(excluded.length)} left out, each with its reason.`,
    });
  if (farOff !== null)
    findings.push({
      kind: 'rows-far-off',
      text: `${rows(farOff.count)} of ${used.length} lie more than ${farOff.fromDb.toFixed(0)} dB off the line of the others: too many to tell which are carriers, so the line is through all of them.`,
    });
  if (outsideCount > 0)
    findings.push({ kind: 'rows-outside', text: `${rows(outsideCount)} outside the range, not used.` });
  if (used.length < FEW_ROWS)
    findings.push({
      kind: 'few-rows',
      text: `Only ${rows(used.length)}: too few to tell which of them might not be a carrier.`,
    });
  let repeated = 0;
  for (let i = 1; i < used.length; i++) if (used[i]?.frequencyMhz === used[i - 1]?.frequencyMhz) repeated++;
  if (repeated > 0)
    findings.push({
      kind: 'duplicates',
      text: `${rows(repeated)} at a frequency that another row already has; each counts.`,
    });
  for (const text of signals?.notes ?? []) findings.push({ kind: 'signals-moved', text });
  return findings;
}
