import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareSweeps } from '../../core/drift/compare-sweeps.ts';
import { controlChart } from '../../core/drift/control-chart.ts';
import { driftTrend } from '../../core/drift/drift-trend.ts';
import { MeterUncertainty } from '../../core/files/meter-uncertainty.ts';
import { Station } from '../../core/files/station.ts';
import { adviseGainControl, type GainControlAsked } from '../../core/gain-control/advise.ts';
import { rangeTest } from '../../core/gain-control/range.ts';
import { reserveAt } from '../../core/gain-control/reserve.ts';
import { reserveVerdict } from '../../core/gain-control/reserve-verdict.ts';
import { inspectSweep } from '../../core/inspect/all.ts';
import { echoDistance } from '../../core/inspect/distance.ts';
import type { LevelRow } from '../../core/line/level-row.ts';
import { meanLevel } from '../../core/meters/repeated-level.ts';
import { timeLeftMs } from '../../core/meters/time-left.ts';
import { heldAgainst } from '../../core/propose/held-against.ts';
import { predictRows } from '../../core/propose/predict.ts';
import { seasonChance } from '../../core/season/monte-carlo.ts';
import { seasonPlan } from '../../core/season/plan.ts';
import { season } from '../../core/season/rows.ts';
import { whatWouldHelp } from '../../core/season/what-would-help.ts';
import { trendOf } from '../../core/trend/direction.ts';
import { slopeOf } from '../../core/trend/slope.ts';
import { budgetOf } from '../../core/uncertainty/budget.ts';
import { conformanceProbability } from '../../core/uncertainty/conformity.ts';
import { levelFrom, levelIn } from '../../core/units.ts';
import { swingOf } from '../../core/watch/swing.ts';
import { anyNumber } from '../support/any-number.ts';
import { notFinite } from '../support/not-finite.ts';
import { station as mill, rows as millRows } from './propose/mill-lane.ts';

/**
 * What comes out is finite, or a refusal that says what and where, or a RangeError: a programmer's mistake, which a
 * function that is handed checked numbers may throw for.
 */
function isHonest(asked: () => unknown): void {
  let answer: unknown;
  try {
    answer = asked();
  } catch (error) {
    expect(error).toBeInstanceOf(RangeError);
    return;
  }
  if (typeof answer === 'object' && answer !== null && 'ok' in answer && answer.ok === false)
    expect(answer).toMatchObject({
      where: expect.stringMatching(/\w/),
      help: expect.stringMatching(/\w+ \w+/),
    });
  else expect(notFinite(answer)).toEqual([]);
}

const maybe = <T>(one: fc.Arbitrary<T>) => fc.option(one, { nil: undefined });
const wildRow: fc.Arbitrary<LevelRow> = fc.record({
  frequencyMhz: fc.oneof(anyNumber, fc.constant(null)),
  levelDbmv: fc.oneof(anyNumber, fc.constant(null)),
});
const wildRows = fc.oneof(
  fc.array(wildRow, { maxLength: 25 }),
  fc.array(wildRow, { maxLength: 4 }).map((some) => [...millRows.slice(0, 60), ...some]),
);
/** Only what was told, as a form hands it over. */
const told = (asked: Readonly<Record<keyof GainControlAsked, number | undefined>>): GainControlAsked =>
  Object.fromEntries(Object.entries(asked).filter(([, value]) => value !== undefined)) as GainControlAsked;
/** Numbers that the schema of a station file lets through: any finite ones, and mostly such as people write. */
const size = fc.oneof(
  fc.double({ min: 0, noNaN: true, noDefaultInfinity: true }),
  fc.double({ min: 0, max: 60, noNaN: true }),
);
const place = fc.oneof(
  fc.double({ min: 1e-300, noNaN: true, noDefaultInfinity: true }),
  fc.double({ min: 5, max: 1200, noNaN: true }),
);
const wildStation = fc
  .record({
    span: fc.record({ lossDb: size, topMhz: place, perDegreeC: size }),
    gainControl: fc.record({
      ...{ mode: fc.constantFrom('manual', 'auto', 'thermal'), upDb: size, downDb: size, topMhz: place },
      ...{ setAtC: fc.double({ noNaN: true, noDefaultInfinity: true }), thermalTracking: size },
    }),
  })
  .map((some) => Station.parse({ ...mill, ...some }));

