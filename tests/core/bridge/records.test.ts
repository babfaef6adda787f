import { describe, expect, it } from 'vitest';
import { MeterChoice, Moment, Reading } from '../../../core/bridge/records.ts';

const reading = { frequencyMhz: 55.25, meterDbmv: 12.5, kind: 'analog', takenAt: '2030-05-04T10:00:00.000Z' };

describe('a reading', () => {
  it('has a level, or says that there is none', () => {
    expect(Reading.parse(reading)).toEqual(reading);
    expect(Reading.parse({ ...reading, meterDbmv: null, kind: null }).meterDbmv).toBeNull();
  });

  it.each([
    { meterDbmv: Number.NaN },
    { meterDbmv: Number.NEGATIVE_INFINITY },
    { meterDbmv: '12.5' },
    { frequencyMhz: 0 },
    { kind: 'laser' },
    { takenAt: '2030-05-04' },
    { levelDbmv: 12.5 },
  ])('is never with %j', (wrong) => {
    expect(Reading.safeParse({ ...reading, ...wrong }).success).toBe(false);
  });
});

// RFC 3339, section 5.6: the date, T, the time, and Z for UTC; section 5.7: no 29 February in a year that has none.
it.each([
  ['2030-05-04T10:00:00Z', true],
  ['2030-05-04T10:00:00.125Z', true],
  ['2028-02-29T10:00:00Z', true],
  ['2030-02-29T10:00:00Z', false],
  ['2030-05-04T10:00:00+02:00', false],
  ['2030-05-04T10:00:00', false],
  ['2030-05-04 10:00:00Z', false],
])('a moment is UTC and says so: %s', (text, good) => {
  expect(Moment.safeParse(text).success).toBe(good);
});

it('a serial meter has a path and a profile, the simulated one neither', () => {
  const serial = { kind: 'serial', path: '/dev/ttyUSB0', profile: 'scpi' };
  expect(MeterChoice.parse(serial)).toEqual(serial);
  expect(MeterChoice.safeParse({ kind: 'serial', path: '/dev/ttyUSB0' }).success).toBe(false);
  expect(MeterChoice.safeParse({ kind: 'serial', path: ' ', profile: 'scpi' }).success).toBe(false);
  expect(MeterChoice.safeParse({ kind: 'simulated', path: '/dev/ttyUSB0' }).success).toBe(false);
});
