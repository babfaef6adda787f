/** Days from one to another, as "2026-11-24"; the second no longer belongs to them. */
export type SaidDays = Readonly<{ fromDay: string; beforeDay: string }>;

const MONTHS = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
] as const;

const two = (value: number): string => String(value).padStart(2, '0');
const dayOf = (at: Date): string =>
  `${String(at.getUTCFullYear()).padStart(4, '0')}-${two(at.getUTCMonth() + 1)}-${two(at.getUTCDate())}`;
/** A day that the calendar has, else null: the 31st of April is none. */
function calendarDay(year: number, month: number, date: number): Date | null {
  const at = new Date(Date.UTC(year, month - 1, date));
  return at.getUTCMonth() === month - 1 && at.getUTCDate() === date ? at : null;
}

const oneDay = (at: Date | null): SaidDays | null =>
  at === null ? null : { fromDay: dayOf(at), beforeDay: dayOf(new Date(at.getTime() + 86_400_000)) };
const oneMonth = (year: number, month: number): SaidDays | null =>
  month < 1 || month > 12
    ? null
    : {
        fromDay: dayOf(new Date(Date.UTC(year, month - 1, 1))),
        beforeDay: dayOf(new Date(Date.UTC(year, month, 1))),
      };

/** The place of a month in the year by its name or the first three letters of it; 0 where it is none. */
const monthNamed = (word: string): number =>
  word.length < 3 ? 0 : MONTHS.findIndex((name) => name.startsWith(word)) + 1;

type Found = Readonly<{ days: SaidDays; words: number }>;

/** A day in figures: year first, or day first with points. */
function inFigures(word: string, thisYear: number): SaidDays | null {
  const iso = /^((?:19|20)\d\d)-(\d\d?)(?:-(\d\d?))?$/.exec(word);
  if (iso !== null)
    return iso[3] === undefined
      ? oneMonth(Number(iso[1]), Number(iso[2]))
      : oneDay(calendarDay(Number(iso[1]), Number(iso[2]), Number(iso[3])));
  const pointed = /^(\d\d?)\.(\d\d?)\.((?:19|20)\d\d)?$/.exec(word);
  if (pointed !== null)
    return oneDay(calendarDay(Number(pointed[3] ?? thisYear), Number(pointed[2]), Number(pointed[1])));
  return null;
}

/** A month in letters with its day, its year or both; alone it might be somebody's name. */
function inLetters(words: readonly string[], at: number, thisYear: number): Found | null {
  const [first = '', second = '', third = ''] = words.slice(at, at + 3);
  const isDate = (word: string) => /^\d\d?\.?$/.test(word);
  const isYear = (word: string) => /^(?:19|20)\d\d$/.test(word);
  const day = isDate(first) ? first : isDate(second) ? second : null;
  const month = monthNamed(day !== null && isDate(first) ? second : first);
  if (month === 0) return null;
  if (day !== null) {
    const withYear = isYear(third);
    const days = oneDay(calendarDay(withYear ? Number(third) : thisYear, month, Number.parseInt(day, 10)));
    return days === null ? null : { days, words: withYear ? 3 : 2 };
  }
  if (!isYear(second)) return null;
  const days = oneMonth(Number(second), month);
  return days === null ? null : { days, words: 2 };
}

function foundAt(words: readonly string[], at: number, today: string): Found | null {
  const word = words[at] ?? '';
  const thisYear = Number(today.slice(0, 4));
  const now = new Date(`${today}T00:00:00Z`);
  if (word === 'today')
    return { days: { ...(oneDay(now) ?? { fromDay: today, beforeDay: today }) }, words: 1 };
  if (word === 'yesterday') {
    const days = oneDay(new Date(now.getTime() - 86_400_000));
    return days === null ? null : { days, words: 1 };
  }
  const figures = inFigures(word, thisYear);
  if (figures !== null) return { days: figures, words: 1 };
  const letters = inLetters(words, at, thisYear);
  if (letters !== null) return letters;
  if (/^(?:19|20)\d\d$/.test(word))
    return { days: { fromDay: `${word}-01-01`, beforeDay: `${Number(word) + 1}-01-01` }, words: 1 };
  return null;
}

/**
 * The first day, month or year that somebody wrote among the words of a search, and the words without it. Understood are
 * 2026-11-24, 2026-11, 24.11.2026, 24.11., 24 November 2026, November 24, Nov 2026, 2026, today and yesterday. Two
 * figures with a stroke between them are left alone: which of them is the month differs from place to place.
 *
 * @param text   what was typed
 * @param today  the day at this place, as "2026-11-24"
 * @returns      `days`, null where none is named, and `rest`, the other words in lower case and in their order
 * @source       ISO 8601 for the figures with the year first; the rest common practice, no published source
 */
export function saidDays(
  text: string,
  today: string,
): Readonly<{ days: SaidDays | null; rest: readonly string[] }> {
  const words = text
    .toLowerCase()
    .split(/[\s,]+/)
    .filter((word) => word !== '');
  for (let at = 0; at < words.length; at += 1) {
    const found = foundAt(words, at, today);
    if (found !== null)
      return { days: found.days, rest: [...words.slice(0, at), ...words.slice(at + found.words)] };
  }
  return { days: null, rest: words };
}
