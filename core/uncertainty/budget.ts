import { type Allowed, AMBIENT, unfit } from '../checked.ts';
import type { MeterUncertainty } from '../files/meter-uncertainty.ts';
import { type Refusal, refuse } from '../result.ts';
import { differenceFFromC } from '../units.ts';

/** The meter, and how warm it was; null where nobody wrote that down. */
export type Conditions = Readonly<{ meter: MeterUncertainty; ambientC: number | null }>;

/**
 * How a contribution is shared: `common` moves every channel alike and so leaves tilt and flatness alone; `across` is
 * nought in the middle of the band and opposite at its ends, and so moves tilt; `single` is another one at each channel.
 */
export type Spread = 'common' | 'across' | 'single';
export type Contribution = Readonly<{
  name: string;
  spread: Spread;
  /** What was given: a half-width (taken as rectangular) or a standard deviation. */
  given: 'half-width' | 'standard deviation';
  givenDb: number;
  /** Its standard uncertainty, dB. For `across` that of the difference between the two ends. */
  uDb: number;
  basis: string;
}>;
export type Budget = Readonly<{
  contributions: readonly Contribution[];
  /** Standard uncertainties, dB, combined by spread. */
  commonDb: number;
  acrossDb: number;
  singleDb: number;
}>;

/** Where nobody wrote the temperature down it may be this far from where the meter was calibrated. */
const UNKNOWN_C = 20;
const NOT_PUBLISHED = 'common practice, no published source; the meter\u2019s data sheet goes before it';
const RECTANGULAR = Math.sqrt(3);
/** "20 °C (36 °F)": a difference, for readers of either. */
const apart = (differenceC: number): string =>
  `${differenceC.toFixed(0)} \u00B0C (${differenceFFromC(differenceC).toFixed(0)} \u00B0F)`;

/**
 * The root of the sum of squares: independent standard uncertainties combined.
 * @param uDb  dB each
 * @returns  dB
 * @source   JCGM 100:2008, 5.1.2, equation (10) (from memory), every sensitivity 1
 */
export const combined = (uDb: readonly number[]): number =>
  Math.sqrt(uDb.reduce((sum, one) => sum + one * one, 0));

/**
 * The standard uncertainty of something known to lie within a half-width, anywhere alike.
 * @param halfWidthDb  dB, 0 or more
 * @returns  dB
 * @source   JCGM 100:2008, 4.3.7 (equation (7) from memory): a / sqrt 3
 */
export const rectangular = (halfWidthDb: number): number => halfWidthDb / RECTANGULAR;

const HALF_WIDTH: Allowed = { unit: 'dB', from: 0, to: 20 };
const PER_DEGREE: Allowed = { unit: 'dB per degree C', from: 0, to: 1 };

/**
 * What makes no sense of a meter's numbers or the temperature.
 * @returns  a refusal that names the number, or null when all are fit
 * @source   shared practice: a person's mistake is a value
 */
export function unfitConditions({ meter, ambientC }: Conditions): Refusal<'bad-value'> | null {
  const wrong = unfit([
    ['meter accuracy', meter.accuracyDb, HALF_WIDTH],
    ['meter across the band', meter.acrossBandDb, HALF_WIDTH],
    ['repeatability', meter.repeatabilityDb, HALF_WIDTH],
    ['test point tolerance', meter.testPointToleranceDb, HALF_WIDTH],
    ['meter drift', meter.temperatureDbPerC, PER_DEGREE],
    ['calibration temperature', meter.calibratedAtC, AMBIENT],
    ['temperature', ambientC ?? meter.calibratedAtC, AMBIENT],
  ]);
  return wrong === null ? null : refuse('bad-value', wrong.where, wrong.help);
}

/**
 * What the levels of one sweep are uncertain by, part by part.
 * @param conditions  the meter's numbers in dB; the temperature it was used at in degrees C, or null
 * @returns  every contribution with its basis, and the sums by how they are shared between channels
 * @throws   RangeError when a number is none: the meter is a checked file, the temperature a checked reading
 * @source   JCGM 100:2008, 4.3.7 and (from memory) 5.1.2; which parts are shared: common practice, no published source
 */
export function budgetOf({ meter, ambientC }: Conditions): Budget {
  const awayC = ambientC === null ? UNKNOWN_C : Math.abs(ambientC - meter.calibratedAtC);
  const half = (name: string, spread: Spread, givenDb: number, basis = NOT_PUBLISHED): Contribution => ({
    ...{ name, spread, givenDb, basis, given: 'half-width', uDb: rectangular(givenDb) },
  });
  const contributions: Contribution[] = [
    half('meter accuracy', 'common', meter.accuracyDb),
    half('meter, one end of the band against the other', 'across', meter.acrossBandDb),
    {
      name: 'repeatability of a reading',
      spread: 'single',
      given: 'standard deviation',
      givenDb: meter.repeatabilityDb,
      uDb: meter.repeatabilityDb,
      basis: NOT_PUBLISHED,
    },
    half('test point', 'common', meter.testPointToleranceDb),
    half(
      'meter temperature',
      'common',
      meter.temperatureDbPerC * awayC,
      ambientC === null
        ? `temperature not written down: ${apart(UNKNOWN_C)} away taken; ${NOT_PUBLISHED}`
        : `${apart(awayC)} from where the meter was calibrated; ${NOT_PUBLISHED}`,
    ),
  ];
  if (!contributions.every(({ uDb }) => Number.isFinite(uDb) && uDb >= 0))
    throw new RangeError('an uncertainty that is no number');
  const of = (spread: Spread) =>
    combined(contributions.filter((one) => one.spread === spread).map(({ uDb }) => uDb));
  return { contributions, commonDb: of('common'), acrossDb: of('across'), singleDb: of('single') };
}

/**
 * What one channel's level is uncertain by.
 * @param budget    as budgetOf made it
 * @param position  where the channel lies: 0 at the band's low end, 1 at its high end
 * @returns  standard uncertainty, dB
 * @source   JCGM 100:2008, 5.1.2 (from memory)
 */
export const channelUncertaintyDb = (budget: Budget, position: number): number =>
  combined([budget.commonDb, (position - 0.5) * budget.acrossDb, budget.singleDb]);

/**
 * What a level between two channels is uncertain by, where it is read off the straight line through both.
 * @param budget    as budgetOf made it
 * @param position  where in the band, 0 to 1
 * @param share     how far from the first channel to the second: 0 to 1, beyond where the line goes on
 * @returns  standard uncertainty, dB
 * @source   JCGM 100:2008, 5.1.2 (from memory): sensitivities 1 - share and share of the two readings
 */
export const betweenUncertaintyDb = (budget: Budget, position: number, share: number): number =>
  combined([
    budget.commonDb,
    (position - 0.5) * budget.acrossDb,
    budget.singleDb * (1 - share),
    budget.singleDb * share,
  ]);

/**
 * What the difference of two readings of one channel with one meter is uncertain by, as a gain control's reserve or
 * range is read: what both have in common falls out.
 * @param budget  as budgetOf made it
 * @returns  standard uncertainty, dB
 * @source   JCGM 100:2008, 5.2.2 and (from memory) 5.1.2: a common error has sensitivities 1 and -1
 */
export const differenceUncertaintyDb = (budget: Budget): number =>
  combined([budget.singleDb, budget.singleDb]);
