import type { MeterUncertainty } from '../../core/files/meter-uncertainty.ts';
import { budgetOf, channelUncertaintyDb } from '../../core/uncertainty/budget.ts';
import { goodToDb, sharesOf } from '../../core/uncertainty/shares.ts';
import { plusMinus } from '../format.ts';
import { type How, plainHow } from './how.ts';

/** The middle of the band, where one end's difference from the other does nothing. */
const MIDDLE = 0.5;
/** One level is no line. */
const NO_LINE = { lowDb: 0, highDb: 0, tiltDb: 0, scatterDb: 0 };

/** What one level is good to with a meter's numbers, where nobody wrote the temperature down. */
export function howGoodTo(meter: MeterUncertainty): How {
  const budget = budgetOf({ meter, ambientC: null });
  const uDb = channelUncertaintyDb(budget, MIDDLE);
  return {
    ...plainHow({
      title: 'What one level is good to',
      value: `${plusMinus(goodToDb(uDb))}\u00A0dB`,
      words:
        'The numbers above, each as a standard uncertainty, put together; of a channel in the middle of the band. A half-width is taken as anywhere within alike, and divided by \u221A3.',
      formula: 'u = \u221A(\u03A3 u\u00B2); \u00B1 1.96 u',
      source:
        'JCGM 100:2008, 4.3.7, 5.1.2 and 6.2.1 (4.3.7 confirmed, the others from memory). 1.96 holds 95 of 100 of a normal spread.',
    }),
    shares: sharesOf('worst', budget, NO_LINE, MIDDLE),
    uDb,
  };
}
