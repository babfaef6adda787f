import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { explainedBySine, fitColumns } from '../../../core/inspect/fitted.ts';
import { fitModel, type Part } from '../../../core/inspect/model.ts';
import { refinedBell, strongestBells } from '../../../core/inspect/notch.ts';
import { gainOf, sinesAbout } from '../../../core/inspect/quick-sums.ts';
import { refinedRipple, strongestRipple } from '../../../core/inspect/ripple.ts';
import { strongestBend } from '../../../core/inspect/rolloff.ts';
import { strongestJump } from '../../../core/inspect/step.ts';
import { logChanceOf } from '../../../core/inspect/surprise.ts';
import { traceOf } from '../../../core/inspect/trace.ts';
import { limitsOf, type PlainBest, plainBell, plainBend, plainJump, plainSine } from './plain-search.ts';
import { simulatedSweep } from './simulated-sweep.ts';

const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** A sweep with any faults, on a raster or about one, and a model that may hold a part already. */
const models = fc
  .record({
    seed: fc.nat(1e6),
    rows: fc.integer({ min: 12, max: 150 }),
    stepMhz: fc.constantFrom(0.5, 6, 8),
    loose: fc.constantFrom(0, 0.3),
    noiseDb: within(0, 0.8),
    notch: fc.record({ at: within(0, 1), width: within(0.01, 0.3), depthDb: within(-6, 12) }),
    bend: fc.record({ from: within(0.6, 0.999), depthDb: within(-10, 15), power: fc.constantFrom(1, 2, 3) }),
    jump: fc.record({ at: within(0.05, 0.95), stepDb: within(-5, 5) }),
    ripple: fc.record({ periods: within(1, 60), amplitudeDb: within(0, 2) }),
    hasRipple: fc.boolean(),
  })
  .map(({ seed, rows, stepMhz, loose, noiseDb, notch, bend, jump, ripple, hasRipple }) => {
    const span = rows * stepMhz;
    const mhz = Array.from({ length: rows }, (_, i) => 54 + stepMhz * (i + loose * Math.sin(i * 7.3 + seed)));
    const share = (f: number) => (f - 54) / span;
    const fault = (f: number) =>
      -notch.depthDb * 2 ** -((2 * ((share(f) - notch.at) / notch.width)) ** 2) -
      bend.depthDb * Math.max(0, (share(f) - bend.from) / (1 - bend.from)) ** bend.power +
      (share(f) > jump.at ? jump.stepDb : 0) +
      ripple.amplitudeDb * Math.sin(2 * Math.PI * ripple.periods * share(f));
    const trace = traceOf(simulatedSweep(fault, { seed, noiseDb, mhz }));
    const known: Part = {
      kind: 'ripple',
      told: true,
      ripple: { perMhz: ripple.periods / span, amplitudeDb: 1, logChance: -9 },
    };
    return { trace, fitted: fitModel(trace, hasRipple ? [known] : []) };
  })
  .filter(({ trace }) => new Set(trace.island).size === 1);

/** Nothing worth naming or believing, by the plain search. */
const isSmall = (plain: PlainBest<unknown>, squaresDb2: number, leastDb = 0.5): boolean =>
  plain === null ||
  Math.abs(plain.explained.amplitudeDb) < leastDb ||
  plain.explained.gainDb2 < 1e-5 * squaresDb2;

describe('what the quick finders find', () => {
  it('is the very jump that trying each one finds', () => {
    fc.assert(
      fc.property(models, ({ trace, fitted }) => {
        const plain = plainJump(trace, fitted);
        const found = strongestJump(trace, fitted);
        if (found === null) expect(isSmall(plain, fitted.squaresDb2)).toBe(true);
        else {
          const at = plain?.place ?? 0;
          expect(found).toEqual({
            atMhz: ((fitted.mhz[at - 1] ?? 0) + (fitted.mhz[at] ?? 0)) / 2,
            stepDb: plain?.explained.amplitudeDb,
            logChance: logChanceOf(fitted, plain?.explained.gainDb2 ?? 0, 1, plain?.tried ?? 0),
          });
        }
      }),
    );
  });
  it.each(['low', 'high'] as const)('is the very bend at the %s edge', (edge) => {
    fc.assert(
      fc.property(models, ({ fitted }) => {
        const plain = plainBend(fitted, edge);
        const found = strongestBend(fitted, edge);
        if (found === null) expect(isSmall(plain, fitted.squaresDb2)).toBe(true);
        else
          expect(found).toEqual({
            edge,
            ...plain?.place,
            heightDb: plain?.explained.amplitudeDb,
            logChance: logChanceOf(fitted, plain?.explained.gainDb2 ?? 0, 1, plain?.tried ?? 0),
          });
      }),
    );
  });
  it('is the very ripple', () => {
    fc.assert(
      fc.property(models, ({ trace, fitted }) => {
        const limits = limitsOf(trace);
        const plain = plainSine(fitted, limits);
        const found = strongestRipple(fitted, limits);
        const refined = plain === null ? null : refinedRipple(fitted, plain.place, limits);
        if (found === null)
          expect(isSmall(plain, fitted.squaresDb2) || (refined?.amplitudeDb ?? 0) < 0.1).toBe(true);
        else expect(found).toEqual(refined);
      }),
    );
  });
  it('is the very dip and the very bump', () => {
    fc.assert(
      fc.property(models, ({ trace, fitted }) => {
        const found = strongestBells(trace, fitted);
        for (const [bell, sign] of [
          [found.dip, -1],
          [found.bump, 1],
        ] as const) {
          const plain = plainBell(fitted, trace.stepMhz, sign);
          const near = { ...(plain?.place ?? { centerMhz: 0, widthMhz: 0 }), heightDb: sign, logChance: 0 };
          const refined = refinedBell(trace, fitted, near);
          if (bell === null)
            expect(isSmall(plain, fitted.squaresDb2) || Math.abs(refined.heightDb) < 0.5).toBe(true);
          else
            expect(bell).toEqual({
              ...refined,
              logChance: Math.min(0, refined.logChance + Math.log(plain?.tried ?? 1)),
            });
        }
      }),
    );
  });
});

describe('quick sums', () => {
  it('say what each sine explains, or that it is in doubt', () => {
    fc.assert(
      fc.property(models, within(0, 0.01), (model, fromPerMhz) => {
        const { fitted } = model;
        const places = { fromPerMhz, stepPerMhz: 0.0007, count: 120 };
        sinesAbout(fitted, places).forEach((gainDb2, k) => {
          if (Number.isNaN(gainDb2)) return;
          const plain = explainedBySine(fitted, fromPerMhz + k * places.stepPerMhz).gainDb2;
          expect(Math.abs(gainDb2 - plain)).toBeLessThan(1e-8 * fitted.squaresDb2 + 1e-6 * plain);
        });
      }),
      { numRuns: 40 },
    );
  });
  it('are nothing where the model spans a column, and in doubt at the limit of that', () => {
    expect(gainOf(100, 50, 10)).toBe(2);
    expect(gainOf(100, 1, 10)).toBe(0);
    expect(gainOf(100, 2, 10)).toBeNaN();
  });
  // The line itself is spanned; no sine of nought turns a MHz is left of it.
  it('find nothing in a constant', () => {
    const mhz = Array.from({ length: 20 }, (_, i) => 54 + 6 * i);
    const fitted = fitColumns(
      mhz,
      mhz.map(() => 36),
      [new Float64Array(20).fill(1)],
    );
    expect(sinesAbout(fitted, { fromPerMhz: 0, stepPerMhz: 0.01, count: 1 })[0]).toBe(0);
  });
});
