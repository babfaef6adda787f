import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { channelAt } from '../../core/channels/channel-at.ts';
import { PLAN_NAMES } from '../../core/channels/plans.ts';
import { CABLES } from '../../core/coax/cables.ts';
import { equalizerForTiltDb } from '../../core/coax/equalizer.ts';
import { lengthForLossM, spanLossDb, tiltOfLossDb } from '../../core/coax/span.ts';
import { MeterUncertainty } from '../../core/files/meter-uncertainty.ts';
import { readStation } from '../../core/files/station.ts';
import { fitSweep } from '../../core/line/fit-sweep.ts';
import type { LevelRow, SignalKind } from '../../core/line/level-row.ts';
import { rowTargets } from '../../core/line/row-targets.ts';
import { standingAgainstDesign } from '../../core/line/standing.ts';
import { propose } from '../../core/propose/propose.ts';
import { anyNumber } from '../support/any-number.ts';
import { notFinite } from '../support/not-finite.ts';
import { rows as millRows, station } from './propose/mill-lane.ts';

/** A refusal that says what and where, or an answer in which every number is one. */
const isHonest = (result: { ok: boolean; where?: string; help?: string }): void => {
  if (result.ok) expect(notFinite(result)).toEqual([]);
  else {
    expect(result.where).toMatch(/\w/);
    expect(result.help).toMatch(/\w+ \w+/);
    expect(`${result.where} ${result.help}`).not.toMatch(/undefined|\[object/);
  }
};

const kind = fc.constantFrom<SignalKind>('analog', 'qam', 'ofdm', 'cw');
const wildRow: fc.Arbitrary<LevelRow> = fc.record(
  {
    frequencyMhz: fc.oneof(anyNumber, fc.constant(null)),
    levelDbmv: fc.oneof(anyNumber, fc.constant(null)),
    kind,
    modulation: fc.constantFrom('64QAM', '256 QAM', 'OFDM', ''),
    unlocked: fc.boolean(),
  },
  { requiredKeys: ['frequencyMhz', 'levelDbmv'] },
);
const wildRows = fc.oneof(
  fc.array(wildRow, { maxLength: 25 }),
  // Mostly a sweep, with a few rows gone wild: what a broken file looks like.
  fc.array(wildRow, { maxLength: 4 }).map((some) => [...millRows.slice(0, 30), ...some]),
);
const design = fc.record({
  ...{ lowMhz: anyNumber, highMhz: anyNumber, lowDbmv: anyNumber, highDbmv: anyNumber },
  shape: fc.constantFrom('linear' as const, 'cable' as const),
  ...{ toleranceDb: anyNumber, flatnessDb: anyNumber },
});
const meter = fc.record({
  ...{ accuracyDb: anyNumber, acrossBandDb: anyNumber, repeatabilityDb: anyNumber },
  ...{ testPointToleranceDb: anyNumber, temperatureDbPerC: anyNumber, calibratedAtC: anyNumber },
});
const conditions = fc.record({
  meter: fc.oneof(meter, fc.constant(MeterUncertainty.parse({}))),
  ambientC: fc.oneof(anyNumber, fc.constant(null)),
});
const maybe = <T>(one: fc.Arbitrary<T>) => fc.option(one, { nil: undefined });
const lineUp = fc.array(
  fc.record({
    ...{ channelLabel: fc.constant('x'), frequencyMhz: anyNumber, kind },
    ...{ widthMhz: anyNumber, offsetDb: anyNumber },
  }),
  { maxLength: 5 },
);

describe('no NaN leaves core', () => {
  it('from a fit', () => {
    const end = maybe(anyNumber);
    fc.assert(
      fc.property(wildRows, end, end, fc.boolean(), maybe(lineUp), (rows, lowMhz, highMhz, keepAll, given) =>
        isHonest(fitSweep(rows, { lowMhz, highMhz, keepAll, lineUp: given })),
      ),
      { numRuns: 600 },
    );
  });
  it('from a standing, with any design and any uncertainty', () => {
    const designs = fc.oneof(design, fc.constant(station.ports[0]?.design ?? null));
    fc.assert(
      fc.property(
        wildRows,
        designs,
        maybe(conditions),
        maybe(lineUp),
        (rows, given, uncertainty, channels) => {
          if (given === null) throw new Error('no design');
          isHonest(standingAgainstDesign(rows, given, { uncertainty, lineUp: channels }));
        },
      ),
      { numRuns: 600 },
    );
  });
  it('from the targets of rows', () => {
    const given = station.ports[0]?.design;
    if (given === undefined) throw new Error('no design');
    fc.assert(
      fc.property(wildRows, maybe(lineUp), (rows, channels) => {
        expect(notFinite(rowTargets(rows, given, { lineUp: channels }))).toEqual([]);
      }),
    );
  });
  it('from a proposal, with any trims and uncertainty', () => {
    const trim = fc.record({
      ...{ name: fc.constant('trim'), kind: fc.constantFrom('gain' as const, 'slope' as const) },
      ...{ rangeDb: fc.tuple(anyNumber, anyNumber), atMhz: anyNumber },
    });
    const trims = maybe(
      fc.oneof(
        fc.array(trim, { maxLength: 5 }),
        fc.constant([
          { name: 'gain', kind: 'gain' as const, rangeDb: [-3, 3] as [number, number], atMhz: 867 },
          { name: 'slope', kind: 'slope' as const, rangeDb: [-3, 3] as [number, number], atMhz: 867 },
        ]),
      ),
    );
    fc.assert(
      fc.property(wildRows, maybe(wildRows), trims, maybe(conditions), (rows, inputRows, some, uncertainty) =>
        isHonest(propose({ rows, station, inputRows, trims: some, uncertainty })),
      ),
      { numRuns: 250 },
    );
  }, 60_000);
});

const cable = CABLES[0];
if (cable === undefined) throw new Error('no cable is known');

describe('no NaN leaves the plans and the cables', () => {
  it('from any frequency, tolerance, loss and length', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...PLAN_NAMES),
        fc.constantFrom(...CABLES),
        fc.tuple(anyNumber, anyNumber, anyNumber),
        (plan, one, [a, b, c]) => {
          isHonest(channelAt(a, plan, b));
          isHonest(spanLossDb(one, a, b));
          isHonest(lengthForLossM(one, a, b));
          isHonest(tiltOfLossDb(one, a, b, c));
          isHonest(equalizerForTiltDb(a, b));
        },
      ),
      { numRuns: 600 },
    );
  });
});

