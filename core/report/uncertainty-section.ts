import { chanceWords } from '../uncertainty/conformity.ts';
import { goodToDb } from '../uncertainty/shares.ts';
import { plusMinus } from '../words/numbers.ts';
import type { Block } from './document.ts';
import type { SheetWord } from './material.ts';
import type { JudgedSweep } from './port-view.ts';

/**
 * Whose word the meter's uncertainty is, in a sentence.
 * @source   see the rule of the settings: the nearer word goes first
 */
export function sheetSentence(sheet: SheetWord): string {
  switch (sheet.from) {
    case 'station':
      return 'The meter\u2019s numbers are those of this station\u2019s notes.';
    case 'model':
      return `The meter\u2019s numbers are those of the sheet of ${sheet.model}, in the settings.`;
    case 'defaults':
      return 'This meter has no sheet of its own: the numbers for any meter were taken, common practice without a published source unless the settings say otherwise.';
  }
}

/**
 * What the levels are uncertain by, part by part, and what that makes of the verdict.
 * @param judged  the sweep that the verdict is about
 * @returns  no blocks where nothing was judged with an uncertainty
 * @source   JCGM 100:2008, 4.3.7 and (from memory) 5.1.2; JCGM 106:2012, 8.3 (from memory)
 */
export function uncertaintySection({ standing, sweep }: JudgedSweep): readonly Block[] {
  const uncertain = standing?.uncertainty;
  if (standing === null || uncertain === undefined) return [];
  const chance =
    standing.probability === undefined
      ? ''
      : ` The chance that this sweep lies within the design is ${chanceWords(standing.probability)}.`;
  return [
    { block: 'heading', level: 2, text: 'How sure this is' },
    {
      block: 'paragraph',
      text: `Each figure is good to plus or minus what stands beside it, 95 of 100 times. A verdict is good from 95 in 100 on, not good up to 5 in 100, and else undecided.${chance}`,
    },
    {
      block: 'table',
      caption: 'What a level is uncertain by',
      columns: [
        { title: 'Part', align: 'start', share: 2.4 },
        { title: 'Given, dB', align: 'end', share: 0.9 },
        { title: 'As', align: 'start', share: 1.5 },
        { title: 'Standard, dB', align: 'end', share: 1.1 },
        { title: 'Basis', align: 'start', share: 4.1 },
      ],
      rows: uncertain.budget.contributions.map(({ name, givenDb, given, uDb, basis }) => [
        { text: name },
        { text: givenDb.toFixed(2) },
        { text: given, soft: true },
        { text: uDb.toFixed(2) },
        { text: basis, soft: true },
      ]),
    },
    {
      block: 'paragraph',
      soft: true,
      text: `Together, for the level at the high end: ${plusMinus(goodToDb(uncertain.line.levelHighDb))}\u00A0dB; for tilt, where common errors fall out: ${plusMinus(goodToDb(uncertain.line.tiltDb))}\u00A0dB. ${sheetSentence(sweep.sheet)}`,
    },
  ];
}
