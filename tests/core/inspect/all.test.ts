import { describe, expect, it } from 'vitest';
import { inspectSweep } from '../../../core/inspect/all.ts';
import { channels, findingsIn, notchAt, raster, rippleOf, simulatedSweep } from './simulated-sweep.ts';

describe('an inspection', () => {
  // White noise about a line, seeds 0 to 999, four lengths and three strengths.
  it('has a false alarm in fewer than one sweep in a hundred', () => {
    let alarms = 0;
    for (let seed = 0; seed < 1000; seed++) {
      const mhz = channels.slice(0, [136, 80, 40, 24][seed % 4]);
      const rows = simulatedSweep(() => 0, { seed, mhz, noiseDb: [0.1, 0.3, 1][seed % 3] ?? 0.3 });
      if (findingsIn(rows).length > 0) alarms++;
    }
    expect(alarms).toBeLessThan(10);
  }, 120_000);

  // Tenths of a dB, as a meter shows them.
  it('takes no rounding for a fault', () => {
    for (let seed = 0; seed < 50; seed++) {
      const rows = simulatedSweep(() => 0, { seed, noiseDb: 0.02 }).map((row) => ({
        ...row,
        levelDbmv: Math.round((row.levelDbmv ?? 0) * 10) / 10,
      }));
      expect(findingsIn(rows)).toEqual([]);
    }
  });

  it('tells the findings in the order of the contract', () => {
    const gone = [453, 501];
    const fault = (f: number) =>
      rippleOf(60, 1)(f) + notchAt(300, 5, 25)(f) - 3 * Math.max(0, (f - 780) / 87) ** 2 + (f > 600 ? 2 : 0);
    const rows = simulatedSweep(fault, { mhz: channels.filter((f) => !gone.includes(f)), noiseDb: 0.05 });
    expect(findingsIn(rows).map((one) => one.kind)).toEqual([
      'ripple',
      'notch',
      'rolloff',
      'missing',
      'missing',
      'step',
    ]);
  });

  it('takes the order of the rows for nothing', () => {
    const rows = simulatedSweep(notchAt(400, 4, 25), { noiseDb: 0.2 });
    expect(findingsIn(rows.toReversed())).toEqual(findingsIn(rows));
  });

  it('says what ripple the rows can show, the velocity factor, and bumps apart from findings', () => {
    const result = inspectSweep(
      simulatedSweep((f) => -notchAt(600, 3, 30)(f)),
      0.9,
    );
    if (!result.ok) throw new Error(result.help);
    expect(result.value).toMatchObject({ velocityFactor: 0.9, rowCount: 136, findings: [] });
    expect(result.value.ripplePeriods).toEqual({ shortestMhz: 12, longestMhz: 405 });
    expect(result.value.bumps).toHaveLength(1);
    expect(result.value.bumps[0]?.centerMhz).toBeCloseTo(600, 1);
  });

  it('stays finite on odd sweeps', () => {
    const odd = [
      simulatedSweep(() => 0, { mhz: raster(57, 57, 6) }),
      simulatedSweep((f) => (f % 12 > 5 ? 40 : -40)),
      simulatedSweep((f) => f * f),
      simulatedSweep(() => 0, { mhz: [1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 1024] }),
      channels.map((frequencyMhz) => ({ frequencyMhz, levelDbmv: 5 })),
      channels.flatMap((frequencyMhz) => [
        { frequencyMhz, levelDbmv: 5 },
        { frequencyMhz, levelDbmv: 6 },
      ]),
    ];
    for (const rows of odd)
      for (const finding of findingsIn(rows))
        for (const value of Object.values(finding))
          expect(typeof value === 'string' || Number.isFinite(value)).toBe(true);
  });

  it('refuses a velocity factor that is none, and a sweep without readings', () => {
    for (const factor of [0, -1, 1.1, Number.NaN]) {
      const result = inspectSweep(
        simulatedSweep(() => 0),
        factor,
      );
      expect(result.ok ? 'taken' : result.code).toBe('bad-velocity');
    }
    const nothing = inspectSweep([{ frequencyMhz: null, levelDbmv: 3 }]);
    expect(nothing.ok ? 'taken' : nothing.code).toBe('no-readings');
  });
});
