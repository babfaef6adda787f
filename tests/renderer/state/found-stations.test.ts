import { expect, it } from 'vitest';
import type { StationRow } from '../../../core/bridge/records.ts';
import { foundStations, inServiceFirst } from '../../../renderer/state/found-stations.ts';

const row = (stationId: string, name: string, headline: string | null = null): StationRow => ({
  stationId,
  name,
  revision: 1,
  sweepCount: 0,
  openVisit: false,
  standing:
    headline === null
      ? null
      : {
          sweepId: '00000000-0000-4000-8000-000000000001',
          at: '2026-03-02T08:00:00.000Z',
          purpose: 'as-found',
          state: 'complete',
          verdict: 'fail',
          headline,
          worstDb: -2,
          worstMhz: 867,
        },
});
const rows = [row('qm-1', '07 Mill Lane', 'High end 2.3 dB low.'), row('qm-2', '11 Customs Quay')];
const names = (text: string) => foundStations(rows, text).map(({ name }) => name);

it('finds by name, id and finding, whatever the letters', () => {
  expect(names('mill')).toEqual(['07 Mill Lane']);
  expect(names('QM-2')).toEqual(['11 Customs Quay']);
  expect(names('high low')).toEqual(['07 Mill Lane']);
});
it('wants every word', () => expect(names('mill quay')).toEqual([]));
it('leaves the list as it is where nothing was typed', () => expect(foundStations(rows, '  ')).toBe(rows));

it('shows those that are out of service below all others, and finds them by it', () => {
  const row = (name: string, outOfService?: string) => ({
    ...{ stationId: name, name, revision: 1, sweepCount: 0, openVisit: false, standing: null },
    ...(outOfService === undefined ? {} : { outOfService }),
  });
  const rows = [row('1', 'taken down'), row('2'), row('3')];
  expect(inServiceFirst(rows).map(({ name }) => name)).toEqual(['2', '3', '1']);
  expect(inServiceFirst(rows.slice(1))).toEqual(rows.slice(1));
  expect(foundStations(rows, 'service taken').map(({ name }) => name)).toEqual(['1']);
});
