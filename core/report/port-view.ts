import type { LineUpEntry } from '../channels/line-up.ts';
import type { Design, Port } from '../files/station.ts';
import type { Trim } from '../files/station-notes.ts';
import type { Truck } from '../files/truck.ts';
import { fitSweep, type SweepFit } from '../line/fit-sweep.ts';
import { type RowTarget, rowTargets } from '../line/row-targets.ts';
import { type StationStanding, standingAgainstDesign } from '../line/standing.ts';
import { type HeldAgainst, heldAgainst } from '../propose/held-against.ts';
import { predictRows } from '../propose/predict.ts';
import { nextReading } from '../propose/predicted-sweep.ts';
import { refusalLine } from '../result.ts';
import type { ReportSweep } from './material.ts';

/** A sweep with what core says of it. */
export type JudgedSweep = Readonly<{
  sweep: ReportSweep;
  design: Design | null;
  /** Null where the port has no design, or the sweep can't be judged. */
  standing: StationStanding | null;
  /** Its own line, where no design says what it should be. */
  fit: SweepFit | null;
  /** Why it can't be judged, in one line. */
  unjudged: string | null;
  /** As many as rows: what each is compared with. */
  targets: readonly (RowTarget | null)[];
}>;

/** One port at one visit. */
export type PortView = Readonly<{
  port: Port;
  /** The first sweep of the visit. */
  found: JudgedSweep;
  /** The last whole one, where it is another. */
  left: JudgedSweep | null;
  /** The sweep after the parts were fitted against what they were to give. */
  held: HeldAgainst | null;
}>;

export type JudgedWith = Readonly<{
  lineUp: readonly LineUpEntry[] | null;
  trims: readonly Trim[];
  truck: Truck | null;
}>;

/**
 * A sweep as the station sheet judges it: against the design that was the newest when it was read.
 * @param sweep   MHz and dBmV at the port
 * @param lineUp  what each channel carries, or null
 * @returns  its standing, or its own line where the port has no design, or why neither can be told
 * @throws   RangeError when its station has no such port: the archive keeps none such
 * @source   see `standingAgainstDesign` and `fitSweep`
 */
export function judgedSweep(sweep: ReportSweep, lineUp: readonly LineUpEntry[] | null): JudgedSweep {
  const port = sweep.station.ports.find(({ name }) => name === sweep.portName);
  if (port === undefined) throw new RangeError(`no port is named "${sweep.portName}"`);
  const design = port.design ?? null;
  const base = { sweep, design, standing: null, fit: null, unjudged: null };
  if (design === null) {
    const fit = fitSweep(sweep.rows, {});
    const none = sweep.rows.map(() => null);
    return fit.ok
      ? { ...base, fit: fit.value, targets: none }
      : { ...base, unjudged: refusalLine(fit), targets: none };
  }
  const standing = standingAgainstDesign(sweep.rows, design, { uncertainty: sweep.conditions, lineUp });
  const targets = rowTargets(sweep.rows, design, { lineUp });
  return standing.ok
    ? { ...base, standing: standing.value, targets }
    : { ...base, unjudged: refusalLine(standing), targets };
}

const samePath = (port: Port, a: ReportSweep, b: ReportSweep): boolean =>
  port.through.every((position) => a.pluggedIn[position] === b.pluggedIn[position]);

/** The sweep after the parts were fitted, held against what they were to give; with trims, the one that proved them. */
function heldOf(
  port: Port,
  sweeps: readonly ReportSweep[],
  left: ReportSweep,
  by: JudgedWith,
): HeldAgainst | null {
  const whole = sweeps.filter(({ state }) => state === 'complete');
  const at = whole.indexOf(left);
  const before = whole
    .slice(0, Math.max(0, at))
    .findLast((sweep) => sweep.station === left.station && !samePath(port, sweep, left));
  if (before === undefined) return null;
  const predicted = predictRows(before.rows, left.station, port.name, before.pluggedIn, left.pluggedIn);
  const next = nextReading(
    left.station,
    port.name,
    { from: before.pluggedIn, to: left.pluggedIn },
    left.conditions,
    by.truck,
  );
  const since = by.trims.length === 0 ? [left] : whole.slice(whole.indexOf(before) + 1, at + 1);
  const held = since
    .filter((sweep) => samePath(port, sweep, left))
    .map((sweep) => heldAgainst(predicted, sweep.rows, next))
    .flatMap((one) => (one.ok ? [one.value] : []));
  return held.find(({ agrees }) => agrees) ?? held.at(-1) ?? null;
}

/**
 * One port at one visit, or null where it was not read, or nothing that was read counts: void, or said right by another.
 * @param sweeps  of the visit, in the order in which they were read
 * @source   as found is the first, as left the last whole one: common practice, no published source
 */
export function portView(port: Port, sweeps: readonly ReportSweep[], by: JudgedWith): PortView | null {
  const valid = sweeps.filter(
    ({ portName, voided, correctedBy, rows, state }) =>
      portName === port.name &&
      voided === null &&
      correctedBy === null &&
      rows.length > 0 &&
      state !== 'recording',
  );
  const found = valid.find(({ state }) => state === 'complete') ?? valid[0];
  if (found === undefined) return null;
  const last = valid.findLast(({ state }) => state === 'complete');
  const left = last === undefined || last === found ? null : last;
  return {
    port,
    found: judgedSweep(found, by.lineUp),
    left: left === null ? null : judgedSweep(left, by.lineUp),
    held: left === null ? null : heldOf(port, valid, left, by),
  };
}

/**
 * The sweep that says how the port was left.
 * @source   see `portView`
 */
export const lastOf = (view: PortView): JudgedSweep => view.left ?? view.found;
