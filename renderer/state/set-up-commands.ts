import type { Input } from '../../core/bridge/contract.ts';
import type { SimulatedHand } from '../../core/bridge/live-calls.ts';
import { attempt, type Context, helpOf } from './context.ts';
import { openVisitId } from './visit-commands.ts';

/** The set-up of the open visit, exactly as it stands; also after a crash. */
export async function openSetUp({ client, store }: Context, visitId: string): Promise<void> {
  try {
    const { setUp } = await client.call('set-up.open', { visitId });
    store.getState().setUpArrived(visitId, setUp);
  } catch (fault) {
    store
      .getState()
      .noticed({ tone: 'problem', text: 'The set-up could not be opened.', help: helpOf(fault) });
  }
}

/** Every set-up of a station: the year ahead is computed with what the newest finished one measured. */
export async function listSetUps({ client, store }: Context, stationId: string): Promise<void> {
  try {
    const { setUps } = await client.call('set-up.list', { stationId });
    store.getState().setUpsListed(stationId, setUps);
  } catch (fault) {
    store.getState().noticed({
      tone: 'problem',
      text: 'What the set-ups measured could not be read.',
      help: helpOf(fault),
    });
  }
}

export type SetUpStart = Omit<Input<'set-up.begin'>, 'visitId'>;

export async function beginSetUp(context: Context, start: SetUpStart): Promise<void> {
  const visitId = openVisitId(context);
  if (visitId === null) return;
  const begun = await attempt(context, 'begin-set-up', 'The set-up was not begun.', () =>
    context.client.call('set-up.begin', { visitId, ...start }),
  );
  if (begun !== null) context.store.getState().setUpArrived(visitId, begun);
}

export type StepRecord = Omit<Input<'set-up.record'>, 'visitId'>;

/** @returns  true when the archive has it */
export async function recordStep(context: Context, record: StepRecord): Promise<boolean> {
  const visitId = openVisitId(context);
  if (visitId === null) return false;
  const kept = await attempt(context, `step ${record.step}`, 'The step was not recorded.', () =>
    context.client.call('set-up.record', { visitId, ...record }),
  );
  if (kept === null) return false;
  context.store.getState().setUpArrived(visitId, kept);
  return true;
}

export async function abandonSetUp(context: Context, reason: string): Promise<boolean> {
  const visitId = openVisitId(context);
  if (visitId === null) return false;
  const given = await attempt(context, 'abandon', 'The set-up was not given up.', () =>
    context.client.call('set-up.abandon', { visitId, reason }),
  );
  if (given === null) return false;
  context.store.getState().setUpArrived(visitId, given);
  return true;
}

/** The demo's hand at the simulated amplifier. */
export async function moveHand(context: Context, stationId: string, hand: SimulatedHand): Promise<void> {
  const { client, store } = context;
  try {
    store.getState().simulatedModuleArrived(await client.call('simulate.hand', { stationId, hand }));
  } catch (fault) {
    store.getState().noticed({ tone: 'problem', text: 'The hand did nothing.', help: helpOf(fault) });
  }
}

export async function readModule({ client, store }: Context, stationId: string): Promise<void> {
  try {
    store.getState().simulatedModuleArrived((await client.call('simulate.module', { stationId })).module);
  } catch {
    // Looked at again in a moment; a host that is gone says so by itself.
  }
}
