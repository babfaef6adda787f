import type { Output } from '../../core/bridge/contract.ts';
import { attempt, type Context, helpOf } from './context.ts';
import { openStation } from './station-commands.ts';
import { chooseSweep } from './sweep-commands.ts';

/** The first page is short, so that a screen is full at once; the others are long. */
const FIRST_PAGE = 100;
const PAGE = 1000;
const TRENDS = 500;
/** So many of the newest sweeps are laid over each other. */
export const OVERLAID = 12;

/** A look that was begun later makes an earlier one, still under way, end without a word. */
let looks = 0;

/** Opens the table of all records and reads it anew: the stations page by page, then their histories. */
export async function openRecords({ client, store }: Context): Promise<void> {
  const state = () => store.getState();
  const look = ++looks;
  state().recordsWent('table');
  state().recordsBegun();
  try {
    for (let after: number | null = 0; after !== null; ) {
      const page: Output<'quality.stations'> = await client.call('quality.stations', {
        after,
        limit: after === 0 ? FIRST_PAGE : PAGE,
      });
      if (look !== looks) return;
      state().recordsCame(page.stations, page.total);
      after = page.next;
    }
    state().recordsReading({ at: 'trends' });
    const ids = state().records.stations.map(({ stationId }) => stationId);
    for (let from = 0; from < ids.length; from += TRENDS) {
      const { trends } = await client.call('quality.trends', { stationIds: ids.slice(from, from + TRENDS) });
      if (look !== looks) return;
      state().trendsCame(trends);
    }
    state().recordsReading({ at: 'done' });
  } catch (fault) {
    if (look === looks) state().recordsReading({ at: 'failed', help: helpOf(fault) });
  }
}

export function closeRecords({ store }: Context): void {
  looks++;
  store.getState().recordsWent('closed');
}

/** One station's history at one port, with its newest sweeps. */
export async function openHistory(
  { client, store }: Context,
  stationId: string,
  portName: string | null,
): Promise<void> {
  const state = () => store.getState();
  state().recordsWent('history');
  state().historyBecame({ at: 'reading', stationId });
  try {
    const history = await client.call('quality.history', { stationId, portName });
    const newest = history.sweeps.slice(-OVERLAID);
    const sweeps = await Promise.all(newest.map(({ sweepId }) => client.call('sweeps.open', { sweepId })));
    const { history: now } = state();
    // Somebody has gone on to another station meanwhile.
    if (now.at !== 'reading' || now.stationId !== stationId) return;
    state().historyBecame({
      at: 'open',
      history,
      sweeps: Object.fromEntries(sweeps.map((sweep) => [sweep.summary.sweepId, sweep])),
      compared: null,
    });
  } catch (fault) {
    state().historyBecame({ at: 'failed', stationId, help: helpOf(fault) });
  }
}

/** Puts two sweeps of the history beside each other, the earlier one first; null puts them away. */
export async function compareTwo(context: Context, pair: readonly [string, string] | null): Promise<void> {
  const { client, store } = context;
  const { history } = store.getState();
  if (history.at !== 'open') return;
  if (pair === null) {
    store.getState().comparedBecame(null);
    return;
  }
  const order = history.history.sweeps.map(({ sweepId }) => sweepId);
  const [earlier, later] = [...pair].sort((a, b) => order.indexOf(a) - order.indexOf(b));
  if (earlier === undefined || later === undefined) return;
  await attempt(context, 'compare', 'The two sweeps could not be compared.', async () => {
    const missing = [earlier, later].filter((sweepId) => history.sweeps[sweepId] === undefined);
    const sweeps = await Promise.all(missing.map((sweepId) => client.call('sweeps.open', { sweepId })));
    store.getState().historySweepsCame(sweeps);
    store.getState().comparedBecame([earlier, later]);
  });
}

/** From a point of a history to the sheet with that very sweep; the way back leads here again. */
export async function openSweepOf(
  context: Context,
  stationId: string,
  portName: string,
  sweepId: string,
): Promise<void> {
  await openStation(context, stationId);
  context.store.getState().portChosen(portName);
  await chooseSweep(context, sweepId);
}

/** The moment at which a day begins at this place; `later` days on. Null where it is no day. */
export function dayBegins(day: string, later: number): string | null {
  const [year, month, date] = day.split('-').map(Number);
  if (year === undefined || month === undefined || date === undefined) return null;
  const at = new Date(year, month - 1, date + later);
  return Number.isNaN(at.getTime()) || year < 1970 ? null : at.toISOString();
}

/** What the visits of some days came to, both days included. */
export async function readPeriod({ client, store }: Context, fromDay: string, toDay: string): Promise<void> {
  const { periodBecame } = store.getState();
  const from = dayBegins(fromDay, 0);
  const to = dayBegins(toDay, 1);
  periodBecame({ fromDay, toDay });
  if (from === null || to === null || from >= to) {
    periodBecame({
      found: { at: 'failed', help: 'Say two days, the first not after the last.' },
    });
    return;
  }
  periodBecame({ found: { at: 'reading' } });
  try {
    periodBecame({ found: { at: 'found', batch: await client.call('quality.period', { from, to }) } });
  } catch (fault) {
    periodBecame({ found: { at: 'failed', help: helpOf(fault) } });
  }
}