describe('no NaN leaves core', () => {
  it('from looking for faults', () => {
    fc.assert(
      fc.property(wildRows, maybe(anyNumber), (rows, velocityFactor) =>
        isHonest(() => inspectSweep(rows, velocityFactor)),
      ),
      { numRuns: 150 },
    );
    fc.assert(fc.property(anyNumber, anyNumber, (a, b) => isHonest(() => echoDistance(a, b))));
  }, 60_000);

  it('from the rules of a gain control', () => {
    const number = maybe(anyNumber);
    fc.assert(
      fc.property(
        anyNumber,
        number,
        number,
        number,
        number,
        number,
        (topMhz, ambientC, ambientF, spanDb, up, down) => {
          const asked: Record<keyof GainControlAsked, number | undefined> = {
            topMhz,
            ambientC,
            ambientF,
            spanDb,
            rangeUpDb: up,
            rangeDownDb: down,
            perDegreeC: undefined,
            uncertaintyDb: undefined,
          };
          isHonest(() => adviseGainControl(told(asked)));
          isHonest(() => adviseGainControl({ topMhz, ...(ambientC === undefined ? {} : { ambientC }) }));
          isHonest(() => reserveAt(topMhz));
          isHonest(() => rangeTest(up ?? 0, down ?? 0, spanDb));
          isHonest(() =>
            reserveVerdict(
              up ?? 0,
              down ?? 0,
              budgetOf({ meter: MeterUncertainty.parse({}), ambientC: null }),
            ),
          );
          isHonest(() =>
            conformanceProbability(topMhz, up ?? 0, { fromDb: down ?? null, toDb: spanDb ?? null }),
          );
        },
      ),
      { numRuns: 600 },
    );
  });

  it('from a year, of any station that a file can hold', () => {
    let told = 0;
    fc.assert(
      fc.property(wildStation, anyNumber, anyNumber, anyNumber, (station, fromC, toC, stepC) => {
        isHonest(() => season(station));
        isHonest(() => season(station, { fromC, toC, stepC }));
        const plan = seasonPlan(station);
        if (!plan.ok) return;
        told++;
        isHonest(() => whatWouldHelp(station, plan.value, { coldC: -30, hotC: 45 }));
        isHonest(() => seasonChance(plan.value, { coldC: -30, hotC: 45 }, 7, undefined, 20));
      }),
      { numRuns: 800 },
    );
    // Enough of them are stations whose year is told, or the property would look at refusals alone.
    expect(told).toBeGreaterThan(5);
  });

  it('from a sweep held against another', () => {
    fc.assert(
      fc.property(wildRows, fc.array(anyNumber, { minLength: 1 }), anyNumber, (rows, levels, valueDb) => {
        // The same channels with other levels: channels that only one of the two has would never be subtracted.
        const others = rows.map((row, i) => ({ ...row, levelDbmv: levels[i % levels.length] ?? null }));
        isHonest(() => heldAgainst(rows, others));
        isHonest(() => compareSweeps({ rows, ambientC: null }, { rows: others, ambientC: null }, null, null));
        isHonest(() =>
          compareSweeps(
            { rows, ambientC: null },
            { rows: others, ambientC: null },
            mill.ports[0]?.design ?? null,
            null,
          ),
        );
        isHonest(() =>
          predictRows(rows, mill, 'forward output', { 'input pad': 6 }, { 'input pad': valueDb }),
        );
      }),
      { numRuns: 400 },
    );
  });

  it('from readings in the course of time', () => {
    const watched = fc.array(fc.record({ atS: anyNumber, levelDbmv: anyNumber }), { maxLength: 30 });
    const years = fc.array(
      fc.record({
        ...{ place: fc.nat(20), rawDb: anyNumber },
        years: anyNumber,
        valueDb: anyNumber,
        ambientC: fc.oneof(anyNumber, fc.constant(null)),
      }),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(watched, years, anyNumber, (readings, rows, number) => {
        const inOrder = readings.toSorted((a, b) => a.atS - b.atS);
        isHonest(() => slopeOf(readings, 0.1));
        isHonest(() => trendOf(inOrder));
        isHonest(() => meanLevel(readings.map(({ levelDbmv }) => levelDbmv)));
        isHonest(() =>
          timeLeftMs(
            inOrder.map(({ atS }) => atS),
            30,
          ),
        );
        isHonest(() => controlChart(readings.map(({ levelDbmv }) => levelDbmv)));
        isHonest(() => driftTrend(rows, 'regression', { fromDb: -1, toDb: 1 }));
        isHonest(() => driftTrend(rows, 'none', { fromDb: null, toDb: number }));
        isHonest(() =>
          swingOf(
            rows.map(({ valueDb, years: ambientC }) => ({ ambientC, levelDbmv: valueDb })),
            711,
            { lossDb: 22, topMhz: 870, perDegreeC: 0.002 },
          ),
        );
      }),
      { numRuns: 600 },
    );
  });

  it('from one unit to the other', () => {
    const unit = fc.constantFrom('dBmV', 'dBuV', 'dBm 75 ohm', 'dBm 50 ohm', 'mV' as const);
    fc.assert(
      fc.property(unit, anyNumber, (of, value) => {
        isHonest(() => levelIn(of, value));
        isHonest(() => levelFrom(of, value));
      }),
    );
  });
});
