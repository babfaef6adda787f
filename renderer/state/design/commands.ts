import { type Station, withPluggedIn } from '../../../core/files/station.ts';
import { attempt, type Context } from '../context.ts';
import { listStations, openStation, renewSheet } from '../station-commands.ts';
import { offerBack } from '../undo-kept.ts';

/** What the archive names as the file of a design that was written on this page. */
export const WRITTEN_HERE = 'written in the workbench';

const fileOf = (station: Station): string => `${JSON.stringify(station, null, 2)}\n`;

/**
 * A station that was described on this page, into the archive and onto its sheet.
 * @returns  true when the archive has it; false where its id is another station's, which the notice says
 */
export async function addStation(context: Context, station: Station): Promise<boolean> {
  const { client, store } = context;
  const taken = await attempt(context, 'keep-design', `${station.name} was not kept.`, () =>
    client.call('stations.import', { fileName: WRITTEN_HERE, text: fileOf(station), basedOn: 0 }),
  );
  if (taken === null) return false;
  await listStations(context);
  await openStation(context, taken.stationId);
  store.getState().noticed({ tone: 'news', text: `${station.name} is in the archive.`, help: '' });
  return true;
}

export type DesignChange = Readonly<{
  /** As it is to be from now on, with what is plugged in now. */
  station: Station;
  /** Whence it comes: a measurement's file, or this page. */
  fileName: string;
  /** What is said of it: "The measured loss of 8 is kept." */
  text: string;
  /** What is said when it is taken back. */
  backText: string;
}>;

/**
 * The open station with another design, as its next revision; the one before can be taken back.
 * @returns  true when the archive has it
 */
export async function keepDesign(context: Context, change: DesignChange): Promise<boolean> {
  const { client, store } = context;
  const { station, fileName, text, backText } = change;
  const { sheet } = store.getState();
  if (sheet.at !== 'open') return false;
  const before = withPluggedIn(sheet.sheet.station, sheet.sheet.pluggedIn);
  const taken = await attempt(context, 'keep-design', 'The design was not kept.', () =>
    client.call('stations.import', { fileName, text: fileOf(station), basedOn: sheet.sheet.revision }),
  );
  if (taken === null) return false;
  await renewSheet(context, station.id);
  const now = () => {
    const { sheet: open } = store.getState();
    return open.at === 'open' && open.sheet.station.id === station.id ? open.sheet : null;
  };
  offerBack(context, {
    text,
    revision: taken.revision,
    newest: () => now()?.revision ?? -1,
    back: () =>
      keepDesign(context, {
        // What was plugged in meanwhile stays in.
        station: withPluggedIn(before, now()?.pluggedIn ?? {}),
        fileName,
        text: backText,
        backText: text,
      }),
  });
  return true;
}
