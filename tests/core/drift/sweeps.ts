import type { SweepFigures } from '../../../core/drift/figures.ts';

export const YEAR_MS = 365.25 * 86_400_000;
export const START_MS = Date.UTC(2022, 0, 1);

/** One sweep's figures, `years` after the start; each its own visit unless told. */
export const sweep = (
  n: number,
  over: Partial<SweepFigures> & Readonly<{ years?: number }> = {},
): SweepFigures => {
  const { years = n, ...rest } = over;
  return {
    sweepId: `sweep-${n}`,
    visitId: `visit-${n}`,
    atMs: START_MS + years * YEAR_MS,
    purpose: 'as-found',
    ambientC: 20,
    revision: 1,
    pluggedIn: { 'input pad': 4 },
    verdict: 'pass',
    levelDb: 0,
    tiltDb: 0,
    flatnessDb: 1,
    worstDb: 0.3,
    worstMhz: 870,
    ...rest,
  };
};
