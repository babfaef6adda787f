import type { CascadeLink } from '../../core/bridge/cascade-calls.ts';
import { pluggedAt } from '../../core/files/station.ts';
import type { LevelRow } from '../../core/line/level-row.ts';
import { forwardOutput, type StationAsItStands } from '../../core/noise/stage-level.ts';
import { predictRows } from '../../core/propose/predict.ts';
import { portSweep } from './sheet-view.ts';

/** The newest sweep of the output as it would read with what is plugged in now. */
function outputRowsOf({ station, output, pluggedIn }: CascadeLink): readonly LevelRow[] | null {
  const port = forwardOutput(station);
  if (output === null || !port.ok) return null;
  const { rows, summary } = portSweep(output);
  return predictRows(rows, station, port.value.name, pluggedAt(station, summary.pluggedIn), pluggedIn);
}

/** A station of the cascade as core reckons with it. */
export const standsOf = (link: CascadeLink): StationAsItStands => ({
  station: link.station,
  pluggedIn: link.pluggedIn,
  lineUp: link.notes?.lineUp,
  gainDb: link.notes?.amplifier?.gainDb,
  outputRows: outputRowsOf(link),
  inputRows: link.input === null ? null : portSweep(link.input).rows,
});
