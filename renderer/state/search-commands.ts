import { saidDays } from '../../core/words/said-days.ts';
import { type Context, helpOf } from './context.ts';
import { dayBegins } from './quality-commands.ts';
import { type Goal, MOST_RECORDS } from './search-results.ts';
import { NOTHING_FOUND } from './search-slice.ts';
import type { Store } from './store.ts';
import type { Workbench } from './workbench.ts';

const two = (value: number): string => String(value).padStart(2, '0');
/** The day at this place, as "2026-11-24". */
function localDay(moment: string): string {
  const at = new Date(moment);
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

const MOST_WORDS = 8;
/** A search that was begun later makes an earlier one's answer nobody's. */
let asks = 0;

/** Asks the archive for what the page does not hold. A text that was typed later goes before this one's answer. */
export async function searchRecords({ client, store }: Context, text: string, now: string): Promise<void> {
  const { days, rest } = saidDays(text, localDay(now));
  const words = rest.slice(0, MOST_WORDS).map((word) => word.slice(0, 400));
  const from = days === null ? null : dayBegins(days.fromDay, 0);
  const before = days === null ? null : dayBegins(days.beforeDay, 0);
  const range = from === null || before === null ? null : { from, before };
  const state = () => store.getState();
  if (words.length === 0 && range === null) {
    state().foundCame({ ...NOTHING_FOUND, forText: text });
    return;
  }
  state().foundCame({ ...state().found, forText: '' });
  const asked = ++asks;
  try {
    const found = await client.call('search.records', { words, days: range, most: MOST_RECORDS });
    if (asked === asks) state().foundCame({ forText: text, ...found, help: '' });
  } catch (fault) {
    if (asked === asks) state().foundCame({ ...NOTHING_FOUND, forText: text, help: helpOf(fault) });
  }
}

/** Goes where a result leads; a station that is open is left as by its way back. */
export async function goTo(store: Store, workbench: Workbench, goal: Goal): Promise<void> {
  const state = () => store.getState();
  state().searchClosed();
  switch (goal.to) {
    case 'term':
      state().helpOpened('terms', goal.term);
      return;
    case 'action':
      await goal.action.go(state(), workbench);
      return;
    case 'station':
    case 'sweep': {
      const { sheet } = state();
      state().designWent({ at: 'closed' });
      const isOpen = sheet.at === 'open' && sheet.sheet.station.id === goal.stationId;
      if (!isOpen && sheet.at !== 'none') await workbench.leaveStation();
      state().placeChosen('station');
      if (goal.to === 'sweep' && isOpen) {
        state().portChosen(goal.portName);
        await workbench.chooseSweep(goal.sweepId);
      } else if (goal.to === 'sweep')
        await workbench.openSweepOf(goal.stationId, goal.portName, goal.sweepId);
      else if (!isOpen) await workbench.openStation(goal.stationId);
    }
  }
}
