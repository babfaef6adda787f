import { describe, expect, it } from 'vitest';
import type { StationRow } from '../../../core/bridge/records.ts';
import { controlChart } from '../../../core/drift/control-chart.ts';
import { driftTrend } from '../../../core/drift/drift-trend.ts';
import { MeterUncertainty } from '../../../core/files/meter-uncertainty.ts';
import type { Position } from '../../../core/files/station.ts';
import { rangeTest } from '../../../core/gain-control/range.ts';
import { reserveVerdict } from '../../../core/gain-control/reserve-verdict.ts';
import { echoDistance } from '../../../core/inspect/distance.ts';
import type { Finding } from '../../../core/inspect/finding.ts';
import { SEASON_UNCERTAINTY, seasonChance } from '../../../core/season/monte-carlo.ts';
import { seasonPlan } from '../../../core/season/plan.ts';
import { seasonRow } from '../../../core/season/rows.ts';
import { budgetOf } from '../../../core/uncertainty/budget.ts';
import { aDegree, degrees } from '../../../renderer/how/degrees.ts';
import * as drift from '../../../renderer/how/drift.ts';
import * as gain from '../../../renderer/how/gain-control.ts';
import type { How } from '../../../renderer/how/how.ts';
import { findingWords, howFinding } from '../../../renderer/how/inspect.ts';
import { howPeaking } from '../../../renderer/how/live.ts';
import { howGoodTo } from '../../../renderer/how/meter.ts';
import { howLoss, howPathLevel } from '../../../renderer/how/path.ts';
import { howHeld, howStageInput } from '../../../renderer/how/proposal.ts';
import * as records from '../../../renderer/how/records.ts';
import { howLeftOut, howSignals } from '../../../renderer/how/rows.ts';
import * as season from '../../../renderer/how/season.ts';
import { howSeasonRow } from '../../../renderer/how/season-row.ts';
import { howStationWorst } from '../../../renderer/how/stations.ts';
import { harbourStation } from '../../core/season/harbour-station.ts';
import published from '../../data/published/nist-individuals-chart.json' with { type: 'json' };

const plain = (text: string) => text.replaceAll('\u00A0', ' ');
const all = (how: How) =>
  plain(
    [how.title, how.value, how.words, how.formula, how.judged ?? '', how.source]
      .concat(how.items.map(({ name, text }) => `${name} ${text}`))
      .join('\n'),
  );
const band = { lowMhz: 54, highMhz: 870 };
const equalizer: Position = {
  name: 'input equalizer',
  kind: 'equalizer',
  topMhz: 870,
  insertionLossDb: 1,
  installed: 8,
  values: [0, 8, 12],
};
const planned = seasonPlan(harbourStation({}));
if (!planned.ok) throw new Error(planned.help);
const plan = planned.value;
const budget = budgetOf({ meter: MeterUncertainty.parse({}), ambientC: 20 });
const chance = seasonChance(plan, { coldC: -20, hotC: 50 }, 1, SEASON_UNCERTAINTY, 100);
const swing = { coldestC: 5, hottestC: 25, levelDb: -0.2, withoutControlDb: -1, takenOut: 0.8 };
const pilot = { pilotMhz: 711, levelDbmv: 44, kind: 'qam', besideDb: 0.3, warnings: [] } as const;
const limit = { port: 'forward input', through: ['input pad'], atMhz: 870, minDbmv: 8, maxDbmv: 14 };
const note = { applied: true, note: '', atMhz: 870, minDbmv: 8, maxDbmv: 14 };
const held = {
  worstDb: -0.4,
  worstMhz: 700,
  meanDb: -0.1,
  comparedCount: 136,
  withinDb: 0.7,
  agrees: true,
} as const;
const findings: readonly Finding[] = [
  { kind: 'ripple', periodMhz: 15, peakToPeakDb: 1.4, ...echoDistance(15) },
  { kind: 'notch', centerMhz: 300, depthDb: 4, widthMhz: 12 },
  { kind: 'rolloff', edge: 'high', fromMhz: 800, depthDb: 3 },
  { kind: 'missing', frequencyMhz: 411 },
  { kind: 'step', atMhz: 550, stepDb: -2 },
];
const standing: NonNullable<StationRow['standing']> = {
  sweepId: '',
  at: '',
  purpose: 'as-found',
  state: 'complete',
  verdict: 'fail',
  headline: '',
  worstDb: -2.4,
  worstMhz: 867,
};

const chart = controlChart(published.values);
const trend = driftTrend(
  [0, -0.3, -0.5, -0.9].map((valueDb, i) => ({
    ...{ place: i, years: i - 3, ambientC: null, rawDb: valueDb, valueDb },
  })),
  'none',
  { fromDb: -1, toDb: 1 },
);
if (chart === null || trend === null) throw new Error('no chart');
const level: drift.FollowedFigure = { of: 'level', name: 'Level, high', limits: { fromDb: -1, toDb: 1 } };
const flat: drift.FollowedFigure = { of: 'flatness', name: 'Flatness', limits: { fromDb: null, toDb: 2.5 } };
const sweepFigures = {
  verdict: 'fail',
  levelDb: -2,
  tiltDb: 1,
  flatnessDb: 0.8,
  worstDb: -2.4,
  worstMhz: 867,
} as const;
const comparison = {
  ...{ rows: [], comparedCount: 136, meanDb: -0.4, tiltDb: 0.2 },
  worst: { frequencyMhz: 93, differenceDb: -0.7 },
};

