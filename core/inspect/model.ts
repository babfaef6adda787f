import { type Fitted, fitColumns } from './fitted.ts';
import type { Bell } from './notch.ts';
import type { Ripple } from './ripple.ts';
import type { Bend } from './rolloff.ts';
import type { Jump } from './step.ts';
import type { Trace } from './trace.ts';

/** Rows from..to, MHz, that belong to a notch or a bump alone. */
export type Own = Readonly<{ fromMhz: number; toMhz: number }>;

/** A part of the model; `told` is false for what is taken out but is no finding: a bump, an echo's overtone. */
export type Part = Readonly<{ told: boolean }> &
  (
    | Readonly<{ kind: 'ripple'; ripple: Ripple }>
    | Readonly<{ kind: 'bell'; bell: Bell; own: Own }>
    | Readonly<{ kind: 'bend'; bend: Bend }>
    | Readonly<{ kind: 'jump'; jump: Jump }>
  );

/** With fewer rows than this the line is straight; with more it may bend as cable does. */
const ROWS_FOR_CABLE = 12;

/** Rows of a bell count as its own out to so many of its widths: its true shape is not known. */
const OWN_WIDTHS = 1;

/**
 * The rows that a bell owns.
 * @returns  MHz
 * @source   common practice, no published source
 */
export const ownOf = ({ centerMhz, widthMhz }: Bell): Own => ({
  fromMhz: centerMhz - OWN_WIDTHS * widthMhz,
  toMhz: centerMhz + OWN_WIDTHS * widthMhz,
});

/** Rows that belong to a part alone, so that its true shape, which is not known, is not taken for a second fault. */
function owns(part: Part, f: number): boolean {
  switch (part.kind) {
    case 'bell':
      return f >= part.own.fromMhz && f <= part.own.toMhz;
    case 'bend':
      return part.bend.edge === 'high' ? f > part.bend.fromMhz : f < part.bend.fromMhz;
    case 'ripple':
    case 'jump':
      return false;
  }
}

function columnsOf(part: Part, mhz: readonly number[]): Float64Array[] {
  switch (part.kind) {
    case 'ripple': {
      const angle = (f: number) => 2 * Math.PI * part.ripple.perMhz * f;
      return [
        Float64Array.from(mhz, (f) => Math.cos(angle(f))),
        Float64Array.from(mhz, (f) => Math.sin(angle(f))),
      ];
    }
    case 'jump':
      return [Float64Array.from(mhz, (f) => (f > part.jump.atMhz ? 1 : 0))];
    case 'bell':
    case 'bend':
      return [];
  }
}

/**
 * Fits a sweep: a line that may bend as cable does, an offset between analog carriers and the others, and the parts.
 * Rows that a notch, a bump or a bent edge owns are left out.
 * @param parts        what is in the model beside the line
 * @param leastIsland  rows of smaller islands are left out: a row or two by themselves would bend any ripple to them
 * @returns  the fit over the rows that are left
 * @source   least squares; the loss of cable goes as sqrt f (cabl.com, "CATV Formulas")
 */
export function fitModel(trace: Trace, parts: readonly Part[], leastIsland = 1): Fitted {
  const sizes = new Map<number, number>();
  for (const island of trace.island) sizes.set(island, (sizes.get(island) ?? 0) + 1);
  const kept = trace.mhz.flatMap((f, i) =>
    parts.some((part) => owns(part, f)) || (sizes.get(trace.island[i] ?? 0) ?? 0) < leastIsland ? [] : [i],
  );
  const mhz = kept.map((i) => trace.mhz[i] ?? 0);
  const topMhz = mhz.at(-1) ?? 1;
  const columns = [
    Float64Array.from(mhz, () => 1),
    Float64Array.from(mhz, (f) => f / topMhz),
    ...(mhz.length >= ROWS_FOR_CABLE ? [Float64Array.from(mhz, (f) => Math.sqrt(f / topMhz))] : []),
    Float64Array.from(kept, (i) => (trace.otherFamily[i] === true ? 1 : 0)),
    ...parts.flatMap((part) => columnsOf(part, mhz)),
  ];
  return fitColumns(
    mhz,
    kept.map((i) => trace.dbmv[i] ?? 0),
    columns.filter((column) => column.some((x) => x !== 0)),
  );
}
