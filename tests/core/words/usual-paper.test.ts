import { expect, it } from 'vitest';
import { usualPaper } from '../../../core/words/usual-paper.ts';

// Unicode CLDR, supplementalData, measurementData: paperSize type="US-Letter" territories.
it.each(['en-US', 'en-CA', 'es-MX', 'fil-PH', 'es-CL', 'en'])('is Letter for %s', (locale) => {
  expect(usualPaper(locale)).toBe('letter');
});
it.each(['de-DE', 'en-GB', 'pt-PT', 'ja', 'de', 'no locale', ''])('is A4 for %s', (locale) => {
  expect(usualPaper(locale)).toBe('a4');
});
