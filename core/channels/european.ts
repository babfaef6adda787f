import type { Channel } from './channel.ts';
import { HZ_PER_MHZ, mhzFromHz } from './hertz.ts';

/** Lower edge to vision carrier. From memory; consistent with 471.25 MHz in the channel that begins at 470. */
const EDGE_TO_VISION_HZ = 1_250_000;

type Stretch = Readonly<{
  prefix: string;
  first: number;
  last: number;
  firstVisionMhz: number;
  widthMhz: number;
}>;

/** Vision carriers: the CCIR and UHF lists of xawtv. */
const stretches: readonly Stretch[] = [
  { prefix: 'E', first: 2, last: 4, firstVisionMhz: 48.25, widthMhz: 7 },
  { prefix: 'S', first: 1, last: 10, firstVisionMhz: 105.25, widthMhz: 7 },
  { prefix: 'E', first: 5, last: 12, firstVisionMhz: 175.25, widthMhz: 7 },
  { prefix: 'S', first: 11, last: 20, firstVisionMhz: 231.25, widthMhz: 7 },
  { prefix: 'S', first: 21, last: 41, firstVisionMhz: 303.25, widthMhz: 8 },
  { prefix: '', first: 21, last: 69, firstVisionMhz: 471.25, widthMhz: 8 },
];

const range = (first: number, last: number) => Array.from({ length: last - first + 1 }, (_, i) => first + i);

function vision({ prefix, first, firstVisionMhz, widthMhz }: Stretch, number: number): Channel {
  const widthHz = widthMhz * HZ_PER_MHZ;
  const edgeHz = firstVisionMhz * HZ_PER_MHZ + (number - first) * widthHz - EDGE_TO_VISION_HZ;
  const centerMhz = mhzFromHz(edgeHz + widthHz / 2);
  return {
    plan: 'europe',
    label: `${prefix}${number}`,
    lowerEdgeMhz: mhzFromHz(edgeHz),
    upperEdgeMhz: mhzFromHz(edgeHz + widthHz),
    widthMhz,
    visualMhz: mhzFromHz(edgeHz + EDGE_TO_VISION_HZ),
    // 5.5 MHz above vision in one country, 6.0 or 6.5 in the next: not a matter of the raster.
    auralMhz: null,
    visualOffsetKhz: 0,
    centerMhz,
    centerWithOffsetMhz: centerMhz,
  };
}

/**
 * The European analog raster: E2 to E12, S1 to S41, UHF 21 to 69; 7 MHz up to 300 MHz, 8 MHz from 302 MHz on.
 * @returns  101 channels, rising in frequency; the centre is the middle of the channel
 * @source   xawtv frequencies/ccir-*.list and uhf.list; lower edge = vision - 1.25 MHz from memory
 */
export const europeanChannels = (): readonly Channel[] =>
  stretches.flatMap((stretch) => range(stretch.first, stretch.last).map((number) => vision(stretch, number)));

const DIGITAL_WIDTH_MHZ = 8;

/**
 * The European digital raster of 8 MHz. Between 173 and 310 MHz the list that was read names no channel: there, from
 * memory, digital signals stand on the 7 MHz raster of `europeanChannels`, at its centres.
 * @returns  79 channels, rising in frequency, named by their centre ("314 MHz")
 * @source   w_scan2 src/countries.c: centres 73 + 8n (n = 0, 1, 5 to 12) and 138 + 8n MHz (n = 22 to 90)
 */
export const europeanDigitalChannels = (): readonly Channel[] =>
  [
    ...[...range(0, 1), ...range(5, 12)].map((n) => 73 + DIGITAL_WIDTH_MHZ * n),
    ...range(22, 90).map((n) => 138 + DIGITAL_WIDTH_MHZ * n),
  ].map((centerMhz) => ({
    plan: 'europe-digital',
    label: `${centerMhz} MHz`,
    lowerEdgeMhz: centerMhz - DIGITAL_WIDTH_MHZ / 2,
    upperEdgeMhz: centerMhz + DIGITAL_WIDTH_MHZ / 2,
    widthMhz: DIGITAL_WIDTH_MHZ,
    visualMhz: null,
    auralMhz: null,
    visualOffsetKhz: 0,
    centerMhz,
    centerWithOffsetMhz: centerMhz,
  }));
