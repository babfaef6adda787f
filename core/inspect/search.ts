import { fitModel, ownOf, type Part } from './model.ts';
import { refinedBell, strongestBells } from './notch.ts';
import { type Ripple, type RippleLimits, refinedRipple, rippleLimits, strongestRipple } from './ripple.ts';
import { strongestBend } from './rolloff.ts';
import { strongestJump } from './step.ts';
import { BELIEVED } from './surprise.ts';
import type { Trace } from './trace.ts';

/** Fewer rows than this say nothing about a fault. */
const FEWEST_ROWS = 8;
/** Where the faults own more than half of the rows, the others are too few to look for more. */
const ENOUGH_LEFT = 0.5;
/** And where they would own more than this, there is no line left to have faults. */
const LEAST_LEFT = 0.3;
const MOST_PARTS = 12;
/** Swings so much longer than a ripple that can be told are the shape of the line: taken out, but no finding. */
const BROADER = 4 / 3;
/** A ripple shows in rows that stand together. */
const RIPPLE_ROWS = 4;
/** An overtone of an echo: a whole part of its period, this near, and at most this strong. */
const OVERTONE_NEAR = 0.04;
const OVERTONE_PART = 0.4;

type BellPart = Extract<Part, { kind: 'bell' }>;
type Candidate = Readonly<{ part: Part; logChance: number }>;

/** How many times as fast, where that is a whole number of 2 or more; else null. */
function timesOf(found: Ripple, ripple: Ripple): number | null {
  const times = ripple.perMhz / found.perMhz;
  const whole = Math.round(times);
  return whole >= 2 && Math.abs(times / whole - 1) < OVERTONE_NEAR ? whole : null;
}

/** A swing that does not come round twice. */
const isBroad = (ripple: Ripple, trace: Trace): boolean =>
  1 / ripple.perMhz > rippleLimits(trace.stepMhz, trace.widestMhz).longestMhz;

/** A ripple that only completes one already found: an overtone of its echo, or its strength changing over the band. */
function belongsTo(found: Ripple, ripple: Ripple, widestMhz: number): boolean {
  if (ripple.amplitudeDb > found.amplitudeDb) return false;
  if (Math.abs(ripple.perMhz - found.perMhz) < 2 / widestMhz) return true;
  return timesOf(found, ripple) !== null && ripple.amplitudeDb < OVERTONE_PART * found.amplitudeDb;
}

/** A bell that is the skirt of one already found, whose shape is not quite that of a bell. */
function isSkirt(found: BellPart, { bell }: BellPart): boolean {
  const half = bell.widthMhz / 2;
  const near = bell.centerMhz >= found.own.fromMhz - half && bell.centerMhz <= found.own.toMhz + half;
  return near || Math.abs(bell.centerMhz - found.bell.centerMhz) <= half;
}

/** The parts with one more; a skirt only makes its bell own more rows. */
function joined(parts: readonly Part[], part: Part): Part[] {
  if (part.kind !== 'bell') return [...parts, part];
  const found = parts.find((one): one is BellPart => one.kind === 'bell' && isSkirt(one, part));
  if (found === undefined) return [...parts, part];
  const own = {
    fromMhz: Math.min(found.own.fromMhz, part.own.fromMhz),
    toMhz: Math.max(found.own.toMhz, part.own.toMhz),
  };
  return parts.map((one) => (one === found ? { ...found, own } : one));
}

function candidates(trace: Trace, parts: readonly Part[], limits: RippleLimits): Candidate[] {
  const fitted = fitModel(trace, parts);
  const all: Candidate[] = [];
  const ripple = strongestRipple(fitModel(trace, parts, RIPPLE_ROWS), limits);
  if (ripple !== null) {
    const told =
      !isBroad(ripple, trace) &&
      !parts.some((part) => part.kind === 'ripple' && belongsTo(part.ripple, ripple, trace.widestMhz));
    all.push({ part: { kind: 'ripple', told, ripple }, logChance: ripple.logChance });
  }
  const { dip, bump } = strongestBells(trace, fitted);
  for (const bell of [dip, bump])
    if (bell !== null)
      all.push({
        part: { kind: 'bell', told: bell === dip, bell, own: ownOf(bell) },
        logChance: bell.logChance,
      });
  for (const edge of ['low', 'high'] as const) {
    if (parts.some((part) => part.kind === 'bend' && part.bend.edge === edge)) continue;
    const bend = strongestBend(fitted, edge);
    if (bend !== null)
      all.push({ part: { kind: 'bend', told: bend.heightDb < 0, bend }, logChance: bend.logChance });
  }
  const jump = strongestJump(trace, fitted);
  if (jump !== null) all.push({ part: { kind: 'jump', told: true, jump }, logChance: jump.logChance });
  return all.filter(({ logChance }) => logChance < BELIEVED);
}

