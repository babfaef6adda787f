/** Where return signals travel, narrowest first, and where that split is usual. */
export type ReturnBand = Readonly<{ lowMhz: number; highMhz: number; region: string }>;

/**
 * 5 to 42 MHz: Hranac, "Band Splits", broadbandlibrary.com. 5 to 65: "Cable TV Return-Path Transmission Characteristics",
 * Broadband Cable TV Access Networks, 2001. The others are from memory; CM-SP-PHYv3.1 is the document to look in.
 */
export const RETURN_BANDS: readonly ReturnBand[] = [
  { lowMhz: 5, highMhz: 42, region: 'North America' },
  { lowMhz: 5, highMhz: 65, region: 'Europe' },
  { lowMhz: 5, highMhz: 85, region: 'mid split' },
  { lowMhz: 5, highMhz: 204, region: 'high split' },
];
