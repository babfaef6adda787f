import type { MeterUncertainty } from '../files/meter-uncertainty.ts';

/**
 * The invented data sheet of the simulated meter: better than what is taken for a meter without one, as a bench meter's
 * would be. The simulated readings themselves are off by no more than their noise.
 */
export const BENCH_METER: Readonly<{ model: string; sheet: MeterUncertainty }> = {
  model: 'Bench Level Meter',
  sheet: {
    accuracyDb: 0.2,
    acrossBandDb: 0.1,
    repeatabilityDb: 0.05,
    testPointToleranceDb: 0.1,
    temperatureDbPerC: 0.004,
    calibratedAtC: 23,
  },
};
