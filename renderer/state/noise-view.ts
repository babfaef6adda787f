import type { CascadeLink } from '../../core/bridge/cascade-calls.ts';
import { type Carried, carriedBy } from '../../core/noise/carried.ts';
import type { Cascade } from '../../core/noise/cascade-noise.ts';
import { type NoiseReport, noiseReport } from '../../core/noise/noise-report.ts';
import { stationNoise } from '../../core/noise/station-noise.ts';
import { totalDbmv } from '../../core/noise/total-level.ts';
import { standsOf } from './cascade-stands.ts';

export type NoiseView = Readonly<{
  report: NoiseReport;
  cascade: Cascade;
  carried: Carried;
  /** All carriers of the newest output sweep together, dBmV, and how many; null without one. */
  together: Readonly<{ totalDbmv: number; count: number }> | null;
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
  const levels = (own?.outputRows ?? []).flatMap(({ levelDbmv }) => (levelDbmv === null ? [] : [levelDbmv]));
  const total = totalDbmv(levels);
  return {
    report: noiseReport(cascade, carried),
    cascade,
    carried,
    together: total.ok ? { totalDbmv: total.value, count: levels.length } : null,
    withoutFigures: members.slice(0, -1).flatMap((one) => ('missing' in one ? [one.name] : [])),
  };
}
