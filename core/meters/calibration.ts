/** What is known of a meter's calibration: days as YYYY-MM-DD. */
export type KnownCalibration = Readonly<{
  /** When it was calibrated last, as the meter tells it. */
  calibratedOn?: string | undefined;
  /** The last day on which that counts, as its sticker says. */
  calibrationDueOn?: string | undefined;
}>;

export type Calibration =
  | Readonly<{ at: 'unknown' }>
  | Readonly<{ at: 'good' | 'past'; dueOn: string; told: 'sticker' | 'meter' }>;

/**
 * Whether a meter's calibration counts on a day. The sticker goes first, unless the meter was calibrated after it; a
 * meter that tells only when it was calibrated is due a year later.
 * @param onDay  YYYY-MM-DD, as the other days are; ISO dates compare as text
 * @source a year between calibrations: common practice, no published source
 */
export function calibrationAt(known: KnownCalibration, onDay: string): Calibration {
  const { calibratedOn, calibrationDueOn } = known;
  const sticker =
    calibrationDueOn !== undefined && (calibratedOn === undefined || calibratedOn <= calibrationDueOn);
  const dueOn = sticker ? calibrationDueOn : calibratedOn === undefined ? undefined : yearAfter(calibratedOn);
  if (dueOn === undefined) return { at: 'unknown' };
  return { at: onDay > dueOn ? 'past' : 'good', dueOn, told: sticker ? 'sticker' : 'meter' };
}

/** The same day of the next year; the last of February stands for a day that it has not. */
function yearAfter(day: string): string {
  const next = `${String(Number(day.slice(0, 4)) + 1).padStart(4, '0')}${day.slice(4)}`;
  return next.endsWith('-02-29') ? next.replace(/29$/, '28') : next;
}
