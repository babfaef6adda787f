import type { LevelRow } from '../line/level-row.ts';
import { medianOf } from '../line/robust-line.ts';
import type { MissingFinding } from './finding.ts';
import { type Trace, WIDEST_GAP_STEPS } from './trace.ts';

/** A carrier this far below its neighbours is not there. Common practice, no published source. */
const GONE_DB = 20;
/** Neighbours as level as this show that the carrier is gone, not that the line dips. */
const LEVEL_NEIGHBOURS_DB = 3;
/** A modulation that is read at all is a carrier, however low. */
const READ_MER_DB = 10;
/** How far from the raster a spacing may lie, in steps. */
const OFF_RASTER_STEPS = 0.15;
const NEIGHBOURS = 5;

/**
 * Rows that stand in the sweep but show no carrier: far below level neighbours, and no modulation read there.
 * @param trace  rising frequencies; the two rows at each end are never taken: what falls there rolls off
 * @param rows   those of which it was made, for their modulation error ratio in dB
 * @returns  frequencies in MHz, rising
 * @source   common practice, no published source
 */
export function deadCarriers(trace: Trace, rows: readonly LevelRow[]): number[] {
  const read = new Set(
    rows.filter(({ merDb }) => merDb !== undefined && merDb > READ_MER_DB).map((row) => row.frequencyMhz),
  );
  return trace.mhz.filter((f, i) => {
    if (i < 2 || i > trace.mhz.length - 3 || read.has(f)) return false;
    const around = trace.dbmv
      .slice(Math.max(0, i - NEIGHBOURS), i + NEIGHBOURS + 1)
      .filter((_, k) => k !== Math.min(i, NEIGHBOURS));
    const usualDbmv = medianOf(around);
    const level = (dbmv: number | undefined) => Math.abs((dbmv ?? 0) - usualDbmv) < LEVEL_NEIGHBOURS_DB;
    return usualDbmv - (trace.dbmv[i] ?? 0) > GONE_DB && level(trace.dbmv[i - 1]) && level(trace.dbmv[i + 1]);
  });
}

/**
 * Holes in the raster, no wider than a few channels, with rows on the raster on both of their shores. The sweep may end at
 * a shore, and a carrier between two holes is a shore of both; but where most of an island is holes, it has no raster.
 */
function holes({ mhz, island, stepMhz }: Trace): number[] {
  const steps = mhz.slice(1).map((f, i) => (f - (mhz[i] ?? f)) / stepMhz);
  const isWhole = (width: number) =>
    Math.round(width) >= 1 && Math.abs(width - Math.round(width)) <= OFF_RASTER_STEPS;
  const votes = new Map<number | undefined, number>();
  for (const [i, width] of steps.entries()) {
    if (island[i] !== island[i + 1]) continue;
    const vote = Math.abs(width - 1) <= OFF_RASTER_STEPS ? 1 : -1;
    votes.set(island[i], (votes.get(island[i]) ?? 0) + vote);
  }
  const isShore = (at: number) => isWhole(steps[at] ?? 1) || island[at] !== island[at + 1];
  return steps.flatMap((width, i) => {
    const count = Math.round(width);
    if (count < 2 || width > WIDEST_GAP_STEPS || !isWhole(width)) return [];
    if (!isShore(i - 1) || !isShore(i + 1) || (votes.get(island[i]) ?? 0) < 0) return [];
    const from = mhz[i] ?? 0;
    const spacing = ((mhz[i + 1] ?? 0) - from) / count;
    return Array.from({ length: count - 1 }, (_, k) => from + (k + 1) * spacing);
  });
}

/** A raster is one when most neighbours are a step apart. */
function hasRaster({ mhz, stepMhz }: Trace): boolean {
  const spacings = mhz.slice(1).map((f, i) => f - (mhz[i] ?? f));
  const one = spacings.filter((spacing) => Math.abs(spacing / stepMhz - 1) <= OFF_RASTER_STEPS).length;
  return spacings.length >= 5 && one * 2 >= spacings.length;
}

/**
 * Carriers that are missing: holes in the raster of up to three channels, rows that the source calls not locked, and
 * rows far below their neighbours.
 * @param trace  rising frequencies
 * @param rows   those of which it was made
 * @returns  frequencies in MHz, rising, each once
 * @source   common practice, no published source
 */
export function missingCarriers(trace: Trace, rows: readonly LevelRow[]): MissingFinding[] {
  const there = new Set(trace.mhz);
  const unlocked = rows.flatMap(({ frequencyMhz, unlocked }) =>
    unlocked === true && frequencyMhz !== null && frequencyMhz > 0 && !there.has(frequencyMhz)
      ? [frequencyMhz]
      : [],
  );
  const all = [...unlocked, ...deadCarriers(trace, rows), ...(hasRaster(trace) ? holes(trace) : [])];
  const rising = all.map((f) => Math.round(f * 1e4) / 1e4).sort((a, b) => a - b);
  return rising
    .filter((f, i) => i === 0 || f - (rising[i - 1] ?? 0) > trace.stepMhz / 10)
    .map((frequencyMhz) => ({ kind: 'missing', frequencyMhz }));
}
