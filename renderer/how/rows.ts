import type { ChosenSignals } from '../../core/line/choose-rows.ts';
import type { Excluded } from '../../core/line/usable-rows.ts';
import { counted, mhz, signedDb } from '../format.ts';
import { type How, type HowItem, PRACTICE, plainHow } from './how.ts';

/** As many as a popover has room for; the rest is counted. */
const MOST_LISTED = 10;

function listed(items: readonly HowItem[]): readonly HowItem[] {
  if (items.length <= MOST_LISTED) return items;
  const rest = items.length - MOST_LISTED;
  return [...items.slice(0, MOST_LISTED), { name: '\u2026', text: `and ${rest} more` }];
}

/** Rows that were not fitted, each with its reason. */
export const howLeftOut = (excluded: readonly Excluded[], usedCount: number): How =>
  plainHow({
    title: 'What was left out',
    value: counted(excluded.length, 'row', 'rows'),
    words: `${counted(usedCount, 'channel was', 'channels were')} judged. These were not: they are plainly no carriers at their level. Suck-outs, roll-offs and blocks at a level of their own always stay in.`,
    formula:
      'out: no level, not locked, or farther than 8 dB and 6 robust deviations from the repeated-median line',
    items: listed(
      excluded.map(({ frequencyMhz, reason }) => ({
        name: frequencyMhz === null ? 'no frequency' : mhz(frequencyMhz),
        text: reason,
      })),
    ),
    source: `The line: repeated median (A. F. Siegel, Biometrika 69, 1982); fewer than half of the rows cannot pull it. The limits: ${PRACTICE.toLowerCase()} More than a third are left out only where they are sunk by more than 15 dB, and never half.`,
  });

/** Which kind of signal was moved by how much before it was compared. */
export const howSignals = ({ groups, reference }: ChosenSignals): How =>
  plainHow({
    title: 'Steps between kinds of signal',
    value: groups
      .filter(({ name }) => name !== reference)
      .map(({ offsetDb }) => signedDb(offsetDb))
      .join(', '),
    words:
      reference === 'line-up'
        ? 'Each channel is compared with the design line and the offset that the line-up says for it.'
        : `Each kind is compared with its own line: that of ${reference}, moved by the step that such a signal is usually carried at.`,
    formula: 'target(f) = design(f) + offset of the kind',
    items: groups.map(({ name, count, offsetDb, basis }) => ({
      name: `${name}, ${counted(count, 'channel', 'channels')}`,
      text: `${signedDb(offsetDb)}: ${basis}`,
    })),
    source:
      reference === 'line-up'
        ? 'The line-up in this station\u2019s notes.'
        : `The usual steps: ${PRACTICE.toLowerCase()} A line-up goes before them.`,
  });
