import { describe, expect, it } from 'vitest';
import { MeterUncertainty } from '../../../core/files/meter-uncertainty.ts';
import { installedOf } from '../../../core/files/station.ts';
import { Truck } from '../../../core/files/truck.ts';
import { predictRows } from '../../../core/propose/predict.ts';
import {
  partsUncertaintyDb,
  predictedSweep,
  USUAL_PART_TOLERANCE_DB,
} from '../../../core/propose/predicted-sweep.ts';
import { propose } from '../../../core/propose/propose.ts';
import { rows, station } from './mill-lane.ts';

const conditions = { meter: MeterUncertainty.parse({}), ambientC: 20 };
const from = installedOf(station);
const to = { ...from, 'input pad': 5 };
const truck = Truck.parse({
  format: 'tiltwright-truck/1',
  parts: [
    { kind: 'pad', valueDb: 5, count: 1, toleranceDb: 0.1 },
    { kind: 'pad', valueDb: 6, count: 0, toleranceDb: 0.2 },
  ],
});

describe('partsUncertaintyDb', () => {
  it('by hand: two half-widths over the root of 3, root of squares', () =>
    expect(partsUncertaintyDb(station, 'forward output', { from, to }, truck)).toBeCloseTo(
      Math.hypot(0.1, 0.2) / Math.sqrt(3),
      12,
    ));
  it('takes the usual tolerance where nothing is said, and nothing where nothing is exchanged', () => {
    expect(partsUncertaintyDb(station, 'forward output', { from, to }, null)).toBeCloseTo(
      (USUAL_PART_TOLERANCE_DB * Math.SQRT2) / Math.sqrt(3),
      12,
    );
    expect(partsUncertaintyDb(station, 'forward output', { from, to: from }, null)).toBe(0);
    expect(partsUncertaintyDb(station, 'forward input', { from, to }, null)).toBe(0);
    expect(() => partsUncertaintyDb(station, 'nowhere', { from, to }, null)).toThrow(RangeError);
  });
});

describe('predictedSweep', () => {
  it('is the prediction, with an uncertainty that the parts widen', () => {
    const still = predictedSweep(rows, station, 'forward output', { from, to: from }, conditions);
    const changed = predictedSweep(rows, station, 'forward output', { from, to }, conditions, truck);
    expect(changed.map(({ levelDbmv }) => levelDbmv)).toEqual(
      predictRows(rows, station, 'forward output', from, to).map(({ levelDbmv }) => levelDbmv),
    );
    changed.forEach((point, i) => {
      expect(point.uDb).toBeGreaterThan(still[i]?.uDb ?? 0);
      expect(point.toNextUDb).toBeGreaterThan(still[i]?.toNextUDb ?? 0);
    });
  });
  it('is in a proposal with an uncertainty, trims included, and in none without', () => {
    const trims = [{ name: 'gain', kind: 'gain' as const, rangeDb: [-3, 3] as [number, number], atMhz: 867 }];
    const proposal = propose({ rows, station, trims, truck: null, uncertainty: conditions });
    if (!proposal.ok) throw new Error(proposal.code);
    const { predicted, recommended } = proposal.value;
    expect(predicted).toHaveLength(rows.length);
    const byDb = recommended.withTrims?.moves[0]?.byDb ?? 0;
    const plain = predictRows(rows, station, 'forward output', from, recommended.values);
    expect(predicted?.[0]?.levelDbmv).toBeCloseTo((plain[0]?.levelDbmv ?? 0) + byDb, 9);
    expect(propose({ rows, station })).not.toHaveProperty('value.predicted');
  });
});
