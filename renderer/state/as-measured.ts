import type { SetUpRecord } from '../../core/bridge/set-up-calls.ts';
import type { Station } from '../../core/files/station.ts';
import { gainControlAsSet } from '../../core/set-up/as-set.ts';
import { foundOut, setUpState } from '../../core/set-up/state.ts';

/** A gain control as a finished set-up left it. */
export type AsMeasured = Readonly<{
  gainControl: NonNullable<Station['gainControl']>;
  /** When the last step of that set-up was over. */
  endedAt: string;
  /** False where no range test said how far down it reaches: that figure is the station file's. */
  downIsMeasured: boolean;
}>;

/**
 * What the newest finished set-up measured; null where none is finished, or none that is measured enough. A set-up that
 * is still going on has not left the control anywhere yet.
 * @param setUps  newest first, as the archive lists them
 */
export function asMeasured(station: Station, setUps: readonly SetUpRecord[]): AsMeasured | null {
  for (const { plan, events, abandoned } of setUps) {
    const state = setUpState(plan.kind, events);
    const endedAt = events.at(-1)?.at;
    if (abandoned !== null || state.next !== null || endedAt === undefined) continue;
    const gainControl = gainControlAsSet(station, plan, state);
    if (gainControl === null) continue;
    return { gainControl, endedAt, downIsMeasured: foundOut(state, 'range-test', 'downDb') !== null };
  }
  return null;
}

/** The station as the season takes it: its control as measured, unless the station file's figures were asked for. */
export const stationAsMeasured = (
  station: Station,
  measured: AsMeasured | null,
  source: 'set-up' | 'file',
): Station =>
  measured === null || source === 'file' ? station : { ...station, gainControl: measured.gainControl };
