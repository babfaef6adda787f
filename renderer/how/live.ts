import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { Design } from '../../core/files/station.ts';
import { level, mhz, sizeDb } from '../format.ts';
import { type How, PRACTICE, plainHow } from './how.ts';

/** The target of a level that is peaked, and how its way is told. */
export const howPeaking = (
  target: Readonly<{ levelDbmv: number; atMhz: number; toleranceDb: number; design: Design | null }>,
  unit: LevelUnitName,
): How => {
  const { design, levelDbmv, atMhz, toleranceDb } = target;
  return plainHow({
    title: 'Target, distance and way',
    value: level(levelDbmv, unit),
    words: `${design === null ? 'A level that was set by hand.' : `The design line at ${mhz(atMhz)}, as an analog carrier has it: a kind that is carried lower is set by hand below.`} The distance is the newest reading less that.`,
    formula:
      design === null
        ? 'distance = level \u2212 target'
        : `${level(design.lowDbmv, unit)} at ${mhz(design.lowMhz)} to ${level(design.highDbmv, unit)} at ${mhz(design.highMhz)}, ${design.shape === 'linear' ? 'straight in f' : 'straight in \u221Af'}`,
    judged: `On target within \u00B1${sizeDb(toleranceDb)}. Rising or falling is said where a level that stands still would hardly look so; else steady.`,
    source: `Way: Student\u2019s t test of the slope of the newest readings. How near is near enough: ${PRACTICE.toLowerCase()}`,
  });
};
