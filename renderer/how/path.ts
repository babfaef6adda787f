import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { Position } from '../../core/files/station.ts';
import { lossDb } from '../../core/plug-ins/loss.ts';
import { level, mhz, oneDecimal, plugIn, sizeDb } from '../format.ts';
import { type How, plainHow } from './how.ts';

export type PathLevel = Readonly<{
  portName: string;
  levelDbmv: number;
  atMhz: number;
  /** Channels that the line goes through. */
  count: number;
  testPointLossDb: number;
}>;

/** The level at an end of the signal path. */
export const howPathLevel = (end: 'in' | 'out', at: PathLevel, unit: LevelUnitName): How =>
  plainHow({
    title: end === 'in' ? 'Level at the input' : 'Level at the output',
    value: `${level(at.levelDbmv, unit)} at ${mhz(at.atMhz)}`,
    words: `The straight line through the ${at.count} channels of the sweep of the ${at.portName}, read off at its high end. Each level is what the meter read and the ${sizeDb(at.testPointLossDb)} of the test point.`,
    formula: 'level = meter + test point loss; L(f) = a + b \u00B7 x(f)',
    source: 'Ordinary least squares. The test point\u2019s loss: the station file, kept with the sweep.',
  });

/** What one plug-in takes away at the two ends of a band, as the path shows it: "12.0 dB", "10.1 to 1.0 dB". */
export function lossWords(
  position: Position,
  valueDb: number,
  band: Readonly<{ lowMhz: number; highMhz: number }>,
): string {
  const [low, high] = [lossDb(position, valueDb, band.lowMhz), lossDb(position, valueDb, band.highMhz)];
  return Math.abs(low - high) < 0.05 ? sizeDb(high) : `${oneDecimal(low)} to ${sizeDb(high)}`;
}

function formulaOf(position: Position, valueDb: number, atMhz: number): string {
  const is = `= ${sizeDb(lossDb(position, valueDb, atMhz))}`;
  if (position.curves?.[String(valueDb)] !== undefined) return `its measured curve at ${mhz(atMhz)} ${is}`;
  const root = position.kind === 'pad' ? '' : `\u221A(${plugIn(atMhz)} / ${plugIn(position.topMhz)})`;
  switch (position.kind) {
    case 'pad':
      return `the value on its label ${is}`;
    case 'equalizer':
      if (valueDb === 0) return `a jumper ${is}`;
      return `${plugIn(position.insertionLossDb)} + ${plugIn(valueDb)} \u00B7 (1 \u2212 ${root}) ${is}`;
    case 'cable-simulator':
      if (valueDb === 0) return `a jumper ${is}`;
      return `${plugIn(position.insertionLossDb)} + ${plugIn(valueDb)} \u00B7 ${root} ${is}`;
  }
}

/** What a plug-in takes away. */
export function howLoss(
  position: Position,
  valueDb: number,
  band: Readonly<{ lowMhz: number; highMhz: number }>,
): How {
  const isMeasured = position.curves?.[String(valueDb)] !== undefined;
  return plainHow({
    title: `What the ${position.name} ${plugIn(valueDb)} takes away`,
    value: lossWords(position, valueDb, band),
    words: `Its loss at ${mhz(band.lowMhz)} and at ${mhz(band.highMhz)}, the ends of the design.`,
    formula: formulaOf(position, valueDb, band.highMhz),
    items: [
      { name: mhz(band.lowMhz), text: sizeDb(lossDb(position, valueDb, band.lowMhz)) },
      { name: mhz(band.highMhz), text: sizeDb(lossDb(position, valueDb, band.highMhz)) },
    ],
    source: isMeasured
      ? 'The station file\u2019s measured curve for this value, straight lines between its points.'
      : 'Top frequency and insertion loss: the station file. The value: the label of the part, which may lie off it by its tolerance.',
  });
}
