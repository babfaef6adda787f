import { describe, expect, it } from 'vitest';
import { fitModel } from '../../../core/inspect/model.ts';
import { strongestJump } from '../../../core/inspect/step.ts';
import { traceOf } from '../../../core/inspect/trace.ts';
import { findingsIn, raster, simulatedSweep } from './simulated-sweep.ts';

describe('a step', () => {
  it.each([
    [-6, 0],
    [-6, 0.2],
    [1, 0],
    [1.5, 0.2],
    [-1, 0.1],
  ])('of %d dB in noise of %d dB is found where it is', (stepDb, noiseDb) => {
    const found = findingsIn(simulatedSweep((f) => (f > 550 ? stepDb : 0), { noiseDb, seed: 4 }));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ kind: 'step', atMhz: 552 });
    expect(Math.abs((found[0]?.kind === 'step' ? found[0].stepDb : 0) - stepDb)).toBeLessThan(0.01 + noiseDb);
  });

  it('between analog carriers and QAM of their own level is none', () => {
    const rows = simulatedSweep((f) => (f > 550 ? -6 : 0), { noiseDb: 0.1 }).map((row) => ({
      ...row,
      kind: (row.frequencyMhz ?? 0) > 550 ? ('qam' as const) : ('analog' as const),
    }));
    expect(findingsIn(rows)).toEqual([]);
  });

  it('is not looked for across a wide gap', () => {
    const mhz = [...raster(100, 160, 6), ...raster(400, 460, 6)];
    const trace = traceOf(simulatedSweep((f) => (f > 300 ? 3 : 0), { mhz }));
    const jump = strongestJump(trace, fitModel(trace, []));
    expect(jump === null || jump.atMhz < 160 || jump.atMhz > 400).toBe(true);
  });
});
