import { conditionsOf, meterSheet, type SheetSource } from '../../core/bridge/conditions.ts';
import type { StationSheet, Sweep, SweepSummary } from '../../core/bridge/records.ts';
import type { Settings } from '../../core/bridge/settings-calls.ts';
import { type Design, type PluggedIn, type Port, pluggedAt, type Station } from '../../core/files/station.ts';
import type { StationNotes } from '../../core/files/station-notes.ts';
import type { Truck } from '../../core/files/truck.ts';
import { fitSweep, type SweepFit } from '../../core/line/fit-sweep.ts';
import type { LevelRow } from '../../core/line/level-row.ts';
import { rowsAtPort } from '../../core/line/port-level.ts';
import { type RowTarget, rowTargets } from '../../core/line/row-targets.ts';
import { type StationStanding, standingAgainstDesign } from '../../core/line/standing.ts';
import { type HeldAgainst, heldAgainst } from '../../core/propose/held-against.ts';
import type { Choice } from '../../core/propose/objective.ts';
import { predictRows } from '../../core/propose/predict.ts';
import { predictTurned, turnedReading } from '../../core/propose/predict-turned.ts';
import { type NextReading, nextReading } from '../../core/propose/predicted-sweep.ts';
import { type Proposal, propose } from '../../core/propose/propose.ts';
import { isShapeFault } from '../../core/propose/shape-fault.ts';
import type { Conditions } from '../../core/uncertainty/budget.ts';
import { counts, inputSummary, sweepsOf } from './port-sweeps.ts';
import type { PickedChoice } from './sheet-slice.ts';
import { turnedJustBefore } from './turned.ts';

/** A sweep with its levels at the port. */
export type PortSweep = Readonly<{ summary: SweepSummary; rows: readonly LevelRow[] }>;

/** What a sheet is judged by, beside its own records. */
export type JudgedBy = Readonly<{ settings: Settings; notes: StationNotes | null; truck: Truck | null }>;

/** The meter's uncertainty as it was applied to the shown sweep, and whose word it is. */
export type AppliedConditions = Readonly<{ conditions: Conditions; source: SheetSource }>;

export type SheetView = Readonly<{
  by: JudgedBy;
  applied: AppliedConditions | null;
  port: Port;
  design: Design | null;
  /** The sweep that the sheet is about; null when the port was never read. */
  shown: PortSweep | null;
  /** True when nothing newer was read at this port. */
  isNewest: boolean;
  /** True when it belongs to the visit that is open. */
  ofThisVisit: boolean;
  standing: StationStanding | null;
  /** By frequency, what each channel is compared with; null without a design. */
  targets: ReadonlyMap<number, RowTarget> | null;
  /** The line of a sweep whose port has no design to stand against. */
  fit: SweepFit | null;
  /** Why the sweep can't be judged, in one line. */
  unjudged: string | null;
  /** The sweep of the same visit before the parts were changed. */
  before: PortSweep | null;
  /** What the parts fitted between the two were to give, and how far the shown sweep is from it. */
  expected: readonly LevelRow[] | null;
  held: (HeldAgainst & Readonly<{ after: 'parts' | 'trims' }>) | null;
  /** Only for the newest sweep, and only while what was in then is still in. */
  proposal: Proposal | null;
  /** What to change: the recommended choice, or the one that was picked. Null when the cause comes first. */
  choice: Choice | null;
  /** True when only the shape is wrong and a change of parts would help it least. */
  causeFirst: boolean;
  unproposed: string | null;
  /** Parts were changed after the newest sweep: what they are to give. */
  changedSince: readonly LevelRow[] | null;
  /** The line of the stage input's sweep in the same visit. */
  inputFit: SweepFit | null;
}>;

export const portSweep = (sweep: Sweep): PortSweep => ({
  summary: sweep.summary,
  rows: rowsAtPort(sweep.readings, sweep.summary.testPointLossDb),
});

/** Sweeps of earlier designs tell only what there was to tell. */
function samePath(station: Station, port: Port, a: PluggedIn, b: PluggedIn): boolean {
  const [inA, inB] = [pluggedAt(station, a), pluggedAt(station, b)];
  return port.through.every((position) => inA[position] === inB[position]);
}

