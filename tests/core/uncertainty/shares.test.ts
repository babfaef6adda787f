import { describe, expect, it } from 'vitest';
import { MeterUncertainty } from '../../../core/files/meter-uncertainty.ts';
import type { Design } from '../../../core/files/station.ts';
import { positionOf } from '../../../core/line/position.ts';
import { standingAgainstDesign } from '../../../core/line/standing.ts';
import { type Figure, goodToDb, sharesOf } from '../../../core/uncertainty/shares.ts';

const design: Design = {
  lowMhz: 54,
  lowDbmv: 36,
  highMhz: 870,
  highDbmv: 46,
  shape: 'linear',
  toleranceDb: 1,
  flatnessDb: 2.5,
};
const rows = Array.from({ length: 40 }, (_, i) => ({
  frequencyMhz: 60 + 20 * i,
  levelDbmv: 36 + (i % 3) * 0.3 + i / 4,
}));

describe('what an uncertainty is made of', () => {
  const found = standingAgainstDesign(rows, design, {
    uncertainty: { meter: MeterUncertainty.parse({}), ambientC: -8 },
  });
  if (!found.ok || found.value.uncertainty === undefined) throw new Error('no standing');
  const { value: standing } = found;
  const { budget, errors } = found.value.uncertainty;
  const position = positionOf(standing.worst.frequencyMhz, 'linear', 54, 870);

  // JCGM 100:2008, equation (10): independent parts add as squares. The whole comes from the standing, another way round.
  it.each<[Figure, number | undefined]>([
    ['level-low', standing.levelLow.uDb],
    ['level-high', standing.levelHigh.uDb],
    ['tilt', standing.tilt.uDb],
    ['flatness', standing.flatness.uDb],
    ['worst', standing.worst.uDb],
  ])('adds up to that of the %s', (figure, uDb) => {
    const shares = sharesOf(figure, budget, errors, position);
    const sum = Math.sqrt(shares.reduce((squares, share) => squares + share.uDb ** 2, 0));
    expect(uDb).toBeGreaterThan(0);
    expect(sum).toBeCloseTo(uDb ?? Number.NaN, 12);
    expect(shares.every((share) => share.uDb > 0 && share.basis !== '')).toBe(true);
  });

  it('leaves out of tilt and flatness what all channels share', () => {
    const names = (figure: Figure) => sharesOf(figure, budget, errors, position).map(({ name }) => name);
    expect(names('level-high')).toContain('meter accuracy');
    expect(names('tilt')).not.toContain('meter accuracy');
    expect(names('flatness')).toEqual(['repeatability of a reading']);
  });
});

// The normal spread has 95.0 % within 1.96 standard deviations (any table of the normal distribution).
it('tells what a reading is good to', () => expect(goodToDb(0.5)).toBeCloseTo(0.98, 12));
