/** CLDR 47, supplemental data, measurementData, paperSize US-Letter: everywhere else it is A4. */
const LETTER = new Set(['BZ', 'CA', 'CL', 'CO', 'CR', 'GT', 'MX', 'NI', 'PA', 'PH', 'PR', 'SV', 'US', 'VE']);

/**
 * The paper that is usual where a language is spoken.
 * @param locale  BCP 47, such as "de-DE"; one without a region is taken where most of its speakers are
 * @returns  `letter` or `a4`
 * @source   CLDR 47, measurementData: paperSize
 */
export function usualPaper(locale: string): 'a4' | 'letter' {
  try {
    const { region } = new Intl.Locale(locale).maximize();
    return region !== undefined && LETTER.has(region) ? 'letter' : 'a4';
  } catch {
    return 'a4';
  }
}
