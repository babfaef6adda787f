import { describe, expect, it } from 'vitest';
import { quillmere } from '../../../core/simulate/quillmere.ts';
import type { Weather } from '../../../renderer/state/season-slice.ts';
import { viewSeason } from '../../../renderer/state/season-view.ts';
import {
  chanceWords,
  remedyWords,
  seasonHeadline,
  seasonSentences,
} from '../../../renderer/state/season-words.ts';

const named = (name: string) => {
  const found = quillmere.find(({ station }) => station.name === name);
  if (found === undefined) throw new Error(`no ${name}`);
  return found.station;
};
const records = (coldestC: number, hottestC: number): Weather => ({
  climate: { days: [], coldestC, hottestC, withoutReading: [] },
  fileName: null,
  isAssumed: false,
});
const plain = (text: string) => text.replaceAll('\u00A0', ' ');
const view = (name: string, weather: Weather, mode: 'manual' | 'thermal' | 'auto' | null = null) => {
  const seen = viewSeason(named(name), weather, 15, mode);
  if ('missing' in seen) throw new Error(seen.missing);
  return seen;
};

// The figures: contract section 3, "season, exactly", worked by hand for a span of 28 dB at 870 MHz, 0.002 a degree,
// set at 20 °C with 0.5 dB down: 0.056 dB a degree, so its end is 8.93 degrees below, and 1 dB more 17.86 further.
describe('Lighthouse Rise, whose control was left with half a decibel downward', () => {
  const year = view('19 Lighthouse Rise', records(-28, 41));

  it('says in words from where to where it holds, and where the control runs out', () => {
    expect(year.limit.coldC).toBeCloseTo(20 - 0.5 / 0.056, 9);
    expect(year.tolerance.coldC).toBeCloseTo(20 - 1.5 / 0.056, 9);
    expect(plain(seasonHeadline(year, 'C'))).toBe('Holds only from \u22127 to 41 °C');
    expect(plain(seasonHeadline(year, 'F'))).toBe('Holds only from 20 to 106 °F');
    expect(seasonSentences(year, 'C').map(plain)).toEqual([
      'The control runs out below 11 °C.',
      'The level leaves ±1.0 dB below \u22127 °C.',
    ]);
  });

  it('names the first day of a file of days on which it can not hold, and how many there are', () => {
    const days = [
      { date: '2025-01-13', minC: 12, maxC: 18 },
      { date: '2025-01-14', minC: -9, maxC: 2 },
      { date: '2025-01-15', minC: 5, maxC: 16 },
    ];
    const dated = view('19 Lighthouse Rise', {
      climate: { days, coldestC: -9, hottestC: 18, withoutReading: [] },
      fileName: 'quillmere.csv',
      isAssumed: false,
    });
    expect(seasonSentences(dated, 'C').map(plain)).toEqual([
      'The control runs out below 11 °C, first on a day like 14 January, \u22129 °C, on 2 days of 3.',
      'The level leaves ±1.0 dB below \u22127 °C, first on a day like 14 January, \u22129 °C, on 1 day of 3.',
    ]);
  });

  it('says what alone would be enough, with the smallest figure', () => {
    // 48 degrees below 20 °C ask for 2.688 dB; 0.5 are there and 1.0 may go wrong: 1.188 dB are missing.
    const words = year.help.remedies.map((remedy) => plain(remedyWords(remedy)));
    expect(words[0]).toMatch(/^Set the control 1\.2 dB nearer to its maximum \(1\.2 to \d\.\d dB does\)\.$/);
    expect(words).toContain('A control that reaches 1.2 dB further down.');
    expect(words.some((one) => one.startsWith('Input pad 6 to 8'))).toBe(true);
  });
});

it('is calm where the year holds, and says what is left on the coldest and the hottest day', () => {
  const year = view('03 Ropewalk', records(-28, 41));
  expect(plain(seasonHeadline(year, 'C'))).toBe('Holds all year, \u221228 to 41 °C');
  expect(seasonSentences(year, 'C').map(plain)).toEqual([
    // 22 dB, 0.044 dB a degree: 48 down of 6 dB, 36 up (41 in the air, 15 of sun) of 4 dB.
    'On the coldest day the control still has 3.9 dB to go down, on the hottest 2.4 dB to go up.',
  ]);
});

it('takes a tracking for a thermal control whose file says none, and says that it did', () => {
  const thermal = view('03 Ropewalk', records(-28, 41), 'thermal');
  expect(thermal.trackingTaken).toBe(true);
  expect(thermal.plan.thermalTracking).toBe(0.8);
  expect(view('03 Ropewalk', records(-28, 41), 'auto').trackingTaken).toBe(false);
});

it('names what is missing where a station has no span', () => {
  expect(viewSeason(named('Bench module B2'), records(-28, 41), 15, null)).toHaveProperty('missing');
});

it('never claims a chance of all or nothing', () => {
  expect(plain(chanceWords(1))).toBe('over 99 %');
  expect(plain(chanceWords(0.9321))).toBe('93 %');
  expect(plain(chanceWords(0))).toBe('under 1 %');
});
