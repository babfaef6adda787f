import { z } from 'zod';

const halfWidthDb = z.number().min(0).max(20);

/**
 * How far a level may be wrong, part by part. The one place of these defaults: common practice, no published source; a
 * meter's data sheet goes before them.
 */
export const MeterUncertainty = z.strictObject({
  /** Half-width, dB: the meter reads all channels too high or too low by up to this. */
  accuracyDb: halfWidthDb.default(0.5),
  /** Half-width, dB: by up to this the meter's error at one end of the band differs from that at the other. */
  acrossBandDb: halfWidthDb.default(0.3),
  /** Standard deviation, dB: how one reading of a channel differs from the next. */
  repeatabilityDb: halfWidthDb.default(0.125),
  /** Half-width, dB: how far the test point's loss may lie from what is printed beside it. */
  testPointToleranceDb: halfWidthDb.default(0.3),
  /** dB per degree C: how the meter drifts away from the temperature it was calibrated at. */
  temperatureDbPerC: z.number().min(0).max(1).default(0.01),
  calibratedAtC: z.number().min(-40).max(85).default(23),
});
export type MeterUncertainty = z.infer<typeof MeterUncertainty>;
