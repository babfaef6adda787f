import { describe, expect, it } from 'vitest';
import { stationDrift } from '../../../core/drift/station-drift.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';
import {
  ageWords,
  basisWords,
  dayWords,
  leavingWords,
  missingWords,
  monthWords,
  sinceWords,
  slopeWords,
} from '../../../renderer/state/quality-words.ts';
import { START_MS, sweep, YEAR_MS } from '../../core/drift/sweeps.ts';

const DAY_MS = 86_400_000;
const plain = (text: string) => text.replaceAll('\u00A0', ' ');
const mill = quillmere.find(({ station }) => station.name === '07 Mill Lane')?.station;
const output = mill?.ports[0];
if (mill === undefined || output === undefined) throw new Error('Mill Lane is gone');
const drifted = (points: Parameters<typeof stationDrift>[2], station = mill) => {
  const drift = stationDrift(station, output, points);
  if (drift === null) throw new Error('no drift');
  return drift;
};
const noon = new Date(2026, 4, 3, 12).getTime();

it.each([
  [0, 'today'],
  [1, '1 day ago'],
  [20, '20 days ago'],
  [50, '7 weeks ago'],
  [200, '7 months ago'],
  [1000, '3 years ago'],
])('%i days are "%s"', (days, words) => {
  expect(plain(ageWords(noon - days * DAY_MS, noon))).toBe(words);
});
it('a clock that went back makes nothing younger than today', () =>
  expect(ageWords(noon + DAY_MS, noon)).toBe('today'));
it('a day and a month by the clock at this place', () => {
  expect(plain(dayWords(noon))).toBe('3 May 2026');
  expect(plain(monthWords(noon))).toBe('May 2026');
});

describe('a drift', () => {
  const drift = drifted([0, 1, 2, 3].map((n) => sweep(n, { levelDb: -0.2 * n })));
  const trend = drift.figures[0]?.trend;
  if (trend == null) throw new Error('no trend');
  it('says its slope with what it is good to', () =>
    expect(slopeWords(trend)).toMatch(/^\u22120\.20 ±0\.\d\d$/));
  it('says when it leaves as an interval', () => {
    expect(plain(leavingWords(trend, START_MS + 3 * YEAR_MS))).toMatch(
      /^It leaves its limit between \w+ 20\d\d and \w+ 20\d\d\.$/,
    );
  });
  it('has no minus before nothing', () => {
    expect(slopeWords({ ...trend, perYearDb: -0.001, toPerYearDb: 0.099 })).toBe('0.00 ±0.10');
  });
});

describe('what is missing', () => {
  it('is named with one sweep', () => {
    expect(plain(missingWords(drifted([sweep(1)])))).toBe(
      'A trend needs 2 more visits with a sweep as found or as left.',
    );
  });
  it('begins anew after a change, which is named', () => {
    const drift = drifted([sweep(1), sweep(2, { pluggedIn: { 'input pad': 3 } })]);
    expect(missingWords(drift)).toContain('What was changed begins a new count');
    const newest = drift.segments.at(-1);
    expect(plain(newest === undefined ? '' : sinceWords(newest))).toMatch(/\(input pad 4 to 3\): 1 sweep\.$/);
  });
});

it('says how the temperature was taken out, or that it was not', () => {
  expect(plain(basisWords(drifted([sweep(1)])))).toContain('what the span and the gain control explain');
  expect(plain(basisWords(drifted([sweep(1), sweep(2, { ambientC: null })])))).toContain(
    '1 sweep is left out',
  );
  const { span: _span, ...spanless } = mill;
  expect(plain(basisWords(drifted([sweep(1)], spanless)))).toContain('Not brought to one temperature');
});
