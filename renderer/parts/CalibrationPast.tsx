import { capital } from '../format.ts';
import { Mark } from './Mark.tsx';

export type CalibrationPastProps = Readonly<{
  calibration: Readonly<{ at: 'unknown' | 'good' | 'past'; words: string }>;
}>;

/** Says that what is read, or was read, comes from a meter whose calibration no longer counted; else nothing. */
export const CalibrationPast = ({ calibration }: CalibrationPastProps) =>
  calibration.at === 'past' ? (
    <b className="calibration-past">
      <Mark verdict="fail" pointing="up" /> {capital(calibration.words)}
    </b>
  ) : null;
