import type { StationStanding } from '../line/standing.ts';

/**
 * Whether what is wrong is the shape alone: both levels and the tilt are what the design asks for, and only flatness is
 * not. A plug-in that halves the depth of a dip lifts every other channel off its level, so the cause comes first: a
 * connector, the span, a module.
 * @param standing  how the sweep stands against its design
 * @source   common practice, no published source
 */
export const isShapeFault = ({ levelLow, levelHigh, tilt, flatness }: StationStanding): boolean =>
  levelLow.verdict === 'pass' &&
  levelHigh.verdict === 'pass' &&
  tilt.verdict === 'pass' &&
  flatness.verdict === 'fail';
