import type { Finding } from '../inspect/finding.ts';
import { bareMhz, lengthWords, mhz, signedDb, sizeDb } from '../words/numbers.ts';

/** As exact as a sweep can know it. */
const near = (frequencyMhz: number): string => `${bareMhz(Number(frequencyMhz.toFixed(1)))}\u00A0MHz`;

/**
 * What was found in a sweep, in one sentence each.
 * @param finding  MHz, dB and metres
 * @param unit     of lengths
 * @returns  a sentence with its full stop
 * @source   the finding: see its finder; the words are this program's own
 */
export function findingWords(finding: Finding, unit: 'm' | 'ft'): string {
  switch (finding.kind) {
    case 'ripple':
      return `Ripple: ${sizeDb(finding.peakToPeakDb)} peak to peak every ${near(finding.periodMhz)}; two mismatches ${lengthWords(finding.distanceM, unit)} apart.`;
    case 'notch':
      return `Notch: ${sizeDb(finding.depthDb)} deep at ${near(finding.centerMhz)}, ${near(finding.widthMhz)} wide.`;
    case 'rolloff':
      return `Roll-off: ${sizeDb(finding.depthDb)} at the ${finding.edge} end, from ${near(finding.fromMhz)}.`;
    case 'missing':
      return `Missing: no carrier at ${mhz(finding.frequencyMhz)}.`;
    case 'step':
      return `Step: ${signedDb(finding.stepDb)} at ${near(finding.atMhz)}.`;
  }
}
