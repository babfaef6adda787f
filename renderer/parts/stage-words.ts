import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { StageInputNote } from '../../core/propose/stage-input.ts';
import { bareLevel, level, mhz, sizeDb } from '../format.ts';

/** How the stage input's limit stands, in the unit that levels are shown in. */
export function stageWords(note: StageInputNote, portName: string, unit: LevelUnitName): string {
  const range = `${bareLevel(note.minDbmv, unit)} to ${level(note.maxDbmv, unit)} at ${mhz(note.atMhz)}`;
  if (!note.applied || note.beforeDbmv === undefined || note.levelDbmv === undefined)
    return `Stage limit ${range} not applied: ${portName} not read.`;
  const levels = `Stage input ${level(note.beforeDbmv, unit)} now, ${level(note.levelDbmv, unit)} then`;
  if (note.missDb === undefined) return `${levels}; its limit is ${range}.`;
  const side = note.missedLimit === 'min' ? 'below' : 'above';
  return `${levels}: ${sizeDb(note.missDb)} ${side} its limit, ${range}. Nothing in the kit meets it.`;
}