/** Everything the sheet shows of one port, computed by core from the archive's records. Null when there is no such port. */
export function viewSheet(
  sheet: StationSheet,
  portName: string,
  chosenSweepId: string | null,
  sweeps: Readonly<Record<string, Sweep>>,
  picked: PickedChoice | null,
  by: JudgedBy,
): SheetView | null {
  const port = sheet.station.ports.find(({ name }) => name === portName);
  if (port === undefined) return null;
  const design = port.design ?? null;
  const all = sweepsOf(sheet, portName);
  const ofPort = all.filter(counts);
  const newest = ofPort[0] ?? null;
  const wanted = all.find(({ sweepId }) => sweepId === chosenSweepId) ?? newest;
  const opened = wanted === null ? undefined : sweeps[wanted.sweepId];
  // What is said of a sweep may be newer than its readings.
  const shown = opened === undefined || wanted === null ? null : portSweep({ ...opened, summary: wanted });
  const isNewest = wanted !== null && wanted.sweepId === newest?.sweepId;
  const inputRows = inputSweep(sheet, sweeps, shown?.summary.visitId ?? null);
  const inputFit = inputRows === null ? null : fitSweep(inputRows, {});
  const empty = {
    by,
    applied: shown === null ? null : appliedTo(shown.summary, by),
    targets: null,
    port,
    design,
    shown,
    isNewest,
    ofThisVisit: shown !== null && shown.summary.visitId === sheet.openVisit?.visitId,
    standing: null,
    fit: null,
    unjudged: null,
    before: null,
    expected: null,
    held: null,
    proposal: null,
    choice: null,
    causeFirst: false,
    unproposed: null,
    changedSince: null,
    inputFit: inputFit?.ok === true ? inputFit.value : null,
  };
  if (shown === null) return empty;
  const { voided, correctedBy } = shown.summary;
  if (voided !== null) return { ...empty, unjudged: `Void: ${voided.reason} (${voided.operator})` };
  if (correctedBy !== null)
    return {
      ...empty,
      unjudged: 'A later record says right what was noted with this sweep; that one is judged.',
    };
  const { station } = sheet;
  const lineUp = by.notes?.lineUp ?? null;
  const then = pluggedAt(station, shown.summary.pluggedIn);
  const { conditions } = appliedTo(shown.summary, by);
  const turned = turnedJustBefore(sheet.turns, shown.summary, ofPort);
  const turnedSweep = turned === null ? undefined : sweeps[turned.sweepId];
  const after: 'parts' | 'trims' =
    turned !== null &&
    turnedSweep !== undefined &&
    samePath(station, port, turnedSweep.summary.pluggedIn, then)
      ? 'trims'
      : 'parts';
  const before =
    after === 'trims' && turnedSweep !== undefined
      ? portSweep(turnedSweep)
      : sweepBefore(station, port, ofPort, shown.summary, sweeps);
  const fitted = { from: before === null ? then : pluggedAt(station, before.summary.pluggedIn), to: then };
  const turns = after === 'trims' && design !== null ? (turned?.turns ?? []) : [];
  const next =
    turns.length > 0
      ? turnedReading(conditions, turns)
      : nextReading(station, portName, fitted, conditions, by.truck);
  const expected =
    before === null
      ? null
      : turns.length > 0 && design !== null
        ? predictTurned(before.rows, design, turns)
        : predictRows(before.rows, station, portName, fitted.from, then);
  const proven = () =>
    provenBefore(station, port, ofPort, shown.summary, sweeps, { expected: expected ?? [], next }, by);
  const held =
    expected === null || (after === 'parts' && proven()) ? null : heldAgainst(expected, shown.rows, next);
  const withHistory = {
    ...empty,
    before,
    expected,
    held: held?.ok === true ? { ...held.value, after } : null,
  };
  if (design === null) {
    const fit = fitSweep(shown.rows, {});
    return fit.ok
      ? { ...withHistory, fit: fit.value }
      : { ...withHistory, unjudged: `${fit.where}: ${fit.help}` };
  }

  const standing = standingAgainstDesign(shown.rows, design, { uncertainty: conditions, lineUp });
  if (!standing.ok) return { ...withHistory, unjudged: `${standing.where}: ${standing.help}` };
  const targets = targetsOf(shown.rows, design, lineUp);
  const judged = { ...withHistory, standing: standing.value, targets };
  if (!isNewest) return judged;
  if (!samePath(station, port, then, sheet.pluggedIn))
    return { ...judged, changedSince: predictRows(shown.rows, station, portName, then, sheet.pluggedIn) };
  if (port.through.length === 0 || shown.summary.state !== 'complete') return judged;
  const proposal = propose({
    rows: shown.rows,
    station,
    portName,
    pluggedIn: then,
    inputRows: inputRows ?? undefined,
    truck: by.truck,
    trims: by.notes?.trims,
    uncertainty: conditions,
    lineUp,
  });
  if (!proposal.ok) return { ...judged, unproposed: `${proposal.where}: ${proposal.help}` };
  const causeFirst =
    picked === null &&
    isShapeOnly(shown.rows, design, lineUp) &&
    proposal.value.recommended.changes.length > 0;
  return {
    ...judged,
    proposal: proposal.value,
    causeFirst,
    choice: causeFirst ? null : choiceOf(proposal.value, picked),
  };
}

