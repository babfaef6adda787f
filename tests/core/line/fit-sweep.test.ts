import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitSweep } from '../../../core/line/fit-sweep.ts';
import type { LevelRow } from '../../../core/line/level-row.ts';
import norris from '../../data/published/nist-strd-norris.json' with { type: 'json' };

/** Least squares by the normal equations, as a textbook prints them: another road to the same line. */
function plainLine(x: readonly number[], y: readonly number[]) {
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  const n = x.length;
  const sxy = sum(x.map((value, i) => value * (y[i] ?? 0)));
  const sxx = sum(x.map((value) => value * value));
  const slope = (n * sxy - sum(x) * sum(y)) / (n * sxx - sum(x) ** 2);
  return { intercept: (sum(y) - slope * sum(x)) / n, slope };
}
const fitted = <T>(result: { ok: true; value: T } | { ok: false; code: string }): T => {
  if (!result.ok) throw new Error(result.code);
  return result.value;
};

const rows: LevelRow[] = Array.from({ length: 20 }, (_, i) => ({
  frequencyMhz: 54 + 12 * i,
  levelDbmv: 30 + i * 0.5 + (i % 2 === 0 ? 0.2 : -0.2),
}));

describe('fitSweep', () => {
  it('answers with the keys of the contract, the standard errors, and no others', () => {
    expect(Object.keys(fitted(fitSweep(rows, {}))).sort()).toEqual(
      'shape lowMhz highMhz count lowDbmv highDbmv tiltDb flatnessDb rmsDb worst excluded findings standardErrors'
        .split(' ')
        .sort(),
    );
  });

  // NIST StRD, Norris: certified standard deviations of B0 and B1, and of the residuals; the line told from 0 to 1000.
  it('gives the standard errors that NIST certifies for Norris', () => {
    const norrisRows = norris.x.map((frequencyMhz, i) => ({ frequencyMhz, levelDbmv: norris.y[i] ?? null }));
    const { standardErrors } = fitted(fitSweep(norrisRows, { keepAll: true, lowMhz: 0, highMhz: 1000 }));
    expect(Math.abs((standardErrors?.lowDb ?? 0) / 0.232818234301152 - 1)).toBeLessThan(1e-9);
    expect(Math.abs((standardErrors?.tiltDb ?? 0) / 0.429796848199937 - 1)).toBeLessThan(1e-9);
    expect(Math.abs((standardErrors?.scatterDb ?? 0) / 0.884796396144373 - 1)).toBeLessThan(1e-9);
  });

  it('has no standard errors of two rows, which lie on any line through them', () => {
    expect(fitted(fitSweep(rows.slice(0, 2), {})).standardErrors).toBeNull();
  });

  it('says how many rows are far off where they are too many to leave out', () => {
    const most = rows.map((row, i) => ({ ...row, levelDbmv: i % 5 < 3 ? -24 : (row.levelDbmv ?? 0) }));
    const fit = fitted(fitSweep(most, {}));
    expect(fit).toMatchObject({ count: 20, excluded: [], findings: [{ kind: 'rows-far-off' }] });
    expect(fit.findings[0]?.text).toMatch(/^8 rows of 20 lie more than \d+ dB off the line of the others/);
  });

  it('fits from the lowest to the highest usable row when nothing else is asked', () => {
    const fit = fitted(fitSweep(rows, {}));
    expect(fit).toMatchObject({ shape: 'linear', lowMhz: 54, highMhz: 282, count: 20, findings: [] });
    expect(fit.highDbmv - fit.lowDbmv).toBeCloseTo(fit.tiltDb, 12);
  });

  it('puts a line through exact rows in either shape, read at low and high that are no rows', () => {
    const straight = [100, 200, 300].map((f) => ({ frequencyMhz: f, levelDbmv: 20 + f / 100 }));
    const fit = fitted(fitSweep(straight, { lowMhz: 50, highMhz: 550 }));
    expect(fit.lowDbmv).toBeCloseTo(20.5, 12);
    expect(fit.highDbmv).toBeCloseTo(25.5, 12);
    expect(fit.flatnessDb).toBeCloseTo(0, 12);
    const bent = [100, 225, 400].map((f) => ({ frequencyMhz: f, levelDbmv: 50 - Math.sqrt(f) }));
    const cable = fitted(fitSweep(bent, { shape: 'cable', lowMhz: 25, highMhz: 900 }));
    expect(cable.lowDbmv).toBeCloseTo(45, 12);
    expect(cable.tiltDb).toBeCloseTo(-25, 12);
  });

  it('names the worst row with its sign, and the rows left out with their reason', () => {
    const odd = rows.map((row, i) => (i === 4 ? { ...row, levelDbmv: 35 } : row));
    const fit = fitted(fitSweep([...odd, { frequencyMhz: null, levelDbmv: 3 }], {}));
    expect(fit.worst.frequencyMhz).toBe(102);
    expect(fit.worst.deviationDb).toBeGreaterThan(2);
    expect(fit.excluded).toEqual([{ frequencyMhz: null, reason: expect.any(String) }]);
    expect(fit.findings).toEqual([
      { kind: 'rows-left-out', text: expect.stringContaining('1 row left out') },
    ]);
  });

  it('tells of few rows, repeated frequencies and rows outside', () => {
    const few = [...rows.slice(0, 3), ...rows.slice(0, 1)];
    expect(fitted(fitSweep(few, { highMhz: 70 })).findings.map(({ kind }) => kind)).toEqual([
      'rows-outside',
      'few-rows',
      'duplicates',
    ]);
  });

  it.each([
    ['nothing', [], {}, 'too-few'],
    ['one row', rows.slice(0, 1), {}, 'too-few'],
    ['all outside', rows, { lowMhz: 500, highMhz: 600 }, 'too-few'],
    ['one frequency', [rows[0] ?? {}, rows[0] ?? {}], {}, 'one-frequency'],
    ['a range that is none', rows, { lowMhz: 300, highMhz: 54 }, 'bad-range'],
    ['a negative end', rows, { lowMhz: -1 }, 'bad-range'],
    ['an end that is no number', rows, { highMhz: Number.NaN }, 'bad-range'],
  ])('refuses %s in one clear line', (_what, some, options, code) => {
    const fit = fitSweep(some as LevelRow[], options);
    expect(fit).toMatchObject({ ok: false, code });
    if (!fit.ok) expect(`${fit.where} ${fit.help}`).toMatch(/\w+ \w+/);
  });

  it('says why nothing is left', () => {
    const fit = fitSweep([{ frequencyMhz: null, levelDbmv: 3 }], {});
    expect(fit).toMatchObject({ ok: false, where: expect.stringContaining('no single frequency') });
  });
});