describe('says what and where', () => {
  const given = station.ports[0]?.design;
  if (given === undefined) throw new Error('no design');
  const standing = (change: object) => standingAgainstDesign(millRows, { ...given, ...change });
  it.each([
    [
      'a design with low above high',
      standing({ lowMhz: 900 }),
      'design, 900 to 870 MHz',
      'below the high one',
    ],
    ['a design that is no number', standing({ highDbmv: Number.NaN }), 'highDbmv NaN', 'dBmV'],
    ['no tolerance', standing({ toleranceDb: 0 }), 'toleranceDb 0', 'above 0'],
    [
      'one frequency',
      fitSweep([millRows[0], millRows[0]] as LevelRow[], {}),
      'every row at 54 MHz',
      'two frequencies',
    ],
    [
      'infinite levels',
      fitSweep(
        [1, 2].map((f) => ({ frequencyMhz: f, levelDbmv: Infinity })),
        {},
      ),
      'no level is given',
      'two carriers',
    ],
    [
      'an uncertainty that is none',
      standingAgainstDesign(millRows, given, {
        uncertainty: { meter: MeterUncertainty.parse({}), ambientC: 900 },
      }),
      'temperature 900 degrees C',
      'must lie between',
    ],
    [
      'a trim that can only go up and up',
      propose({
        rows: millRows,
        station,
        trims: [{ name: 'gain', kind: 'gain', rangeDb: [2, 1], atMhz: 867 }],
      }),
      'trim "gain", range',
      '0 or less',
    ],
    [
      'a channel outside every plan',
      channelAt(4000, 'std'),
      '4000 MHz',
      'outside every plan: no visual carrier and no channel centre',
    ],
    [
      'a channel of another plan only',
      channelAt(54, 'std'),
      '54 MHz',
      'no carrier of STD is there; look at HRC',
    ],
    ['a negative loss of a cable', lengthForLossM(cable, 450, -3), 'loss -3 dB', 'must lie between 0 and'],
    [
      'the tilt of a negative loss',
      tiltOfLossDb(cable, -20, 54, 450),
      'loss -20 dB',
      'must lie between 0 and',
    ],
    ['a negative length', spanLossDb(cable, 450, -1), 'length -1 m', 'must lie between 0 and'],
  ])('%s', (_what, result, where, help) => {
    if (result.ok) throw new Error('answered');
    expect(result.where).toContain(where);
    expect(result.help).toContain(help);
  });
  it('two rows are enough for a line, and said to be few', () => {
    expect(fitSweep(millRows.slice(0, 2), {})).toMatchObject({
      ...{
        ok: true,
        value: { count: 2, flatnessDb: expect.closeTo(0, 9), findings: [{ kind: 'few-rows' }] },
      },
    });
  });
  const file = (change: (position: object) => object) =>
    readStation(
      JSON.stringify({
        ...station,
        positions: station.positions.map((one, i) => (i === 0 ? change(one) : one)),
      }),
      'station.json',
    );
  it.each([
    ['a kit without a value', file((one) => ({ ...one, values: [] })), 'station.json, positions.0.values'],
    ['a negative loss', file((one) => ({ ...one, values: [0, -3] })), 'station.json, positions.0.values.1'],
  ])('%s', (_what, result, where) => {
    if (result.ok) throw new Error('read');
    expect(result.where).toBe(where);
    expect(result.help).toMatch(/\w/);
  });
});
