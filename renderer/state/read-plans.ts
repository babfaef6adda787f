import { RETURN_BANDS } from '../../core/channels/return-bands.ts';
import { rasterPlan } from '../../core/files/raster-plan.ts';
import type { Design, Station } from '../../core/files/station.ts';
import type { LevelRow } from '../../core/line/level-row.ts';

export type ReadPlan = Readonly<{
  key: string;
  title: string;
  frequenciesMhz: readonly number[];
}>;

/** A band of few wide channels is read in finer steps, or its flatness would stay unseen. */
const FEW_CHANNELS = 12;

/** The band that a port works in: its own design's, or that of another port the same way. */
export function bandOf(station: Station, portName: string): Design | null {
  const port = station.ports.find(({ name }) => name === portName);
  if (port === undefined) return null;
  return (
    port.design ??
    station.ports.find(({ direction, design }) => direction === port.direction && design !== undefined)
      ?.design ??
    null
  );
}

/** A return port without a design is read over the bands that return signals usually travel in. */
const RETURN_PLANS: readonly ReadPlan[] = RETURN_BANDS.map((band) => ({
  key: `return-${band.highMhz}`,
  title: `${band.lowMhz} to ${band.highMhz}\u00A0MHz`,
  frequenciesMhz: rasterPlan(band, 1),
}));

/** What can be read at a port: a raster over its band, or the same channels as its last sweep. */
export function readPlans(
  band: Design | null,
  lastRows: readonly LevelRow[] | null,
  direction: 'forward' | 'return' = 'forward',
): readonly ReadPlan[] {
  const last = (lastRows ?? []).flatMap(({ frequencyMhz }) => (frequencyMhz === null ? [] : [frequencyMhz]));
  const steps = band === null ? [] : [6, 8];
  const raster = (stepMhz: number): ReadPlan => ({
    key: `every-${stepMhz}`,
    title: `Every ${stepMhz} MHz`,
    frequenciesMhz: band === null ? [] : rasterPlan(band, stepMhz),
  });
  const plans = band === null && direction === 'return' ? [...RETURN_PLANS] : steps.map(raster);
  if (band !== null && (plans[0]?.frequenciesMhz.length ?? 0) < FEW_CHANNELS) plans.unshift(raster(1));
  if (last.length > 0) plans.push({ key: 'as-last', title: 'As the last sweep', frequenciesMhz: last });
  return plans.filter(({ frequenciesMhz }) => frequenciesMhz.length > 0);
}
