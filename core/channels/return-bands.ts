import { FREQUENCY, type Unfit, unfit } from '../checked.ts';
import { done, type Result } from '../result.ts';

/** Where return signals travel, and where the forward band begins above them. */
export type ReturnBand = Readonly<{
  label: string;
  lowMhz: number;
  highMhz: number;
  /** Null where no source that was read or remembered gives it. */
  forwardFromMhz: number | null;
  region: string;
  /** Both ends of the return band. */
  basis: 'read' | 'from memory';
  source: string;
}>;

/** Narrowest first. */
export const RETURN_BANDS: readonly ReturnBand[] = [
  {
    label: '5 to 42 MHz',
    lowMhz: 5,
    highMhz: 42,
    forwardFromMhz: 54,
    region: 'North America',
    basis: 'read',
    source: 'Hranac, "Band Splits", broadbandlibrary.com; forward from the lower edge of channel 2',
  },
  {
    label: '5 to 65 MHz',
    lowMhz: 5,
    highMhz: 65,
    forwardFromMhz: null,
    region: 'Europe',
    basis: 'read',
    source: '"Cable TV Return-Path Transmission Characteristics", Broadband Cable TV Access Networks, 2001',
  },
  {
    label: '5 to 85 MHz',
    lowMhz: 5,
    highMhz: 85,
    forwardFromMhz: 108,
    region: 'mid split',
    basis: 'from memory',
    source: 'from memory; CM-SP-PHYv3.1 is the document to look in',
  },
  {
    label: '5 to 204 MHz',
    lowMhz: 5,
    highMhz: 204,
    forwardFromMhz: 258,
    region: 'high split',
    basis: 'from memory',
    source: 'from memory; CM-SP-PHYv3.1 is the document to look in',
  },
];

/**
 * Whether a signal at this frequency travels back in a network with this split.
 * @param frequencyMhz  MHz, above 0
 * @returns  `return`, `forward`, or `neither` below the band and in the gap of the diplex filters; where it is unknown
 *           from where forward signals travel, everything above is `neither`, because nothing better is known
 * @source   see `RETURN_BANDS`: each names its own
 */
export function directionAt(
  band: ReturnBand,
  frequencyMhz: number,
): Result<'return' | 'neither' | 'forward', Unfit> {
  const wrong = unfit([['frequency', frequencyMhz, FREQUENCY]]);
  if (wrong !== null) return wrong;
  if (frequencyMhz >= band.lowMhz && frequencyMhz <= band.highMhz) return done('return');
  return done(band.forwardFromMhz !== null && frequencyMhz >= band.forwardFromMhz ? 'forward' : 'neither');
}
