import type { MeterIdentity } from '../../core/bridge/records.ts';
import { calibrationAt } from '../../core/meters/calibration.ts';
import { fullDay } from '../format.ts';

/** What to say of a meter's calibration on the day of a moment (UTC, ISO 8601). */
export function calibrationWords(
  identity: MeterIdentity,
  moment: string,
): Readonly<{ at: 'unknown' | 'good' | 'past'; words: string }> {
  const known = calibrationAt(identity, moment.slice(0, 10));
  switch (known.at) {
    case 'unknown':
      return { at: 'unknown', words: 'calibration date not known' };
    case 'good':
      return { at: 'good', words: `calibration counts to ${fullDay(known.dueOn)}` };
    case 'past':
      return { at: 'past', words: `calibration past since ${fullDay(known.dueOn)}` };
  }
}
