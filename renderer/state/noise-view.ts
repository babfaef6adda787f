import type { CascadeLink } from '../../core/bridge/cascade-calls.ts';
import { totalPowerDbmv } from '../../core/channels/total-power.ts';
import { targetDbmv } from '../../core/line/design-line.ts';
import { type Carried, carriedBy } from '../../core/noise/carried.ts';
import type { Cascade } from '../../core/noise/cascade-noise.ts';
import { type NoiseReport, noiseReport } from '../../core/noise/noise-report.ts';
import { forwardOutput, type StationAsItStands } from '../../core/noise/stage-level.ts';
import { stationNoise } from '../../core/noise/station-noise.ts';
import { totalDbmv } from '../../core/noise/total-level.ts';
import { standsOf } from './cascade-stands.ts';

export type Together = Readonly<{ totalDbmv: number; count: number; from: 'sweep' | 'line-up' }>;

export type NoiseView = Readonly<{
  report: NoiseReport;
  cascade: Cascade;
  carried: Carried;
  /** All carriers together, dBmV, and how many: of the newest output sweep, else of line-up and design; null without either. */
  together: Together | null;
  /** The stations in front of this one that have no figures yet. */
  withoutFigures: readonly string[];
}>;

/** Noise and distortion of the last station and of all that feed it. */
export function viewNoise(links: readonly CascadeLink[]): NoiseView | null {
  const last = links.at(-1);
  if (last === undefined) return null;
  const stands = links.map(standsOf);
  const own = stands.at(-1);
  const rows = own?.outputRows ?? own?.inputRows ?? null;
  const carried = carriedBy(own?.lineUp, rows);
  const members = links.map(({ station, notes }, i): Cascade['members'][number] => {
    const at = stands[i];
    if (notes?.amplifier === undefined || at === undefined) return { name: station.name, missing: true };
    const noise = stationNoise(at, notes.amplifier, carried.bandwidthMhz);
    return noise.ok ? noise.value : { name: station.name, missing: true };
  });
  const first = links[0]?.notes?.cascade;
  const cascade = { source: first?.source ?? null, alikeAhead: first?.alikeAhead ?? 0, members };
  return {
    report: noiseReport(cascade, carried),
    cascade,
    carried,
    together: own === undefined ? null : togetherAt(own),
    withoutFigures: members.slice(0, -1).flatMap((one) => ('missing' in one ? [one.name] : [])),
  };
}

/** An OFDM signal counts over its whole width only where the line-up says how wide it is. */
function togetherAt({ station, lineUp, outputRows }: StationAsItStands): Together | null {
  const levels = (outputRows ?? []).flatMap(({ levelDbmv }) => (levelDbmv === null ? [] : [levelDbmv]));
  const read = totalDbmv(levels);
  if (read.ok) return { totalDbmv: read.value, count: levels.length, from: 'sweep' };
  const port = forwardOutput(station);
  if (!port.ok || lineUp == null) return null;
  const { design } = port.value;
  const total = totalPowerDbmv(lineUp, (frequencyMhz) => targetDbmv(design, frequencyMhz));
  return total.ok ? { totalDbmv: total.value, count: lineUp.length, from: 'line-up' } : null;
}
