/** Whole hertz, so that sums are exact and 61.25 MHz is 61.25 and nothing beside it. */
export const HZ_PER_MHZ = 1_000_000;

/**
 * A whole number of hertz in MHz: one division, so the nearest number to the decimal that a table prints.
 * @param frequencyHz  Hz, whole
 * @returns  MHz
 * @source   definition
 */
export const mhzFromHz = (frequencyHz: number): number => frequencyHz / HZ_PER_MHZ;

/**
 * The nearest whole hertz to a frequency in MHz.
 * @param frequencyMhz  MHz
 * @returns  Hz, whole
 * @source   definition
 */
export const hzFromMhz = (frequencyMhz: number): number => Math.round(frequencyMhz * HZ_PER_MHZ);
