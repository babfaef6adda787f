import { done, type Result, refuse } from '../result.ts';
import { celsiusFromFahrenheit, fahrenheitFromCelsius } from '../units.ts';
import { ambientOffsetAtC, ambientOffsetAtF } from './ambient.ts';
import { type Basis, PRACTICE_NOTE } from './basis.ts';
import { RANGE_LIMITS_HOLD, RANGE_UNCERTAINTY_DB, type RangeTest, rangeTest } from './range.ts';
import { reserveAt } from './reserve.ts';
import { MIDDLE_C, PER_DEGREE_C, spanOffsetDb } from './span-offset.ts';

/** Where rule and physics differ by more than this, it is said. */
export const DISAGREE_DB = 1;

/** What is known at the station; what is not known stays away. The day's temperature in C or in F, never both. */
export type GainControlAsked = Readonly<{
  topMhz: number;
  ambientC?: number;
  ambientF?: number;
  spanDb?: number;
  perDegreeC?: number;
  rangeUpDb?: number;
  rangeDownDb?: number;
  uncertaintyDb?: number;
}>;

export type GainControlAdvice = Readonly<{
  reserveDb: number;
  reserveBasis: Basis;
  ambientOffsetDb: number | null;
  ambientBasis: Basis | null;
  spanOffsetDb: number | null;
  range: RangeTest | null;
  /** Whole sentences that belong beside the figures. */
  notes: readonly string[];
}>;

type Code = 'bad-top' | 'bad-ambient' | 'bad-span' | 'bad-range';

const ABSOLUTE_ZERO_C = -273.15;

function checkedAmbient(asked: GainControlAsked): Result<null, Code> {
  if (asked.ambientC !== undefined && asked.ambientF !== undefined)
    return refuse('bad-ambient', 'ambient temperature', 'say it in degrees C or in degrees F, not in both');
  const ambientC =
    asked.ambientC ?? (asked.ambientF === undefined ? undefined : celsiusFromFahrenheit(asked.ambientF));
  if (ambientC !== undefined && !(ambientC > ABSOLUTE_ZERO_C && ambientC < 200))
    return refuse(
      'bad-ambient',
      'ambient temperature',
      'say the temperature of the air, between -273 and 200 °C (-459 and 392 °F)',
    );
  return done(null);
}

function checkedSpan(asked: GainControlAsked): Result<null, Code> {
  const ambientKnown = asked.ambientC !== undefined || asked.ambientF !== undefined;
  if (asked.spanDb !== undefined && !(asked.spanDb >= 0 && asked.spanDb <= 200))
    return refuse('bad-span', 'span loss', 'say the loss of the span in dB, from 0 to 200');
  if (asked.spanDb !== undefined && !ambientKnown)
    return refuse('bad-span', 'span loss', 'say the ambient temperature as well, C or F');
  if (asked.perDegreeC !== undefined && !(asked.perDegreeC >= 0 && asked.perDegreeC <= 0.02))
    return refuse('bad-span', 'change a degree C', 'say it as a part of the loss, 0.00198 for instance');
  return done(null);
}

function checkedRange(asked: GainControlAsked): Result<null, Code> {
  const { rangeUpDb, rangeDownDb, uncertaintyDb } = asked;
  if ((rangeUpDb === undefined) !== (rangeDownDb === undefined))
    return refuse('bad-range', 'range test', 'say both the range up and the range down');
  for (const db of [rangeUpDb, rangeDownDb, uncertaintyDb])
    if (db !== undefined && !(db >= 0 && db <= 100))
      return refuse('bad-range', 'range test', 'say each range as dB from the set level, without a sign');
  return done(null);
}

/** Input checked in one place, before anything is computed. */
function checkedGainControl(asked: GainControlAsked): Result<null, Code> {
  if (!(asked.topMhz > 0 && asked.topMhz <= 10_000))
    return refuse(
      'bad-top',
      'top frequency',
      'say the highest frequency of the plant in MHz, above 0 and at most 10000, 870 for instance',
    );
  for (const check of [checkedAmbient, checkedSpan, checkedRange]) {
    const checked = check(asked);
    if (!checked.ok) return checked;
  }
  return done(null);
}

/**
 * Where the rule of the ambient compensation has its middle, in the degrees in which the day was told.
 * @returns  "15.6 °C" or "60 °F"
 * @source   see `MIDDLE_C`
 */
export const middleIn = ({ ambientF }: Pick<GainControlAsked, 'ambientF'>): string =>
  ambientF === undefined ? `${MIDDLE_C} °C` : `${Math.round(fahrenheitFromCelsius(MIDDLE_C))} °F`;

/**
 * The reserve, the compensation for the day by the rule and by physics, and the verdict of a range test.
 * @param asked  topMhz in MHz, temperatures in degrees C or F, the rest in dB; what is not known stays away
 * @returns  each part in dB with its basis, null where it was not asked for, and notes; or a refusal
 * @source   contract, section 3, "gain-control, exactly"; the rules: common practice, no published source
 */
export function adviseGainControl(asked: GainControlAsked): Result<GainControlAdvice, Code> {
  const checked = checkedGainControl(asked);
  if (!checked.ok) return checked;
  const reserve = reserveAt(asked.topMhz);
  const { ambientC, ambientF, spanDb, rangeUpDb, rangeDownDb } = asked;
  const ambient =
    ambientF !== undefined
      ? ambientOffsetAtF(ambientF)
      : ambientC !== undefined
        ? ambientOffsetAtC(ambientC)
        : null;
  const airC = ambientF === undefined ? ambientC : celsiusFromFahrenheit(ambientF);
  const spanOffset =
    spanDb === undefined || airC === undefined
      ? null
      : spanOffsetDb(spanDb, airC, asked.perDegreeC ?? PER_DEGREE_C);
  const range =
    rangeUpDb === undefined || rangeDownDb === undefined
      ? null
      : rangeTest(rangeUpDb, rangeDownDb, asked.uncertaintyDb ?? RANGE_UNCERTAINTY_DB);
  const notes = [`Reserve, ambient compensation and range limits are rules of thumb: ${PRACTICE_NOTE}.`];
  if (range !== null && (asked.topMhz < RANGE_LIMITS_HOLD.fromMhz || asked.topMhz > RANGE_LIMITS_HOLD.toMhz))
    notes.push(
      `The limits of the range test are those of 750 to 870 MHz; none are known for ${asked.topMhz} MHz, and the same are taken.`,
    );
  if (ambient !== null && spanOffset !== null && Math.abs(ambient.offsetDb - spanOffset) > DISAGREE_DB)
    notes.push(
      `Rule and physics disagree by ${Math.abs(ambient.offsetDb - spanOffset).toFixed(1)} dB: the rule says ${signed(ambient.offsetDb)} dB, this span ${signed(spanOffset)} dB against ${middleIn(asked)}.`,
    );
  return done({
    reserveDb: reserve.reserveDb,
    reserveBasis: reserve.basis,
    ambientOffsetDb: ambient?.offsetDb ?? null,
    ambientBasis: ambient?.basis ?? null,
    spanOffsetDb: spanOffset,
    range,
    notes,
  });
}

/** One decimal and a sign; a rounded zero has none. */
function signed(db: number): string {
  const text = Math.abs(db).toFixed(1);
  if (Number(text) === 0) return text;
  return db < 0 ? `−${text}` : `+${text}`;
}
