import type { LevelRow } from '../line/level-row.ts';
import { done, type Result, refuse } from '../result.ts';
import { echoDistance, echoPeakToPeakDb, echoRatioOf, VELOCITY_FACTOR } from './distance.ts';
import type { Finding, RippleFinding } from './finding.ts';
import { deadCarriers, missingCarriers } from './missing.ts';
import type { Part } from './model.ts';
import { rippleLimits } from './ripple.ts';
import { searchParts } from './search.ts';
import { type Trace, traceOf } from './trace.ts';

export type Inspection = Readonly<{
  findings: readonly Finding[];
  /** Humps, which the contract does not call a fault, but a reader should see. */
  bumps: readonly Readonly<{ centerMhz: number; heightDb: number; widthMhz: number }>[];
  /** Rows with a frequency and a level. */
  rowCount: number;
  velocityFactor: number;
  /** The ripple that these rows can show, MHz; null where they can show none. */
  ripplePeriods: Readonly<{ shortestMhz: number; longestMhz: number }> | null;
}>;

type RipplePart = Extract<Part, { kind: 'ripple' }>;

/** An echo's ripple is no pure sine: where its second overtone is in the model, the swing is that of the echo. */
function peakToPeakDb({ ripple }: RipplePart, parts: readonly Part[]): number {
  const echo = parts.some(
    (part) => part.kind === 'ripple' && !part.told && Math.abs(part.ripple.perMhz / ripple.perMhz - 2) < 0.08,
  );
  const ratio = echoRatioOf(ripple.amplitudeDb);
  return echo && ratio < 1 ? echoPeakToPeakDb(ratio) : 2 * ripple.amplitudeDb;
}

function rippleFinding(part: RipplePart, parts: readonly Part[], velocityFactor: number): RippleFinding {
  const periodMhz = 1 / part.ripple.perMhz;
  return {
    kind: 'ripple',
    periodMhz,
    peakToPeakDb: peakToPeakDb(part, parts),
    ...echoDistance(periodMhz, velocityFactor),
  };
}

function findingOf(part: Part, parts: readonly Part[], velocityFactor: number): Finding | null {
  if (!part.told) return null;
  switch (part.kind) {
    case 'ripple':
      return rippleFinding(part, parts, velocityFactor);
    case 'bell': {
      const { centerMhz, heightDb, widthMhz } = part.bell;
      return { kind: 'notch', centerMhz, depthDb: -heightDb, widthMhz };
    }
    case 'bend':
      return {
        kind: 'rolloff',
        edge: part.bend.edge,
        fromMhz: part.bend.fromMhz,
        depthDb: -part.bend.heightDb,
      };
    case 'jump':
      return { kind: 'step', atMhz: part.jump.atMhz, stepDb: part.jump.stepDb };
  }
}

const KINDS: readonly Finding['kind'][] = ['ripple', 'notch', 'rolloff', 'missing', 'step'];

/** Ripples from the strongest, all else from the lowest frequency. */
function placeOf(finding: Finding): number {
  switch (finding.kind) {
    case 'ripple':
      return -finding.peakToPeakDb;
    case 'notch':
      return finding.centerMhz;
    case 'rolloff':
      return finding.fromMhz;
    case 'missing':
      return finding.frequencyMhz;
    case 'step':
      return finding.atMhz;
  }
}

const without = (rows: readonly LevelRow[], gone: readonly number[]): Trace =>
  traceOf(
    rows.filter(
      ({ frequencyMhz }) => frequencyMhz === null || !gone.some((f) => Math.abs(f - frequencyMhz) < 1e-4),
    ),
  );

/**
 * Looks for faults in a sweep: ripple, notch, roll-off, missing carriers and steps of level.
 * @param rows            MHz and dBmV, any order
 * @param velocityFactor  of the cable, above 0, at most 1; 0.87 unless told
 * @returns  the findings, each fault once, in the order of the contract: ripples from the strongest, then notches,
 *           roll-offs, missing carriers and steps from the lowest frequency; or a refusal of a velocity factor that is
 *           none or of a sweep without readings. On white noise about a line, fewer than one sweep in a hundred has a
 *           finding. A bump is no finding; it is told apart, so that it is not taken for one.
 * @source   contract, section 3, `inspect`; how each is found: see its finder
 */
export function inspectSweep(
  rows: readonly LevelRow[],
  velocityFactor: number = VELOCITY_FACTOR,
): Result<Inspection, 'bad-velocity' | 'no-readings'> {
  if (!(velocityFactor > 0 && velocityFactor <= 1))
    return refuse(
      'bad-velocity',
      `velocity factor ${velocityFactor}`,
      'give a part of the speed of light above 0 and at most 1, such as 0.87',
    );
  const whole = traceOf(rows);
  if (whole.mhz.length === 0)
    return refuse('no-readings', `${rows.length} rows`, 'no row has both a frequency and a level');
  const trace = without(rows, deadCarriers(whole, rows));
  const parts = searchParts(trace);
  const findings = [
    ...parts.flatMap((part) => findingOf(part, parts, velocityFactor) ?? []),
    ...missingCarriers(whole, rows),
  ].sort((a, b) => KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind) || placeOf(a) - placeOf(b));
  const limits = rippleLimits(trace.stepMhz, trace.widestMhz);
  return done({
    findings,
    bumps: parts.flatMap((part) => {
      if (part.kind !== 'bell' || part.told) return [];
      const { centerMhz, heightDb, widthMhz } = part.bell;
      return [{ centerMhz, heightDb, widthMhz }];
    }),
    rowCount: whole.mhz.length,
    velocityFactor,
    ripplePeriods: limits.longestMhz > limits.shortestMhz && limits.shortestMhz > 0 ? limits : null,
  });
}
