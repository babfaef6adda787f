import { describe, expect, it } from 'vitest';
import { deadCarriers, missingCarriers } from '../../../core/inspect/missing.ts';
import { traceOf } from '../../../core/inspect/trace.ts';
import type { LevelRow } from '../../../core/line/level-row.ts';
import { channels, findingsIn, simulatedSweep } from './simulated-sweep.ts';

const missingIn = (rows: readonly LevelRow[]) =>
  missingCarriers(traceOf(rows), rows).map((finding) => finding.frequencyMhz);

describe('missing carriers', () => {
  it('are holes in the raster, up to three channels', () => {
    const gone = [207, 399, 405, 603, 609, 615];
    const rows = simulatedSweep(() => 0, { mhz: channels.filter((f) => !gone.includes(f)), noiseDb: 0.1 });
    expect(missingIn(rows)).toEqual(gone);
    expect(findingsIn(rows).map((one) => one.kind)).toEqual(gone.map(() => 'missing'));
  });

  it("are holes at the sweep's ends and on both sides of one carrier as well (contract, section 3: missing)", () => {
    for (const gone of [[63], [861], [129, 141], [63, 75, 855, 861]]) {
      const rows = simulatedSweep(() => 0, { mhz: channels.filter((f) => !gone.includes(f)), noiseDb: 0.1 });
      expect(missingIn(rows)).toEqual(gone);
      expect(findingsIn(rows).map((one) => one.kind)).toEqual(gone.map(() => 'missing'));
    }
  });

  it('are not a gap of the plan, nor the odd spacing of a plan', () => {
    const wide = channels.filter((f) => f < 300 || f > 330);
    expect(missingIn(simulatedSweep(() => 0, { mhz: wide }))).toEqual([]);
    // US channels 4 and 5 lie 10 MHz apart (CTA-542 plan).
    expect(missingIn(simulatedSweep(() => 0, { mhz: [57, 63, 69, 79, 85, 91, 97, 103] }))).toEqual([]);
    expect(missingIn(simulatedSweep(() => 0, { mhz: [60, 71, 95, 140, 141, 199, 260] }))).toEqual([]);
  });

  it('are rows that the source calls not locked', () => {
    const rows = simulatedSweep(() => 0).map((row) =>
      row.frequencyMhz === 399 ? { ...row, unlocked: true } : row,
    );
    expect(missingIn(rows)).toEqual([399]);
  });

  it('are rows at the noise floor among level neighbours, and then no notch', () => {
    const rows = simulatedSweep((f) => (f === 399 ? -55 : 0), { noiseDb: 0.2 });
    expect(deadCarriers(traceOf(rows), rows)).toEqual([399]);
    expect(findingsIn(rows)).toEqual([{ kind: 'missing', frequencyMhz: 399 }]);
  });

  it('are not carriers that are read, however low, nor a roll-off', () => {
    const low = simulatedSweep((f) => (f === 399 ? -25 : 0)).map((row) => ({ ...row, merDb: 33 }));
    expect(missingIn(low)).toEqual([]);
    expect(missingIn(simulatedSweep((f) => (f > 863 ? -25 : 0)))).toEqual([]);
  });

  it('are none in a sweep of nothing', () => {
    expect(missingIn([])).toEqual([]);
  });
});
