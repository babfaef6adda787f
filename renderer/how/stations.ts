import type { StationRow } from '../../core/bridge/records.ts';
import { mhz, signedDb } from '../format.ts';
import { type How, PRACTICE, plainHow } from './how.ts';

/** The worst channel of a station as the list shows it. */
export function howStationWorst(
  name: string,
  standing: NonNullable<StationRow['standing']>,
  worstDb: number,
): How {
  const at = standing.worstMhz === null ? '' : `, at ${mhz(standing.worstMhz)}`;
  return plainHow({
    title: `Worst channel of ${name}`,
    value: signedDb(worstDb),
    words: `Of the newest sweep that has a design to stand against, the channel farthest from what the design wants there${at}.`,
    formula: 'greatest |level \u2212 target(f)|',
    judged:
      'In order: worst channel and flatness inside what the design allows, with a chance of 95 in 100. Judged by the settings and the notes as they are now.',
    source: `The rule: ${PRACTICE.toLowerCase()} Chance: JCGM 106:2012, 7.2 to 7.4 and 8.3 (section numbers from memory).`,
  });
}
