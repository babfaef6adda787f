import { describe, expect, it } from 'vitest';
import { createLiveFeed } from '../../../renderer/state/live-feed.ts';
import { searchRecords } from '../../../renderer/state/search-commands.ts';
import { resultsOf } from '../../../renderer/state/search-results.ts';
import { nearest, nearness, wordsOf } from '../../../renderer/state/search-words.ts';
import { createWorkbenchStore } from '../../../renderer/state/store.ts';
import { type Script, scriptedClient } from '../scripted-client.ts';
import { neverRead, station } from '../sheet-records.ts';

const now = '2026-11-25T10:00:00.000Z';
const visitId = '00000000-0000-4000-8000-000000000001';
const sweepId = '00000000-0000-4000-8000-000000000002';
const answer = {
  visits: [
    {
      visitId,
      stationId: station.id,
      stationName: station.name,
      operator: 'R. Voss',
      note: 'wet connector',
      startedAt: '2026-11-24T10:00:00.000Z',
      sweep: { sweepId, portName: 'forward output' },
    },
  ],
  sweeps: [],
};

function bench(script: Script = { 'search.records': () => answer }) {
  const store = createWorkbenchStore();
  store
    .getState()
    .stationsListed([
      neverRead('QM-7', '07 Mill Lane'),
      neverRead('QM-9', 'Old Mill'),
      neverRead('QM-1', 'Öljetty'),
    ]);
  const { client, asked } = scriptedClient(script);
  const context = { client, store, feed: createLiveFeed(() => {}) };
  const group = (text: string, name: string) =>
    resultsOf(store.getState(), text, now)
      .find((one) => one.name === name)
      ?.results.map((one) => one.name) ?? [];
  return { store, context, asked, group };
}

describe('search over what the page has', () => {
  it('finds stations by parts of name and id, without capitals or marks over letters', () => {
    const { group } = bench();
    expect(group('mill', 'Stations')).toEqual(['07 Mill Lane', 'Old Mill']);
    expect(group('LANE 07', 'Stations')).toEqual(['07 Mill Lane']);
    expect(group('qm-9', 'Stations')).toEqual(['Old Mill']);
    expect(group('oljetty', 'Stations')).toEqual(['Öljetty']);
    expect(group('mills', 'Stations')).toEqual([]);
  });

  it('finds the words of the trade by their other names, and the units as something to do', () => {
    const { group } = bench();
    expect(group('agc', 'Words of the trade')).toContain('Gain control');
    expect(group('notch', 'Words of the trade')).toContain('Suck-out, notch');
    expect(group('dbuv', 'Screens and actions')).toEqual(['Show levels in dB\u00B5V']);
    expect(group('fahrenheit', 'Screens and actions')).toEqual(['Show temperatures in \u00B0F']);
  });

  it('offers what can be done from here before a letter is typed', () => {
    const { group } = bench();
    expect(group('', 'From here')).toContain('All records');
  });

  it('orders by where a word stands', () => {
    expect(nearness(['mill'], 'Mill Lane')).toBeLessThan(nearness(['mill'], 'Old Mill') ?? 0);
    expect(nearness(['mill'], 'Old Mill')).toBeLessThan(nearness(['mill'], 'Windmills') ?? 0);
    expect(nearness(['mill', 'x'], 'Mill Lane')).toBeNull();
    expect(nearest(['Windmills', 'Old Mill', 'Mill'], wordsOf('mill'), (one) => one, 2)).toEqual([
      'Mill',
      'Old Mill',
    ]);
  });
});

describe('search over the archive', () => {
  it('asks with words and days apart, and shows what came under its kind', async () => {
    const { context, asked, group } = bench();
    await searchRecords(context, 'Voss 24 November 2026', now);
    // The days as they begin at this place.
    const days = { from: new Date(2026, 10, 24).toISOString(), before: new Date(2026, 10, 25).toISOString() };
    expect(asked[0]?.input).toEqual({ words: ['voss'], days, most: 6 });
    expect(group('Voss 24 November 2026', 'Visits')[0]).toContain(station.name);
    // What was found for one text is no answer to another.
    expect(group('Voss', 'Visits')).toEqual([]);
  });

  it('asks nothing for nothing, and says what went wrong', async () => {
    const { context, asked, store } = bench({
      'search.records': () => {
        throw new Error('the archive is busy');
      },
    });
    await searchRecords(context, '  ', now);
    expect(asked).toEqual([]);
    await searchRecords(context, 'voss', now);
    expect(store.getState().found).toMatchObject({ forText: 'voss', help: 'the archive is busy' });
  });

  it('lets a later text go before the answer to an earlier one', async () => {
    let release = (): void => {};
    const first = new Promise<void>((resolve) => {
      release = resolve;
    });
    let calls = 0;
    const { context, store } = bench({
      'search.records': async () => {
        if (calls++ === 0) await first;
        return answer;
      },
    });
    const slow = searchRecords(context, 'v', now);
    await searchRecords(context, 'voss', now);
    release();
    await slow;
    expect(store.getState().found.forText).toBe('voss');
  });
});
