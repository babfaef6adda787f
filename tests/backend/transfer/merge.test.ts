import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  brokenIn,
  type Deed,
  design,
  give,
  laptop,
  listsOf,
  live,
  recordLines,
  stick,
  take,
  visitOf,
} from '../../support/two-laptops.ts';

const BASE_MS = Date.parse('2026-03-02T08:00:00Z');
const station = fc.constantFrom('slipway', 'mole', 'gasworks');
const atMs = fc.integer({ min: BASE_MS, max: BASE_MS + 20 * 86_400_000 });
const deed: fc.Arbitrary<Deed> = fc.oneof(
  {
    weight: 5,
    arbitrary: fc.record({
      do: fc.constant('visit' as const),
      station,
      atMs,
      levelDbmv: fc.integer({ min: 14, max: 19 }),
      isOpen: fc.constant(false),
    }),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('design' as const), station, atMs, pad: fc.nat(9) }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('notes' as const), station, atMs }) },
  { weight: 2, arbitrary: fc.record({ do: fc.constantFrom('void' as const, 'correct' as const), atMs }) },
);
const deeds = fc.array(deed, { maxLength: 7 });

describe('records of two laptops', () => {
  it('are the same records, lists and standings, whatever the order in which they came together', async () => {
    await fc.assert(
      fc.asyncProperty(deeds, deeds, deeds, async (onA, onB, later) => {
        const folder = stick();
        const [a, b, c] = [laptop(), laptop(), laptop()];
        design(a, 'slipway', BASE_MS, 1);
        design(b, 'slipway', BASE_MS, 2);
        live(a, onA);
        live(b, onB);
        const fromA = await give(a, folder);
        await take(b, fromA.path);
        // What was declared on one about the other's sweeps goes back.
        live(b, later);
        const fromB = await give(b, folder);
        await take(a, fromB.path);
        expect(recordLines(a)).toEqual(recordLines(b));
        expect(listsOf(a)).toEqual(listsOf(b));
        await take(c, fromB.path);
        await take(c, fromA.path);
        expect(recordLines(c)).toEqual(recordLines(a));
        expect(listsOf(c)).toEqual(listsOf(a));
        for (const archive of [a, b, c]) expect(await brokenIn(archive)).toEqual([]);
        const twice = await take(c, fromA.path);
        expect(twice).toMatchObject({ added: 0, conflicts: 0 });
        expect(recordLines(c)).toEqual(recordLines(a));
      }),
      { numRuns: 12 },
    );
  }, 120_000);

  it('bring no row at all when the same file comes once more', async () => {
    const [a, b] = [laptop(), laptop()];
    visitOf(a, 'slipway', { atMs: BASE_MS, levelDbmv: 16, isOpen: false });
    const { path } = await give(a, stick());
    expect(await take(b, path)).toMatchObject({ added: 5, known: 0, sweeps: 1, conflicts: 0 });
    const head = b.head();
    expect(await take(b, path)).toMatchObject({ added: 0, known: 5 });
    expect(b.head()).toEqual(head);
    expect(b.transfer.takenFiles()).toHaveLength(1);
  });

  it("leave each laptop its own visit open, and the other's does not stand in the way", async () => {
    const [a, b] = [laptop(), laptop()];
    visitOf(a, 'slipway', { atMs: BASE_MS, levelDbmv: 16, isOpen: true });
    const { path } = await give(a, stick());
    await take(b, path);
    expect(b.stations.factsOf(['slipway'])[0]?.openVisit).toBe(0);
    visitOf(b, 'slipway', { atMs: BASE_MS + 1, levelDbmv: 17, isOpen: true });
    expect(b.stations.factsOf(['slipway'])[0]?.openVisit).toBe(1);
    expect(await brokenIn(b)).toEqual([]);
  });
});

describe('one station, and one week', () => {
  it('have what their records name and nothing of other stations', async () => {
    const [a, b] = [laptop(), laptop()];
    visitOf(a, 'slipway', { atMs: BASE_MS, levelDbmv: 16, isOpen: false });
    visitOf(a, 'mole', { atMs: BASE_MS + 1, levelDbmv: 16, isOpen: false });
    const { path } = await give(a, stick(), { kind: 'station', stationId: 'mole' });
    await take(b, path);
    expect(listsOf(b).map(({ stationId }) => stationId)).toEqual(['mole']);
    expect(await brokenIn(b)).toEqual([]);
  });

  it('have the visits that began in it', async () => {
    const [a, b] = [laptop(), laptop()];
    const day = 86_400_000;
    const [, second] = [0, 10].map((days) =>
      visitOf(a, 'slipway', { atMs: BASE_MS + days * day, levelDbmv: 16, isOpen: false }),
    );
    const { path } = await give(a, stick(), {
      kind: 'period',
      fromMs: BASE_MS + 9 * day,
      toMs: BASE_MS + 11 * day,
    });
    await take(b, path);
    expect(listsOf(b).flatMap(({ sweeps }) => sweeps.map(({ sweepId }) => sweepId))).toEqual([second]);
    expect(await brokenIn(b)).toEqual([]);
  });
});
