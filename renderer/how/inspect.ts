import { VELOCITY_FACTOR } from '../../core/inspect/distance.ts';
import type { Finding } from '../../core/inspect/finding.ts';
import { lengthWords, mhz, oneDecimal, signedDb, sizeDb } from '../format.ts';
import { type How, PRACTICE, plainHow } from './how.ts';

type LengthUnit = 'm' | 'ft';
/** As exact as a sweep can know it. */
const near = (frequencyMhz: number): string => mhz(Number(frequencyMhz.toFixed(1)));

/** A finding as the sheet says it: what, how much, where. */
export function findingWords(finding: Finding, unit: LengthUnit): string {
  switch (finding.kind) {
    case 'ripple':
      return `Ripple of ${sizeDb(finding.peakToPeakDb)} every ${near(finding.periodMhz)}: two mismatches ${lengthWords(finding.distanceM, unit)} apart`;
    case 'notch':
      return `Notch at ${near(finding.centerMhz)}, ${sizeDb(finding.depthDb)} deep, ${near(finding.widthMhz)} wide`;
    case 'rolloff':
      return `Roll-off at the ${finding.edge} end from ${near(finding.fromMhz)}, ${sizeDb(finding.depthDb)}`;
    case 'missing':
      return `No carrier at ${mhz(finding.frequencyMhz)}`;
    case 'step':
      return `Step of ${signedDb(finding.stepDb)} at ${near(finding.atMhz)}`;
  }
}

const FOUND =
  'Line, ripples, notches, roll-offs and steps are fitted together by least squares; a part is told only where chance alone would hardly make one.';

/** How a finding was made, and for a ripple how its distance was. */
export function howFinding(finding: Finding, unit: LengthUnit): How {
  switch (finding.kind) {
    case 'ripple':
      return plainHow({
        title: 'Distance of the mismatches',
        value: lengthWords(finding.distanceM, unit),
        words: `An echo that has gone to and fro between two mismatches is in step and out of step by turns, once every ${near(finding.periodMhz)}. One of the two is often the test point or the station itself.`,
        formula: `v \u00B7 c / (2 \u00B7 period) = ${VELOCITY_FACTOR} \u00B7 299.79 / (2 \u00B7 ${oneDecimal(finding.periodMhz)}) = ${finding.distanceM.toFixed(1)} m`,
        judged: `Velocity factor ${VELOCITY_FACTOR}, that of foamed hardline; the cable\u2019s data sheet says its own.`,
        source:
          'R. Hranac, \u201CHow Fast is RF?\u201D; c = 299,792,458 m/s exactly. The period: least squares over unequally spaced channels (N. R. Lomb, 1976).',
      });
    case 'notch':
      return plainHow({
        title: 'Notch',
        value: sizeDb(finding.depthDb),
        words: `How deep the hollow at ${near(finding.centerMhz)} is below the rest of the sweep, and how wide at half of that.`,
        formula: 'level \u2212 fitted line = \u2212depth \u00B7 bell((f \u2212 centre) / width)',
        source: `${FOUND} The bell: ${PRACTICE.toLowerCase()}`,
      });
    case 'rolloff':
      return plainHow({
        title: 'Roll-off',
        value: sizeDb(finding.depthDb),
        words: `How far the ${finding.edge} end has fallen below the line of the rest, and from where on.`,
        formula: 'line of the rest \u2212 level, at the end of the band',
        source: `${FOUND} ${PRACTICE}`,
      });
    case 'missing':
      return plainHow({
        title: 'No carrier',
        value: mhz(finding.frequencyMhz),
        words: 'The raster of the others has a channel here, and nothing was read at its level.',
        formula: 'the spacing of its neighbours',
        source: PRACTICE,
      });
    case 'step':
      return plainHow({
        title: 'Step',
        value: signedDb(finding.stepDb),
        words: `The level jumps between the channels on both sides of ${near(finding.atMhz)} and stays there.`,
        formula: 'line above \u2212 line below, one slope for both',
        source: `${FOUND} ${PRACTICE}`,
      });
  }
}
