import { describe, expect, it } from 'vitest';
import { type Cascade, cascadeCnr, cascadeDistortion } from '../../../core/noise/cascade-noise.ts';
import type { Distortion } from '../../../core/noise/distortion.ts';
import type { StationNoise } from '../../../core/noise/station-noise.ts';
import { refuse } from '../../../core/result.ts';
import worked from '../../data/published/noise-worked.json' with { type: 'json' };

const member = (
  cnrDb: number,
  distortions: readonly (readonly [Distortion, number])[] = [],
  name = 'one',
): StationNoise => ({
  ...{ name, noiseFigureDb: 8, bandwidthMhz: 4, aboveRatingDb: 0 },
  output: { lowDbmv: 36, highDbmv: 46, from: 'design' },
  cnr: {
    stage: { lowDbmv: 10, highDbmv: 10, from: 'input sweep' },
    ...{ thermalDbmv: -59.2, noiseDbmv: -51.2, lowDb: cnrDb, highDb: cnrDb + 1 },
  },
  distortions: distortions.map(([kind, valueDbc]) => ({ kind, ratedDbc: valueDbc, valueDbc })),
});
const cascade = (over: Partial<Cascade>): Cascade => ({ source: null, alikeAhead: 0, members: [], ...over });

describe('carrier to noise behind a cascade', () => {
  // Hranac, "Broadband: Total Power, Part 2": 55, 53 and 49 dB give 46.83 dB.
  it('is that of the published unlike ratios', () => {
    for (const { cnrsDb, cnrDb } of worked.unlike) {
      const told = cascadeCnr(cascade({ members: cnrsDb.map((one) => member(one)) }));
      expect(told.ok && told.value.lowDb).toBeCloseTo(cnrDb, 2);
      expect(told).toMatchObject({ value: { worstEnd: 'low', count: cnrsDb.length } });
    }
  });
  // cabl.com, with k T B: 20 alike, +10 dBmV, noise figure 8: 48.2 dB.
  it('is that of twenty alike, told as one and nineteen like it', () => {
    const told = cascadeCnr(cascade({ alikeAhead: 19, members: [member(61.2)] }));
    expect(told.ok && told.value.lowDb).toBeCloseTo(worked.cascade20.cnrDb, 1);
    expect(told).toMatchObject({ value: { count: 20 } });
  });
  it('counts what comes from the source', () => {
    const told = cascadeCnr(cascade({ source: { cnrDb: 53 }, members: [member(53)] }));
    expect(told.ok && told.value.lowDb).toBeCloseTo(49.99, 2);
  });
  it('is not told while a figure is missing, and says whose', () => {
    const quiet = { ...member(50, [], '09 Fishwife Stairs'), cnr: refuse('no-input-level', 'x', 'y') };
    const told = cascadeCnr(
      cascade({ members: [{ name: '05 Net Loft', missing: true }, quiet, member(50)] }),
    );
    expect(told).toMatchObject({ ok: false, code: 'figures-missing' });
    expect(told.ok ? '' : told.help).toContain('05 Net Loft, 09 Fishwife Stairs');
    expect(cascadeCnr(cascade({})).ok).toBe(false);
  });
});

describe('distortion behind a cascade', () => {
  // cabl.com: CTB 20 log N, second order 10 log N; CSO 15 log N from memory; ten alike of -70 dBc.
  it('is that of ten alike, by each law', () => {
    const ten = cascade({
      alikeAhead: 9,
      members: [
        member(50, [
          ['ctb', -70],
          ['cso', -70],
        ]),
      ],
    });
    expect(cascadeDistortion(ten, 'ctb')).toMatchObject({
      value: { valueDbc: expect.closeTo(worked.ctb.dbc, 9), other: null },
    });
    expect(cascadeDistortion(ten, 'cso')).toMatchObject({
      value: {
        valueDbc: expect.closeTo(worked.cso.dbc15Log, 9),
        other: { valueDbc: expect.closeTo(worked.cso.dbc10Log, 9) },
      },
    });
  });
  it('adds the source as one more: two of -60 dBc are 6.02 dB worse in step', () => {
    const told = cascadeDistortion(
      cascade({ source: { ctbDbc: -60 }, members: [member(50, [['ctb', -60]])] }),
      'ctb',
    );
    expect(told.ok && told.value.valueDbc).toBeCloseTo(-53.98, 2);
  });
  it('is not told while a rating is missing, and says whose', () => {
    const told = cascadeDistortion(cascade({ members: [member(50, [], '05 Net Loft')] }), 'cso');
    expect(told).toMatchObject({ ok: false, where: 'CSO', help: expect.stringContaining('05 Net Loft') });
  });
});
