import type { Purpose } from '../../core/bridge/records.ts';
import { attempt, type Context } from './context.ts';
import { renewSheet } from './station-commands.ts';

/** Why, and who says so. */
export type Said = Readonly<{ sweepId: string; reason: string; operator: string }>;
export type SweepCorrection = Said &
  Readonly<{ testPointLossDb: number; portName: string; purpose: Purpose; ambientC: number | null }>;

async function amended(context: Context, what: string, call: () => Promise<unknown>): Promise<boolean> {
  const { sheet, sweepChosen, dialogDone } = context.store.getState();
  if (sheet.at !== 'open') return false;
  const done = await attempt(context, 'amend-sweep', what, call);
  if (done === null) return false;
  sweepChosen(null);
  dialogDone('amend-sweep');
  await renewSheet(context, sheet.sheet.station.id);
  return true;
}

/** @returns  true when the archive has it */
export const voidSweep = (context: Context, { sweepId, reason, operator }: Said): Promise<boolean> =>
  amended(context, 'The sweep was not declared void.', () =>
    context.client.call('sweeps.void', { sweepId, reason, operator }),
  );

/** @returns  true when the archive has it */
export async function correctSweep(context: Context, correction: SweepCorrection): Promise<boolean> {
  const isDone = await amended(context, 'The sweep was not corrected.', () =>
    context.client.call('sweeps.correct', { ...correction }),
  );
  // The page follows the sweep to where it belongs.
  if (isDone) context.store.getState().portChosen(correction.portName);
  return isDone;
}