const everyOne = (unit: 'C' | 'F', length: 'm' | 'ft'): readonly How[] => [
  howLoss(equalizer, 12, band),
  howPathLevel(
    'out',
    { portName: 'output', levelDbmv: 46, atMhz: 870, count: 136, testPointLossDb: 20 },
    'dBuV',
  ),
  howLeftOut([{ frequencyMhz: 100, reason: '20.0 dB below' }], 135),
  howSignals({
    groups: [
      { name: 'analog', kind: 'analog', qamOrder: null, count: 9, offsetDb: 0, basis: 'the line itself' },
      { name: '256-QAM', kind: 'qam', qamOrder: 256, count: 90, offsetDb: -6, basis: 'usual' },
    ],
    groupAt: new Int32Array(0),
    reference: 'analog',
    notes: [],
  }),
  howStageInput(note, limit, 'dBmV'),
  howStageInput({ ...note, beforeDbmv: 10, levelDbmv: 12, uDb: 0.3, probability: 0.99 }, limit, 'dBmV'),
  howHeld({ ...held, after: 'parts' }),
  howHeld({ ...held, after: 'trims' }),
  ...findings.map((finding) => howFinding(finding, length)),
  howStationWorst('07 Mill Lane', standing, -2.4),
  gain.howReserveRule(810, 3.75, 'interpolated'),
  gain.howAmbientRule(31, 1, 'interpolated', unit),
  gain.howSpanOffset({ lossDb: 22, perDegreeC: 0.00198, isGiven: false }, 31, 0.67, unit),
  gain.howRangeLimits(870),
  gain.howRange(rangeTest(4, 6)),
  gain.howReserveLeft(reserveVerdict(4.1, 4, budget), { maxDbmv: 50.1, setDbmv: 46 }, 'dBmV'),
  gain.howTarget({ levelDbmv: 46, toleranceDb: 0.2, basis: 'practice', words: 'the maximum' }, 'dBmV'),
  gain.howPilot(pilot, 'dBmV'),
  season.howHolds(plan, { coldC: -30, hotC: null }, unit),
  season.howLimits(plan, { coldC: -30, hotC: 60 }, unit),
  season.howDemand(plan, { coldDemandDb: 2, hotDemandDb: 1 }, unit),
  season.howChance(chance, SEASON_UNCERTAINTY, plan, unit, '98 %'),
  season.howSun(15, unit),
  season.howSwing(swing, 711, plan.span, unit),
  howGoodTo(MeterUncertainty.parse({})),
  howSeasonRow(plan, seasonRow(plan, 40), unit, 'dBuV'),
  drift.howFigureNow(flat, 1.1, 'All brought to one temperature.'),
  drift.howFigureNow({ of: 'reserve', name: 'Reserve', limits: { fromDb: -0.5, toDb: 0.5 } }, 0.2, ''),
  drift.howSlope(level, { ...trend, perDegreeDb: 0.018 }, unit),
  drift.howLeaving(level, trend, 'It leaves its limit in May 2027.'),
  drift.howControlChart(level, chart),
  drift.howRule(level, 'two-of-three', 2, chart),
  records.howSweepFigures('3 March 2026', sweepFigures, plan.design),
  records.howVisitWorst('07 Mill Lane, as found', { portName: 'forward output', worstMhz: 867 }, -2.4),
  records.howReserveKept('07 Mill Lane', 3.6, 4),
  records.howTrendWords('07 Mill Lane', { state: 'steady', words: 'steady', perYearDb: 0, line: [0, 0, 0] }),
  records.howDifference('May less March', comparison),
  howPeaking({ levelDbmv: 44, atMhz: 711, toleranceDb: 0.2, design: plan.design }, 'dBmV'),
];

describe('every explanation', () => {
  it.each(everyOne('C', 'm').map((how) => [how.title, how] as const))(
    '%s has its figure, its words, its formula and its source',
    (_title, how) => {
      for (const part of [how.title, how.value, how.words, how.formula, how.source])
        expect(part.trim().length).toBeGreaterThan(2);
      expect(how.source).toMatch(/\.$/);
      expect(all(how)).not.toMatch(/NaN|undefined|Infinity|null/);
    },
  );
  it('says degrees and lengths in the units that were chosen, and no others', () => {
    const text = everyOne('F', 'ft').map(all).join('\n');
    // The published coefficient is one a degree F, whatever is shown.
    expect(text).not.toMatch(/\u00B0C/);
    expect(everyOne('C', 'm').map(all).join('\n').replaceAll('0.0011 a \u00B0F', '')).not.toMatch(
      /\u00B0F| ft\b/,
    );
  });
});

