import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { type LevelUnit, levelFrom, levelIn } from '../../core/units.ts';
import { bareLevel } from '../format.ts';
import { type Span, ticksOf } from './scale.ts';

export type LevelTick = Readonly<{ levelDbmv: number; text: string }>;

const units: Record<Exclude<LevelUnitName, 'mV'>, LevelUnit> = {
  dBmV: 'dBmV',
  dBuV: 'dBuV',
  dBm75: 'dBm 75 ohm',
  dBm50: 'dBm 50 ohm',
};
/** Round millivolts, the densest row first; the axis stays one of decibels, so they stand closer towards the top. */
const roundMv = [
  [1, 1.2, 1.4, 1.6, 1.8, 2, 2.5, 3, 3.5, 4, 5, 6, 7, 8, 9],
  [1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8],
  [1, 1.5, 2, 3, 5, 7],
  [1, 2, 5],
  [1],
];

/** Round numbers of the chosen unit along an axis of dBmV, as many as there is room for. */
export function levelTicks(span: Span, unit: LevelUnitName, wanted: number): readonly LevelTick[] {
  if (unit === 'mV') return millivoltTicks(span, wanted);
  const zero = levelIn(units[unit], 0);
  const byDb = zero.ok ? zero.value : 0;
  return ticksOf({ low: span.low + byDb, high: span.high + byDb }, wanted).map((tick) => ({
    levelDbmv: tick - byDb,
    text: String(tick).replace('-', '\u2212'),
  }));
}

function millivoltTicks(span: Span, wanted: number): readonly LevelTick[] {
  let found: LevelTick[] = [];
  for (const row of roundMv) {
    found = [];
    for (let power = -6; power <= 6; power++)
      for (const mantissa of row) {
        const at = levelFrom('mV', mantissa * 10 ** power);
        if (at.ok && at.value >= span.low && at.value <= span.high)
          found.push({ levelDbmv: at.value, text: String(Number(bareLevel(at.value, 'mV'))) });
      }
    if (found.length <= wanted) break;
  }
  return found;
}
