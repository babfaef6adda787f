import type { PluggedIn } from '../files/station.ts';
import type { Verdict } from '../uncertainty/conformity.ts';

/** What is followed over the years. Level and tilt are told by how far they lie from the design, dB; flatness as it is. */
export const followed = ['level', 'tilt', 'flatness'] as const;
export type Followed = (typeof followed)[number];

/** What one complete sweep at a port with a design came to. */
export type SweepFigures = Readonly<{
  sweepId: string;
  visitId: string;
  /** Milliseconds since 1970 UTC. */
  atMs: number;
  purpose: 'as-found' | 'as-left';
  ambientC: number | null;
  revision: number;
  pluggedIn: PluggedIn;
  verdict: Verdict;
  /** The fitted line at the design's high frequency less the design there, dB. */
  levelDb: number;
  /** The fitted line's tilt less the design's, dB. */
  tiltDb: number;
  flatnessDb: number;
  /** The channel farthest from its target, with its sign, dB. */
  worstDb: number;
  worstMhz: number;
}>;

/**
 * One of the followed figures.
 * @returns  dB
 * @source   core/line/standing.ts
 */
export function figureDb(
  figures: Pick<SweepFigures, 'levelDb' | 'tiltDb' | 'flatnessDb'>,
  of: Followed,
): number {
  switch (of) {
    case 'level':
      return figures.levelDb;
    case 'tilt':
      return figures.tiltDb;
    case 'flatness':
      return figures.flatnessDb;
  }
}

/** Where a figure has to stay, dB. */
export type FigureLimits = Readonly<{ fromDb: number | null; toDb: number | null }>;

/**
 * Where a figure has to stay: a level within the tolerance, tilt within twice that, flatness up to the design's.
 * @param design  toleranceDb and flatnessDb, above 0
 * @returns  dB; null where that side has no limit
 * @source   contract, section 2, `toleranceDb` and `flatnessDb`; tilt as in core/line/standing.ts
 */
export function limitsOf(
  of: Followed,
  design: Readonly<{ toleranceDb: number; flatnessDb: number }>,
): FigureLimits {
  switch (of) {
    case 'level':
      return { fromDb: -design.toleranceDb, toDb: design.toleranceDb };
    case 'tilt':
      return { fromDb: -2 * design.toleranceDb, toDb: 2 * design.toleranceDb };
    case 'flatness':
      return { fromDb: null, toDb: design.flatnessDb };
  }
}
