import { describe, expect, it } from 'vitest';
import { climateOfRecords, readClimate } from '../../../core/files/climate.ts';

const read = (text: string) => readClimate(text, 'year.csv');

describe('a file of daily temperatures', () => {
  it('gives the days in their order, the coldest and the hottest', () => {
    const climate = read('date,min_c,max_c\n2026-01-02,-8,1.5\n2026-01-01,-12.5,-3\n2026-07-01,14,33\n');
    expect(climate.ok && climate.value).toEqual({
      days: [
        { date: '2026-01-01', minC: -12.5, maxC: -3 },
        { date: '2026-01-02', minC: -8, maxC: 1.5 },
        { date: '2026-07-01', minC: 14, maxC: 33 },
      ],
      coldestC: -12.5,
      hottestC: 33,
      withoutReading: [],
    });
  });

  // 14 F is -10 C and 50 F is 10 C, by definition.
  it('reads Fahrenheit, semicolons, decimal commas, other words, comments and a byte order mark', () => {
    const climate = read('\uFEFF# airport\r\nDay;T max (°F);T min (°F)\r\n2026-01-01;50,0;14,0\r\n');
    expect(climate.ok && climate.value.days[0]?.date).toBe('2026-01-01');
    expect(climate.ok && climate.value.coldestC).toBeCloseTo(-10, 12);
    expect(climate.ok && climate.value.hottestC).toBeCloseTo(10, 12);
  });

  it('keeps a day without a reading as a gap', () => {
    const climate = read('date,min_c,max_c\n2026-01-01,,1\n2026-01-02,-1,1\n2026-01-03,-,-\n');
    expect(climate.ok && climate.value.withoutReading).toEqual(['2026-01-01', '2026-01-03']);
    expect(climate.ok && climate.value.days).toHaveLength(1);
  });

  it.each([
    ['', 'empty', 'year.csv'],
    ['date,min,max\n2026-01-01,1,2\n', 'no-unit', 'line 1'],
    ['date,min_c\n2026-01-01,1\n', 'no-column', 'line 1'],
    ['date,min_c,min_c,max_c\n2026-01-01,1,1,2\n', 'no-column', 'line 1'],
    ['date,min_c,max_c\n01/02/2026,1,2\n', 'bad-date', 'line 2, date'],
    ['date,min_c,max_c\n2026-02-30,1,2\n', 'bad-date', 'line 2, date'],
    ['date,min_c,max_c\n2026-01-01,mild,2\n', 'not-a-number', 'line 2, minimum'],
    ['date,min_c,max_c\n2026-01-01,1,95\n', 'out-of-range', 'line 2, maximum'],
    ['date,min_c,max_c\n2026-01-01,3,2\n', 'min-above-max', 'line 2'],
    ['date,min_c,max_c\n2026-01-01,1,2\n2026-01-01,1,2\n', 'twice', '2026-01-01'],
    ['date,min_c,max_c\n2026-01-01,,\n', 'no-days', 'year.csv'],
    ['date,min_c,max_c\n', 'no-days', 'year.csv'],
    ['date,min_c,max_c\n"2026-01-01,1,2\n', 'bad-quotes', 'year.csv'],
  ])('refuses %j as %s', (text, code, where) => {
    const climate = read(text);
    if (climate.ok) throw new Error('taken');
    expect(climate.code).toBe(code);
    expect(climate.where).toContain(where);
    expect(climate.help).not.toBe('');
  });
});

describe('a climate of two numbers', () => {
  it('has no days', () => {
    const climate = climateOfRecords(-30, 40);
    expect(climate.ok && climate.value).toEqual({
      days: [],
      coldestC: -30,
      hottestC: 40,
      withoutReading: [],
    });
  });

  it.each([
    [40, -30],
    [Number.NaN, 40],
    [-30, 400],
  ])('is refused as %d to %d', (coldestC, hottestC) => {
    expect(climateOfRecords(coldestC, hottestC).ok).toBe(false);
  });
});