function appliedTo(summary: SweepSummary, by: JudgedBy): AppliedConditions {
  const { source } = meterSheet(by.settings, by.notes, summary.meter?.model ?? null);
  return { conditions: conditionsOf(by.settings, by.notes, summary), source };
}

type LineUp = NonNullable<StationNotes['lineUp']> | null;

function targetsOf(
  rows: readonly LevelRow[],
  design: Design,
  lineUp: LineUp,
): ReadonlyMap<number, RowTarget> {
  const targets = rowTargets(rows, design, { lineUp });
  const byFrequency = new Map<number, RowTarget>();
  rows.forEach(({ frequencyMhz }, i) => {
    const target = targets[i];
    if (frequencyMhz !== null && target != null) byFrequency.set(frequencyMhz, target);
  });
  return byFrequency;
}

/** Judged as it was read: what a meter is uncertain by makes no repair out of a change of parts. */
function isShapeOnly(rows: readonly LevelRow[], design: Design, lineUp: LineUp): boolean {
  const asRead = standingAgainstDesign(rows, design, { lineUp });
  return asRead.ok && isShapeFault(asRead.value);
}

/**
 * Where a station has trims, a sweep after the one that proved the parts was read with the trims turned: it is no longer
 * what the parts alone were to give.
 */
function provenBefore(
  station: Station,
  port: Port,
  ofPort: readonly SweepSummary[],
  shown: SweepSummary,
  sweeps: Readonly<Record<string, Sweep>>,
  { expected, next }: Readonly<{ expected: readonly LevelRow[]; next: NextReading | null }>,
  by: JudgedBy,
): boolean {
  if ((by.notes?.trims ?? []).length === 0) return false;
  return ofPort.some((summary) => {
    const sweep = sweeps[summary.sweepId];
    if (sweep === undefined || summary.visitId !== shown.visitId || summary.startedAt >= shown.startedAt)
      return false;
    if (summary.state !== 'complete' || !samePath(station, port, summary.pluggedIn, shown.pluggedIn))
      return false;
    const held = heldAgainst(expected, portSweep(sweep).rows, next);
    return held.ok && held.value.agrees;
  });
}

const choiceOf = (proposal: Proposal, picked: PickedChoice | null): Choice =>
  (typeof picked === 'number' ? proposal.alternatives[picked] : undefined) ?? proposal.recommended;

/** Its levels tell whether the next stage is driven right. */
function inputSweep(
  sheet: StationSheet,
  sweeps: Readonly<Record<string, Sweep>>,
  visitId: string | null,
): readonly LevelRow[] | null {
  const sweep = sweeps[inputSummary(sheet, visitId)?.sweepId ?? ''];
  return sweep === undefined ? null : portSweep(sweep).rows;
}

/** The last sweep of the same visit and design that was read with other parts in. */
function sweepBefore(
  station: Station,
  port: Port,
  ofPort: readonly SweepSummary[],
  shown: SweepSummary,
  sweeps: Readonly<Record<string, Sweep>>,
): PortSweep | null {
  const summary = ofPort.find(
    (sweep) =>
      sweep.visitId === shown.visitId &&
      sweep.revision === shown.revision &&
      sweep.state === 'complete' &&
      sweep.startedAt < shown.startedAt &&
      !samePath(station, port, sweep.pluggedIn, shown.pluggedIn),
  );
  const sweep = summary === undefined ? undefined : sweeps[summary.sweepId];
  return sweep === undefined ? null : portSweep(sweep);
}
