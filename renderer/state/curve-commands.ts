import type { Station } from '../../core/files/station.ts';
import { attempt, type Context } from './context.ts';
import { renewSheet } from './station-commands.ts';
import { offerBack } from './undo-kept.ts';

export type CurveChange = Readonly<{
  station: Station;
  /** Whence it comes: the measurement's file, kept with the revision. */
  fileName: string;
  /** What is said of it: "The measured loss of 8 is kept." */
  text: string;
}>;

/**
 * A station whose plug-ins lose what was measured, as its next revision; the one before can be taken back.
 * @returns  true when the archive has it
 */
export async function keepCurve(
  context: Context,
  { station, fileName, text }: CurveChange,
): Promise<boolean> {
  const { client, store } = context;
  const { sheet } = store.getState();
  if (sheet.at !== 'open') return false;
  const before = sheet.sheet.station;
  const taken = await attempt(context, 'import-station', 'The measured loss was not kept.', () =>
    client.call('stations.import', { fileName, text: `${JSON.stringify(station, null, 2)}\n` }),
  );
  if (taken === null) return false;
  await renewSheet(context, station.id);
  offerBack(context, {
    text,
    revision: taken.revision,
    newest: () => {
      const now = store.getState().sheet;
      return now.at === 'open' && now.sheet.station.id === station.id ? now.sheet.revision : -1;
    },
    back: () =>
      keepCurve(context, {
        station: before,
        fileName,
        text: `The losses of ${station.name} are what they were.`,
      }),
  });
  return true;
}
