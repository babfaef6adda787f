import type { Input, Output } from '../../core/bridge/contract.ts';
import { attempt, type Context } from './context.ts';

export type ReportOrder = Input<'reports.make'>;
export type ReportFile = Output<'reports.make'>;
/** How far a report with several visits has come. */
export type ReportProgress = (done: number, total: number) => void;

/** Asks for a report; null after a fault, which is then the notice, and after it was stopped. */
export async function makeReport(
  context: Context,
  order: ReportOrder,
  signal: AbortSignal,
  onProgress: ReportProgress,
): Promise<ReportFile | null> {
  const asked = JSON.stringify(order.of);
  const stop = context.client.on('reports.progress', ({ of, done, total }) => {
    if (JSON.stringify(of) === asked) onProgress(done, total);
  });
  try {
    return await attempt(context, 'report', 'The report was not made.', () =>
      context.client.call('reports.make', order, signal),
    );
  } finally {
    stop();
  }
}
