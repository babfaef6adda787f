import { describe, expect, it } from 'vitest';
import { calibrationAt } from '../../../core/meters/calibration.ts';

// A year between calibrations is common practice, no published source; the days are by the calendar.
describe('a calibration', () => {
  it('is unknown where neither the meter nor a sticker tells it', () =>
    expect(calibrationAt({}, '2026-03-01')).toEqual({ at: 'unknown' }));

  it.each([
    ['2026-03-01', 'good'],
    ['2027-01-15', 'good'],
    ['2027-01-16', 'past'],
  ])('that the meter tells counts for a year: on %s it is %s', (onDay, at) =>
    expect(calibrationAt({ calibratedOn: '2026-01-15' }, onDay)).toEqual({
      at,
      dueOn: '2027-01-15',
      told: 'meter',
    }),
  );

  it('of the 29th of February counts to the 28th of the next', () =>
    expect(calibrationAt({ calibratedOn: '2024-02-29' }, '2025-03-01')).toMatchObject({
      at: 'past',
      dueOn: '2025-02-28',
    }));

  it.each([
    ['2026-06-30', 'good'],
    ['2026-07-01', 'past'],
  ])('counts to the day on its sticker: on %s it is %s', (onDay, at) => {
    const known = { calibratedOn: '2026-01-15', calibrationDueOn: '2026-06-30' };
    expect(calibrationAt(known, onDay)).toEqual({ at, dueOn: '2026-06-30', told: 'sticker' });
  });

  it('that was made after the sticker ran out goes by the meter again', () =>
    expect(
      calibrationAt({ calibratedOn: '2026-08-01', calibrationDueOn: '2026-06-30' }, '2026-09-01'),
    ).toEqual({ at: 'good', dueOn: '2027-08-01', told: 'meter' }));
});
