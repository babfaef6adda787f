import type { MeterUncertainty } from '../files/meter-uncertainty.ts';
import type { StationNotes } from '../files/station-notes.ts';
import type { Conditions } from '../uncertainty/budget.ts';
import type { SweepSummary } from './records.ts';
import type { Settings } from './settings-calls.ts';

/** Whose word the meter's uncertainty is. */
export type SheetSource =
  | Readonly<{ from: 'station' }>
  | Readonly<{ from: 'model'; model: string }>
  | Readonly<{ from: 'defaults' }>;

/**
 * Which numbers of uncertainty hold for a sweep: those of the station's notes, else those of the meter's own sheet, else
 * those for any meter.
 * @param settings  those of this archive
 * @param notes     those of the sweep's station, or null
 * @param model     the meter's model as it named itself, or null for a sweep from a file
 * @returns  the numbers and whose word they are
 * @source   common practice, no published source: the nearer word goes first
 */
export function meterSheet(
  settings: Pick<Settings, 'meter' | 'sheets'>,
  notes: Pick<StationNotes, 'meter'> | null,
  model: string | null,
): Readonly<{ sheet: MeterUncertainty; source: SheetSource }> {
  if (notes?.meter !== undefined) return { sheet: notes.meter, source: { from: 'station' } };
  const own = model !== null && Object.hasOwn(settings.sheets, model) ? settings.sheets[model] : undefined;
  return own === undefined || model === null
    ? { sheet: settings.meter, source: { from: 'defaults' } }
    : { sheet: own, source: { from: 'model', model } };
}

/**
 * What a sweep's levels are judged with.
 * @param summary  the sweep: its meter and how warm it was, degrees C, null where nobody wrote it down
 * @returns  the meter's numbers in dB, and the temperature
 * @source   see `meterSheet`
 */
export const conditionsOf = (
  settings: Pick<Settings, 'meter' | 'sheets'>,
  notes: Pick<StationNotes, 'meter'> | null,
  { meter, ambientC }: Pick<SweepSummary, 'meter' | 'ambientC'>,
): Conditions => ({ meter: meterSheet(settings, notes, meter?.model ?? null).sheet, ambientC });