describe('the figures', () => {
  // By hand: 1 + 12 (1 - sqrt(54 / 870)) = 10.01 dB, and 1 dB at its top.
  it('of a plug-in', () => {
    const how = howLoss(equalizer, 12, band);
    expect(plain(how.value)).toBe('10.0 to 1.0 dB');
    expect(plain(howLoss(equalizer, 0, band).value)).toBe('0.0 dB');
    const measured: Position = {
      ...equalizer,
      curves: {
        '12': [
          [54, 9.4],
          [870, 1.3],
        ],
      },
    };
    expect(plain(howLoss(measured, 12, band).value)).toBe('9.4 to 1.3 dB');
    expect(howLoss(measured, 12, band).source).toContain('measured curve');
  });
  // By hand: 0.87 299.792458 / (2 15) = 8.694 m = 28.5 ft.
  it('of a ripple, in metres or in feet', () => {
    const [ripple] = findings;
    if (ripple === undefined) throw new Error('no ripple');
    expect(plain(findingWords(ripple, 'm'))).toContain('every 15 MHz: two mismatches 9 m apart');
    expect(plain(findingWords(ripple, 'ft'))).toContain('29 ft apart');
    expect(howFinding(ripple, 'm').formula).toContain('= 8.7 m');
  });
  // Definitions: 15 degrees C apart are 27 degrees F; 0.00198 a degree C is 0.0011 a degree F.
  it('of differences of temperature', () => {
    expect(plain(degrees(15, 'F'))).toBe('27 \u00B0F');
    expect(plain(degrees(15, 'C'))).toBe('15 \u00B0C');
    expect(plain(aDegree(0.00198, 'F'))).toBe('0.0011 a \u00B0F');
  });
  it('that rest on nothing published say so', () => {
    for (const how of [
      gain.howReserveRule(870, 4, 'practice'),
      gain.howAmbientRule(31, 1, 'practice', 'C'),
      gain.howRangeLimits(870),
      gain.howPilot(pilot, 'dBmV'),
    ])
      expect(how.source.toLowerCase()).toContain('common practice, no published source');
  });
  // NIST/SEMATECH e-Handbook, 6.3.2.2: mean, mean moving range and limits of ten flow rates; 3.267 times 1.8778 is 6.13.
  it('of a control chart', () => {
    const how = drift.howControlChart(level, chart);
    const tenth = (value: number) => `+${value.toFixed(1)} dB`;
    expect(plain(how.value)).toBe(`${tenth(published.lower)} to ${tenth(published.upper)}`);
    expect(how.items.map(({ text }) => plain(text))).toEqual([
      tenth(published.mean),
      `${published.meanRange.toFixed(2)} dB`,
      '6.13 dB',
    ]);
    expect(how.judged).toContain('Provisional');
  });
  // By hand: half-widths of 0.3, 0.4 and 20 times 0.01 dB over root 3 and a standard deviation of 0.1 dB give 0.3266 dB.
  it('of one level', () => {
    const how = howGoodTo({
      ...{ accuracyDb: 0.3, acrossBandDb: 5, repeatabilityDb: 0.1, testPointToleranceDb: 0.4 },
      ...{ temperatureDbPerC: 0.01, calibratedAtC: 23 },
    });
    expect(how.uDb).toBeCloseTo(Math.sqrt((0.09 + 0.16 + 0.04) / 3 + 0.01), 9);
    expect(plain(how.value)).toBe('\u00B10.6 dB');
    expect(how.shares.map(({ uDb }) => uDb)).toEqual([
      expect.closeTo(0.3 / Math.sqrt(3), 9),
      0.1,
      expect.closeTo(0.4 / Math.sqrt(3), 9),
      expect.closeTo(0.2 / Math.sqrt(3), 9),
    ]);
  });
  it('of a row of the year, in the unit that was chosen', () => {
    const row = seasonRow(plan, 40);
    const inUnit = (unit: 'dBmV' | 'dBuV' | 'mV') => plain(howSeasonRow(plan, row, 'C', unit).value);
    expect(inUnit('dBmV')).toBe(
      `${row.highDbmv.toFixed(1)} dBmV at 870 MHz, ${row.lowDbmv.toFixed(1)} dBmV at 54 MHz`,
    );
    expect(inUnit('dBuV')).toContain(`${(row.highDbmv + 60).toFixed(1)} dB\u00B5V`);
    expect(inUnit('mV')).toMatch(/^\d+ mV at/);
  });
  // By hand: x -1.5, -0.5, 0.5, 1.5 and y 0, -0.3, -0.5, -0.9 give sxy -1.45 on sxx 5.
  it('of a trend', () => {
    const how = drift.howSlope(level, trend, 'C');
    expect(plain(how.value)).toMatch(/^\u22120\.29 dB a year, \u00B10\.\d\d 95 of 100 times$/);
    expect(how.items[1]?.text).toBe('2');
  });
  it('lists what was left out, and counts what has no room', () => {
    const many = Array.from({ length: 14 }, (_, i) => ({
      frequencyMhz: 60 + 6 * i,
      reason: 'no level is given',
    }));
    const { items } = howLeftOut(many, 100);
    expect(items).toHaveLength(11);
    expect(items.at(-1)?.text).toBe('and 4 more');
  });
});
