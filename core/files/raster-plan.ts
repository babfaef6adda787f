import type { Design } from './station.ts';

/**
 * The centres of the digital channels that fit into a design's band.
 * @param design   its lowMhz and highMhz in MHz; the first channel begins at lowMhz
 * @param stepMhz  width of a channel in MHz, above 0
 * @returns  MHz, rising: lowMhz + half a step, and so on while the whole channel lies inside the band
 * @throws   RangeError when the step is not a finite number above 0
 * @source   shared channel raster: centre = lower edge + half the channel's width (47 CFR 76.605; ITU-T J.83)
 */
export function rasterPlan(design: Readonly<Pick<Design, 'lowMhz' | 'highMhz'>>, stepMhz: number): number[] {
  if (!(stepMhz > 0 && Number.isFinite(stepMhz))) throw new RangeError(`a raster of ${stepMhz} MHz`);
  // A hair of grace, so that a band which is a whole number of channels keeps its last one.
  const count = Math.max(0, Math.floor((design.highMhz - design.lowMhz) / stepMhz + 1e-9));
  return Array.from({ length: count }, (_, i) => Number((design.lowMhz + stepMhz * (i + 0.5)).toFixed(6)));
}
