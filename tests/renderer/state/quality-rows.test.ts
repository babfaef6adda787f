import { describe, expect, it } from 'vitest';
import type { QualityStation, QualityTrend } from '../../../core/bridge/quality-calls.ts';
import type { Standing } from '../../../core/bridge/records.ts';
import { listCounts, recordRows, shownRows } from '../../../renderer/state/quality-rows.ts';

const now = Date.parse('2026-06-01T00:00:00.000Z');
const standing = (verdict: Standing['verdict'], worstDb: number | null): Standing => ({
  sweepId: '00000000-0000-4000-8000-000000000001',
  at: '2026-05-01T00:00:00.000Z',
  purpose: 'as-left',
  state: 'complete',
  verdict,
  headline: verdict === 'fail' ? 'low at the top' : '',
  worstDb,
  worstMhz: 870,
});
const station = (name: string, over: Partial<QualityStation> = {}): QualityStation => ({
  stationId: `id-${name}`,
  name,
  sweepCount: 2,
  openVisit: false,
  lastVisitAt: '2026-05-01T00:00:00.000Z',
  standing: standing('pass', 0.3),
  reserve: null,
  ...over,
});
const trend = (
  name: string,
  state: NonNullable<QualityTrend['drift']>['state'],
  perYearDb: number,
): QualityTrend => ({
  stationId: `id-${name}`,
  leftAsDesigned: true,
  drift: { state, words: 'w', perYearDb, line: [0, 1] },
});
const stations = [
  station('10 Mill Lane', { standing: standing('fail', -2.1) }),
  station('2 Ropewalk', { standing: standing('undecided', 1.1), lastVisitAt: '2024-05-01T00:00:00.000Z' }),
  station('1 Customs Quay', { standing: null, sweepCount: 0, lastVisitAt: null }),
  station('3 Saltpan Road', { reserve: { leftDb: 1.5, askedDb: 4 } }),
];
const trends = Object.fromEntries(
  [
    trend('10 Mill Lane', 'drifting', -0.2),
    trend('2 Ropewalk', 'drifting', 0.9),
    { ...trend('3 Saltpan Road', 'steady', 0), leftAsDesigned: false },
  ].map((one) => [one.stationId, one]),
);
const rows = recordRows({ stations, trends }, now, 12);
const names = (...args: [Parameters<typeof shownRows>[1], string, Parameters<typeof shownRows>[3]]) =>
  shownRows(rows, ...args).map((row) => row.station.name.split(' ')[0]);

it('puts each station on its lists and counts them', () => {
  expect(rows.map(({ lists }) => lists)).toEqual([
    ['drifting'],
    ['due', 'drifting', 'undecided'],
    ['due'],
    ['never-left'],
  ]);
  expect(listCounts(rows)).toEqual({ due: 2, drifting: 2, undecided: 1, 'never-left': 1 });
});

describe('the order', () => {
  it('of names counts numbers as numbers', () => {
    expect(names('all', '', { by: 'name', isDown: false })).toEqual(['1', '2', '3', '10']);
    expect(names('all', '', { by: 'name', isDown: true })).toEqual(['10', '3', '2', '1']);
  });
  it('of standing puts trouble first', () => {
    expect(names('all', '', { by: 'standing', isDown: false })).toEqual(['10', '2', '1', '3']);
  });
  it('of the worst channel goes by size, and what was never read is last either way', () => {
    expect(names('all', '', { by: 'worst', isDown: true })).toEqual(['10', '2', '3', '1']);
    expect(names('all', '', { by: 'worst', isDown: false })).toEqual(['3', '2', '10', '1']);
  });
  it('of reserve puts the smallest first, and the unknown last', () => {
    expect(names('all', '', { by: 'reserve', isDown: false })).toEqual(['3', '1', '2', '10']);
  });
  it('of the last visit puts the longest ago first, never before all', () => {
    expect(names('all', '', { by: 'visit', isDown: false })).toEqual(['1', '2', '3', '10']);
  });
  it('of the trend puts the fastest drift first', () => {
    expect(names('all', '', { by: 'trend', isDown: false })).toEqual(['2', '10', '3', '1']);
  });
});

describe('what is shown', () => {
  const byName = { by: 'name', isDown: false } as const;
  it('is one list', () => expect(names('due', '', byName)).toEqual(['1', '2']));
  it('has all words, in the name or the finding, in any case', () => {
    expect(names('all', 'LANE mill', byName)).toEqual(['10']);
    expect(names('all', 'low top', byName)).toEqual(['10']);
    expect(names('all', 'lane quay', byName)).toEqual([]);
  });
});

it('puts where nobody is sent below all others, on no list, and finds it by that', () => {
  const away = station('0 Tar Steps', {
    standing: standing('fail', -9),
    lastVisitAt: null,
    outOfService: 'taken down',
  });
  const rows = recordRows({ stations: [away, ...stations], trends: {} }, now, 12);
  expect(rows[0]?.lists).toEqual([]);
  for (const by of ['name', 'worst', 'standing'] as const)
    for (const isDown of [false, true])
      expect(shownRows(rows, 'all', '', { by, isDown }).at(-1)?.station.name).toBe('0 Tar Steps');
  expect(shownRows(rows, 'all', 'out of service', { by: 'name', isDown: false })).toHaveLength(1);
});
