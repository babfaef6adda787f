/** North American plans by their trade names, the European vision raster, and the European digital raster. */
export type PlanName = 'std' | 'hrc' | 'irc' | 'europe' | 'europe-digital';

/** One channel of a plan. Every frequency is a whole number of hertz, divided once. */
export type Channel = Readonly<{
  plan: PlanName;
  label: string;
  /** Where the channel begins and ends, without any offset of its carrier. */
  lowerEdgeMhz: number;
  upperEdgeMhz: number;
  widthMhz: number;
  /** The analog visual carrier with its offset; null where the plan has digital channels only. */
  visualMhz: number | null;
  /** The analog sound carrier; null where it depends on the television system, not on the plan. */
  auralMhz: number | null;
  /** How far the visual carrier lies above lower edge + 1.25 MHz: 0, 12.5, 25, or what an HRC exception needs. */
  visualOffsetKhz: number;
  /** Middle of the channel: where a digital signal's centre nominally is. */
  centerMhz: number;
  /** The centre of a digital signal that keeps the analog carrier's offset. Both are met in practice. */
  centerWithOffsetMhz: number;
}>;
