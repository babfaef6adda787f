import type { Change, ProposalNote, Turn } from '../../core/bridge/records.ts';
import { attempt, type Context } from './context.ts';
import { renewSheet } from './station-commands.ts';

export type VisitStart = Readonly<{ operator: string; ambientC: number | null }>;

const openStationId = ({ store }: Context): string | null => {
  const { sheet } = store.getState();
  return sheet.at === 'open' ? sheet.sheet.station.id : null;
};

export const openVisitId = ({ store }: Context): string | null => {
  const { sheet } = store.getState();
  return sheet.at === 'open' ? (sheet.sheet.openVisit?.visitId ?? null) : null;
};

/** Only ever called by the button under the cautions. */
export async function beginVisit(context: Context, { operator, ambientC }: VisitStart): Promise<void> {
  const stationId = openStationId(context);
  if (stationId === null) return;
  const begun = await attempt(context, 'begin-visit', 'The visit was not begun.', () =>
    context.client.call('visits.begin', { stationId, operator, ambientC, cautionsRead: true }),
  );
  if (begun === null) return;
  context.store.getState().operatorNamed(operator);
  context.store.getState().dialogDone('begin-visit');
  await renewSheet(context, stationId);
}

export async function endVisit(context: Context, note: string): Promise<void> {
  const stationId = openStationId(context);
  const visitId = openVisitId(context);
  if (stationId === null || visitId === null) return;
  const ended = await attempt(context, 'end-visit', 'The visit was not ended.', () =>
    context.client.call('visits.end', { visitId, note }),
  );
  if (ended === null) return;
  context.store.getState().dialogDone('end-visit');
  await renewSheet(context, stationId);
}

/** @returns  true when the archive has the fittings */
export async function fitParts(
  context: Context,
  changes: readonly Change[],
  proposal: ProposalNote | null,
): Promise<boolean> {
  const stationId = openStationId(context);
  const visitId = openVisitId(context);
  if (stationId === null || visitId === null || changes.length === 0) return false;
  const fitted = await attempt(context, 'fit', 'The parts were not noted.', () =>
    context.client.call('parts.fit', { visitId, changes: [...changes], proposal }),
  );
  if (fitted === null) return false;
  await renewSheet(context, stationId);
  return true;
}

/** @returns  true when the archive has what was turned */
export async function turnTrims(context: Context, sweepId: string, turns: readonly Turn[]): Promise<boolean> {
  const stationId = openStationId(context);
  const visitId = openVisitId(context);
  if (stationId === null || visitId === null || turns.length === 0) return false;
  const turned = await attempt(context, 'fit', 'What was turned was not noted.', () =>
    context.client.call('trims.turn', { visitId, sweepId, turns: [...turns] }),
  );
  if (turned === null) return false;
  await renewSheet(context, stationId);
  return true;
}
