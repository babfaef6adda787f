import { monthNames } from './month-names.ts';

/** Where a clock stands: an IANA zone and, where that is unknown here, its offset. */
export type ClockPlace = Readonly<{ timeZone: string; utcOffsetMin: number }>;

export type LocalTime = Readonly<{
  /** "2026-03-02" */
  day: string;
  /** "09:12" */
  clock: string;
  /** "+01:00" */
  offset: string;
}>;

const two = (value: number): string => String(value).padStart(2, '0');

/** What the zone's own rules say; null where this system does not know the zone. */
function offsetMinAt(ms: number, timeZone: string): number | null {
  try {
    const parts = new Intl.DateTimeFormat('en', { timeZone, timeZoneName: 'longOffset' }).formatToParts(ms);
    const told = parts.find(({ type }) => type === 'timeZoneName')?.value ?? '';
    const found = /^GMT(?:([+-])(\d\d):(\d\d))?/.exec(told);
    if (found === null) return null;
    const [, sign, hours, minutes] = found;
    if (sign === undefined) return 0;
    return (sign === '-' ? -1 : 1) * (Number(hours) * 60 + Number(minutes));
  } catch {
    return null;
  }
}

/**
 * A moment as the clock at a place shows it.
 * @param moment  UTC, ISO 8601
 * @param place   the zone decides, summer time included; the offset where this system does not know the zone
 * @returns  day, clock of 24 hours, and the offset from UTC
 * @throws   RangeError on what is no moment: records hold none
 * @source   IANA time zones as the runtime has them; ISO 8601
 */
export function localTime(moment: string, { timeZone, utcOffsetMin }: ClockPlace): LocalTime {
  const ms = Date.parse(moment);
  if (Number.isNaN(ms)) throw new RangeError(`"${moment}" is no moment`);
  const offsetMin = offsetMinAt(ms, timeZone) ?? utcOffsetMin;
  const local = new Date(ms + offsetMin * 60_000).toISOString();
  const far = Math.abs(offsetMin);
  return {
    day: local.slice(0, 10),
    clock: local.slice(11, 16),
    offset: `${offsetMin < 0 ? '\u2212' : '+'}${two(Math.floor(far / 60))}:${two(far % 60)}`,
  };
}

/**
 * "2 March 2026" of "2026-03-02".
 * @param day  YYYY-MM-DD
 * @source   this program's own
 */
export function dayWords(day: string): string {
  const [year = '', month = '', at = ''] = day.split('-');
  return `${Number(at)}\u00A0${monthNames[Number(month) - 1] ?? month} ${year}`;
}

/**
 * "2 March 2026, 09:12 +01:00"
 * @source   see `localTime`
 */
export function momentWords(moment: string, place: ClockPlace): string {
  const { day, clock, offset } = localTime(moment, place);
  return `${dayWords(day)}, ${clock}\u00A0${offset}`;
}