const frequency = fc.oneof(fc.double({ min: 5, max: 1218, noNaN: true }), fc.constant(null), fc.constant(0));
const level = fc.oneof(fc.double({ min: -60, max: 70, noNaN: true }), fc.constant(null));
const anyRows = fc.array(fc.record({ frequencyMhz: frequency, levelDbmv: level }), { maxLength: 40 });
const shape = fc.constantFrom('linear' as const, 'cable' as const);

describe('whatever the rows', () => {
  it('agrees with plain least squares to 1e-6 dB', () => {
    const grid = fc.uniqueArray(fc.integer({ min: 5, max: 1218 }), { minLength: 2, maxLength: 60 });
    fc.assert(
      fc.property(
        grid,
        shape,
        fc.infiniteStream(fc.double({ min: -60, max: 70, noNaN: true })),
        (at, s, levels) => {
          const some = at.map((frequencyMhz) => ({ frequencyMhz, levelDbmv: levels.next().value ?? 0 }));
          const fit = fitted(fitSweep(some, { shape: s, keepAll: true }));
          const along = (f: number) => (s === 'cable' ? Math.sqrt(f) : f);
          const plain = plainLine(
            at.map(along),
            some.map((row) => row.levelDbmv),
          );
          const lowDbmv = plain.intercept + plain.slope * along(fit.lowMhz);
          expect(Math.abs(fit.lowDbmv - lowDbmv)).toBeLessThan(1e-6);
          expect(Math.abs(fit.tiltDb - plain.slope * (along(fit.highMhz) - along(fit.lowMhz)))).toBeLessThan(
            1e-6,
          );
          const left = some.map(
            (row) => row.levelDbmv - plain.intercept - plain.slope * along(row.frequencyMhz),
          );
          expect(Math.abs(fit.flatnessDb - (Math.max(...left) - Math.min(...left)))).toBeLessThan(1e-6);
          expect(Math.abs(Math.abs(fit.worst.deviationDb) - Math.max(...left.map(Math.abs)))).toBeLessThan(
            1e-6,
          );
          const rmsDb = Math.sqrt(left.reduce((sum, r) => sum + r * r, 0) / left.length);
          expect(Math.abs(fit.rmsDb - rmsDb)).toBeLessThan(1e-6);
        },
      ),
    );
  });

  it('does not look at their order', () => {
    fc.assert(
      fc.property(anyRows, shape, fc.boolean(), (some, s, keepAll) => {
        const byLevel = some.toSorted((a, b) => (a.levelDbmv ?? 0) - (b.levelDbmv ?? 0));
        const [one, other] = [some, byLevel].map((order) => fitSweep(order, { shape: s, keepAll }));
        expect(one?.ok).toBe(other?.ok);
        if (!one?.ok || !other?.ok) return;
        const { excluded: _left, ...fit } = one.value;
        expect(other.value).toMatchObject(fit);
      }),
    );
  });

  it('is finite or refused', () => {
    const wild = fc.record({ frequencyMhz: fc.double(), levelDbmv: fc.double() });
    const end = fc.option(fc.double(), { nil: undefined });
    fc.assert(
      fc.property(fc.array(wild), shape, fc.boolean(), end, end, (some, s, keepAll, lowMhz, highMhz) => {
        const fit = fitSweep(some, { shape: s, keepAll, lowMhz, highMhz });
        if (!fit.ok) return;
        const { worst, lowDbmv, highDbmv, tiltDb, flatnessDb, rmsDb } = fit.value;
        const numbers = [lowDbmv, highDbmv, tiltDb, flatnessDb, rmsDb, worst.deviationDb, worst.frequencyMhz];
        expect(numbers.every(Number.isFinite)).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });
});

// Real tables of cable modems; they stay outside the project, so this runs only where they lie beside it.
const folder = resolve(import.meta.dirname, '../../../../shared/real-levels');
const tables = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.csv')) : [];
if (tables.length === 0) it.skip('real tables: no ../shared/real-levels beside the project', () => {});
describe.skipIf(tables.length === 0)('real tables', () => {
  it.each(tables)('%s agrees with plain least squares to 1e-6, or has no two frequencies', (name) => {
    const [, ...lines] = readFileSync(join(folder, name), 'utf8').trim().split('\n');
    const read = lines.map((line) => {
      const [frequencyMhz = '', levelDbmv = ''] = line.split(',');
      return {
        frequencyMhz: frequencyMhz === '' ? null : Number(frequencyMhz),
        levelDbmv: levelDbmv === '' ? null : Number(levelDbmv),
      };
    });
    const usable = read.filter((row) => (row.frequencyMhz ?? 0) > 0 && row.levelDbmv !== null);
    const fit = fitSweep(read, { keepAll: true });
    if (!fit.ok) {
      expect(new Set(usable.map((row) => row.frequencyMhz)).size).toBeLessThan(2);
      return;
    }
    const x = usable.map((row) => row.frequencyMhz ?? 0);
    const plain = plainLine(
      x,
      usable.map((row) => row.levelDbmv ?? 0),
    );
    const { lowMhz, highMhz, lowDbmv, highDbmv, count } = fit.value;
    expect(count).toBe(usable.length);
    expect(Math.abs(lowDbmv - plain.intercept - plain.slope * lowMhz)).toBeLessThan(1e-6);
    expect(Math.abs(highDbmv - plain.intercept - plain.slope * highMhz)).toBeLessThan(1e-6);
  });
});