/** A part beside the final others, or null when they explain it as well. */
function refined(trace: Trace, part: Part, others: readonly Part[], limits: RippleLimits): Part | null {
  const fitted = fitModel(trace, others);
  switch (part.kind) {
    case 'ripple': {
      const ripple = refinedRipple(fitModel(trace, others, RIPPLE_ROWS), part.ripple.perMhz, limits);
      const told = part.told && !isBroad(ripple, trace);
      return ripple.logChance < BELIEVED ? { ...part, told, ripple } : null;
    }
    case 'bell':
      return { ...part, bell: refinedBell(trace, fitted, part.bell) };
    case 'bend': {
      const bend = strongestBend(fitted, part.bend.edge);
      return bend !== null && bend.logChance < BELIEVED && bend.heightDb < 0 === part.told
        ? { ...part, bend }
        : null;
    }
    case 'jump': {
      const jump = strongestJump(trace, fitted);
      return jump !== null &&
        jump.logChance < BELIEVED &&
        Math.abs(jump.atMhz - part.jump.atMhz) < 2 * trace.stepMhz
        ? { ...part, jump }
        : null;
    }
  }
}

/**
 * What a sweep shows beside its line, the most surprising part first: each is taken into the model before the next is
 * looked for, so that one fault is not found twice in two disguises. In the end each is made exact beside all others.
 * @param trace  rising frequencies in MHz, levels in dBmV, of carriers that are there
 * @returns  the parts, also those that are no finding
 * @source   matching pursuit: S. Mallat and Z. Zhang, IEEE Transactions on Signal Processing 41 (1993), 3397-3415, with
 *           the model refitted after every part
 */
export function searchParts(trace: Trace): Part[] {
  const n = trace.mhz.length;
  if (n < FEWEST_ROWS) return [];
  const told = rippleLimits(trace.stepMhz, trace.widestMhz);
  const limits = { ...told, longestMhz: told.longestMhz * BROADER };
  let parts: Part[] = [];
  for (let round = 0; round < MOST_PARTS; round++) {
    const choices = candidates(trace, parts, limits)
      .sort((a, b) => a.logChance - b.logChance)
      .map(({ part }) => {
        const more = joined(parts, part);
        return { more, left: fitModel(trace, more).mhz.length };
      });
    const enough = Math.max(FEWEST_ROWS, n * ENOUGH_LEFT);
    // A narrow fault goes before one that would own half of the sweep, which may be several narrow ones.
    const next =
      choices.find(({ left }) => left >= enough) ?? choices.find(({ left }) => left >= n * LEAST_LEFT);
    if (next === undefined) break;
    parts = madeExact(trace, next.more, limits, (part) => part.kind === 'ripple');
    if (next.left < enough) break;
  }
  // What only completed a ripple while other faults were still in the way is not needed beside the exact one.
  const exact = parts.filter(
    (part) => part.kind !== 'ripple' || part.told || isBroad(part.ripple, trace) || isOvertone(part, parts),
  );
  return madeExact(
    trace,
    madeExact(trace, exact, limits, () => true),
    limits,
    () => true,
  );
}

/** Each of the chosen parts made exact beside the others; those that the others explain as well are gone. */
function madeExact(
  trace: Trace,
  parts: readonly Part[],
  limits: RippleLimits,
  chosen: (part: Part) => boolean,
): Part[] {
  let now = [...parts];
  for (const part of parts) {
    if (!chosen(part)) continue;
    const others = now.filter((other) => other !== part);
    const better = refined(trace, part, others, limits);
    now = now.flatMap((other) => (other !== part ? [other] : better === null ? [] : [better]));
  }
  return now;
}

const isOvertone = (part: Extract<Part, { kind: 'ripple' }>, parts: readonly Part[]): boolean =>
  parts.some((found) => found.kind === 'ripple' && found.told && timesOf(found.ripple, part.ripple) !== null);
