import { expect, it } from 'vitest';
import { joined, refusalOf } from './joined.ts';

it('has one open at a station, and says since when', async () => {
  const bench = await joined();
  expect(await refusalOf(bench.begin)).toEqual({
    ok: false,
    code: 'visit-open',
    where: 'Slipway 2',
    help: 'a visit begun 2026-03-02T08:00:00.000Z is still open; go on with it, or end it first',
  });
  expect((await bench.sheet()).visits).toHaveLength(1);
  bench.clock.forward(3_600_000);
  const ended = await bench.handlers['visits.end'](
    { visitId: bench.visit.visitId, note: 'dry' },
    bench.signal,
  );
  expect(ended).toEqual({ ...bench.visit, endedAt: '2026-03-02T09:00:00.000Z', note: 'dry' });
  const next = await bench.begin();
  expect((await bench.sheet()).openVisit).toEqual(next);
  expect((await bench.sheet()).visits).toEqual([next, ended]);
});

it('ends once', async () => {
  const bench = await joined();
  const end = () =>
    bench.handlers['visits.end']({ visitId: bench.visit.visitId, note: 'again' }, bench.signal);
  await end();
  expect(await refusalOf(end)).toMatchObject({ code: 'visit-ended' });
  expect((await bench.sheet()).visits).toMatchObject([{ note: 'again' }]);
});

it('orders by what happened, not by a clock that was set back', async () => {
  const bench = await joined();
  bench.clock.set('1999-12-31T00:00:00.000Z');
  const ended = await bench.handlers['visits.end']({ visitId: bench.visit.visitId, note: '' }, bench.signal);
  const later = await bench.begin();
  expect((await bench.sheet()).visits).toEqual([later, ended]);
  expect((await bench.handlers['stations.list']({}, bench.signal)).stations[0]?.openVisit).toBe(true);
});
