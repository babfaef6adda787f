/** How this system writes numbers and the time of day. The words of the page stay English whatever it is. */
export type Manner = Readonly<{
  decimal: '.' | ',';
  hours: 12 | 24;
  /** An English way of writing with the same signs, for the libraries that ask for a locale. */
  locale: 'en-GB' | 'en-US' | 'en-DE';
}>;

/** What is written with where the system is not asked: in tests, and before the page knows. */
export const usualManner: Manner = { decimal: '.', hours: 24, locale: 'en-GB' };

/** What the system's locale ("de-DE", "en-US") says; an unknown one is the usual. */
export function mannerOf(systemLocale: string): Manner {
  try {
    const decimal = new Intl.NumberFormat(systemLocale)
      .formatToParts(1.5)
      .find(({ type }) => type === 'decimal')?.value;
    const { hourCycle } = new Intl.DateTimeFormat(systemLocale, { hour: 'numeric' }).resolvedOptions();
    const hours = hourCycle === 'h11' || hourCycle === 'h12' ? 12 : 24;
    if (decimal === ',') return { decimal, hours, locale: 'en-DE' };
    return { decimal: '.', hours, locale: hours === 12 ? 'en-US' : 'en-GB' };
  } catch {
    return usualManner;
  }
}
