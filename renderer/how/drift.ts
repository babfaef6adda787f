import { type ControlChart, FIRM_FROM } from '../../core/drift/control-chart.ts';
import { type DriftTrend, LEAST_PER_YEAR_DB, SURE_BELOW } from '../../core/drift/drift-trend.ts';
import type { FigureLimits, Followed } from '../../core/drift/figures.ts';
import { HORIZON_YEARS } from '../../core/drift/leaving.ts';
import { type RuleId, rules } from '../../core/drift/run-rules.ts';
import { chanceWords } from '../../core/uncertainty/conformity.ts';
import { counted, decimals, oneDecimal, signedDb, sizeDb, type TemperatureUnit } from '../format.ts';
import { aDegree } from './degrees.ts';
import { type How, PRACTICE, plainHow } from './how.ts';

/** A figure that is followed over the years, as its screen calls it. */
export type FollowedFigure = Readonly<{ of: Followed | 'reserve'; name: string; limits: FigureLimits }>;

const formulas: Readonly<Record<Followed | 'reserve', string>> = {
  level: 'L(high) \u2212 design(high)',
  tilt: '(L(high) \u2212 L(low)) \u2212 (design(high) \u2212 design(low))',
  flatness: 'greatest \u2212 least of (level \u2212 L(f))',
  reserve: '(maximum \u2212 set level) \u2212 what the rule asked for on that day',
};

/** Slopes are told to hundredths: a tenth a year is a decibel in ten. */
function aYear(perYearDb: number): string {
  const sign = Number(perYearDb.toFixed(2)) === 0 ? '' : perYearDb < 0 ? '\u2212' : '+';
  return `${sign}${decimals(Math.abs(perYearDb), 2)}\u00A0dB a year`;
}

function limitWords({ fromDb, toDb }: FigureLimits): string {
  if (fromDb === null) return toDb === null ? 'No limit is known.' : `Its limit is ${sizeDb(toDb)}.`;
  if (toDb === null) return `Its limit is ${signedDb(fromDb)}.`;
  return `Its limits are ${signedDb(fromDb)} and ${signedDb(toDb)}.`;
}

/** A figure as the newest sweep has it. */
export const howFigureNow = (figure: FollowedFigure, valueDb: number, atOneTemperature: string): How =>
  plainHow({
    title: `${figure.name}, now`,
    value: figure.of === 'flatness' ? sizeDb(valueDb) : signedDb(valueDb),
    words:
      figure.of === 'reserve'
        ? 'What the newest set-up left below the greatest gain, less what the rule asked for on that day, so that set-ups in summer and in winter can be compared.'
        : `Of the newest sweep as found or as left, from the straight line L through its channels. ${atOneTemperature}`,
    formula: formulas[figure.of],
    judged: limitWords(figure.limits),
    source:
      figure.of === 'reserve'
        ? `The rule: ${PRACTICE.toLowerCase()}`
        : 'Line: ordinary least squares. Limits: the station file\u2019s design; tilt may be off by twice the tolerance.',
  });

/** How fast it goes. */
export const howSlope = (figure: FollowedFigure, trend: DriftTrend, unit: TemperatureUnit): How =>
  plainHow({
    title: `${figure.name}, its trend`,
    value: `${aYear(trend.perYearDb)}, \u00B1${decimals(trend.toPerYearDb - trend.perYearDb, 2)} 95 of 100 times`,
    words: `A straight line through the figure of ${counted(trend.values.length, 'sweep', 'sweeps')} over the years, since something was last exchanged or set at the station.`,
    formula: 'value = a + b \u00B7 years; b \u00B1 t \u00B7 s(b)',
    items: [
      { name: 'standard error of the slope', text: `${decimals(trend.errorPerYearDb, 3)}\u00A0dB a year` },
      { name: 'degrees of freedom', text: String(trend.freedom) },
      ...(trend.perDegreeDb === null
        ? []
        : [{ name: 'taken out of the same fit, dB', text: aDegree(trend.perDegreeDb, unit, 3) }]),
    ],
    judged:
      figure.of === 'reserve'
        ? 'Each set-up sets it anew, so it is never called a drift.'
        : `The chance that a station that stands still shows such a slope is ${chanceWords(trend.chance)}. A drift is called one below 1 in ${Math.round(1 / SURE_BELOW)} and from ${oneDecimal(LEAST_PER_YEAR_DB)}\u00A0dB a year on.`,
    source: `Least squares and Student\u2019s t: N. R. Draper, H. Smith, \u201CApplied Regression Analysis\u201D (1998), 1.4. When a drift is called one: ${PRACTICE.toLowerCase()}`,
  });

/** When it leaves its limits. */
export const howLeaving = (figure: FollowedFigure, trend: DriftTrend, said: string): How =>
  plainHow({
    title: `When the ${figure.name.toLowerCase()} leaves its limit`,
    value: said,
    words: `Where the trend\u2019s line meets the limit, and where the edges of the band do that holds the line 95 of 100 times. The first of these is the earliest day, the last the latest. It is looked ${HORIZON_YEARS} years ahead.`,
    formula: 'a + b \u00B7 u \u00B1 t \u00B7 \u221A(s\u00B2(a) + 2 u s(a, b) + u\u00B2 s\u00B2(b)) = limit',
    judged: limitWords(figure.limits),
    items: [{ name: 'trend', text: aYear(trend.perYearDb) }],
    source:
      'Confidence band of a regression line: N. R. Draper, H. Smith, \u201CApplied Regression Analysis\u201D (1998), 3.1.',
  });

const CHART =
  'W. A. Shewhart\u2019s charts as in the NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2.';

/** The lines of its control chart. */
export const howControlChart = (figure: FollowedFigure, chart: ControlChart): How =>
  plainHow({
    title: `Control chart of the ${figure.name.toLowerCase()}`,
    value: `${signedDb(chart.lower)} to ${signedDb(chart.upper)}`,
    words:
      'Between these a station stays that only scatters: its mean, and three standard deviations either way, as the differences of neighbouring sweeps tell them.',
    formula: 'mean \u00B1 3 \u00B7 (mean moving range / 1.128) = mean \u00B1 2.66 \u00B7 mean moving range',
    items: [
      { name: 'mean', text: signedDb(chart.center) },
      { name: 'mean moving range', text: `${decimals(chart.meanRange, 2)}\u00A0dB` },
      { name: 'limit of a range, 3.267 times that', text: `${decimals(chart.rangeUpper, 2)}\u00A0dB` },
    ],
    judged: chart.isProvisional
      ? `Provisional: below ${FIRM_FROM} sweeps its lines move with every one.`
      : null,
    source: `${CHART} Provisional: ${PRACTICE.toLowerCase()}`,
  });

/** A rule that some of its sweeps broke. */
export const howRule = (figure: FollowedFigure, rule: RuleId, count: number, chart: ControlChart): How =>
  plainHow({
    title: `${figure.name}: ${rules[rule].words}`,
    value: counted(count, 'time', 'times'),
    words:
      'A station that only scatters would seldom do so: it has changed, or one of its readings is another\u2019s. Each sweep is looked at with those before it.',
    formula: `sigma = mean moving range / 1.128 = ${decimals(chart.sigma, 2)}\u00A0dB`,
    judged: `Counted from the mean, ${signedDb(chart.center)}.`,
    source: `${rules[rule].name}: Western Electric\u2019s \u201CStatistical Quality Control Handbook\u201D (1956) and L. S. Nelson, Journal of Quality Technology 16 (1984), 237\u2013239 (both from memory). ${CHART}`,
  });
