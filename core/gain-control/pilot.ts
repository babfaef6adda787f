import type { Design } from '../files/station.ts';
import type { Finding } from '../inspect/finding.ts';
import { targetDbmv } from '../line/design-line.ts';
import type { LevelRow, SignalKind } from '../line/level-row.ts';

/** How far a pilot may lie beside its neighbours, less what the design's slope makes, dB. Common practice, no published source. */
export const BESIDE_NEIGHBOURS_DB = 2;
/** How many carriers away from a band edge it should be. Common practice, no published source. */
export const FROM_EDGE_CARRIERS = 2;
/** Where in the band a control hears most of the cable, as a part of its width. Common practice, no published source. */
const BEST_PLACE = 0.8;
/** A reading within this of the asked frequency is that carrier, MHz. */
const SAME_CARRIER_MHZ = 0.5;
const NEIGHBOURS = 4;

export type PilotWarning = Readonly<{
  code: 'no-carrier' | 'kind' | 'beside-neighbours' | 'notch' | 'band-edge' | 'slope';
  /** A whole sentence. */
  words: string;
}>;

export type PilotCheck = Readonly<{
  pilotMhz: number;
  levelDbmv: number | null;
  kind: SignalKind | null;
  /** Level less that of its neighbours, the design's slope taken out, dB; null where it has none. */
  besideDb: number | null;
  /** Empty when it is suitable. */
  warnings: readonly PilotWarning[];
}>;

type Carrier = Readonly<{ frequencyMhz: number; levelDbmv: number; kind: SignalKind | null }>;

const carriersOf = (rows: readonly LevelRow[], { lowMhz, highMhz }: Design): Carrier[] =>
  rows
    .flatMap(({ frequencyMhz, levelDbmv, kind, unlocked }) =>
      frequencyMhz === null || levelDbmv === null || unlocked === true
        ? []
        : [{ frequencyMhz, levelDbmv, kind: kind ?? null }],
    )
    .filter(({ frequencyMhz }) => frequencyMhz >= lowMhz && frequencyMhz <= highMhz)
    .sort((a, b) => a.frequencyMhz - b.frequencyMhz);

function median(values: readonly number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  const upper = sorted[sorted.length >> 1];
  const lower = sorted[(sorted.length - 1) >> 1];
  return upper === undefined || lower === undefined ? null : (upper + lower) / 2;
}

/** How far a carrier lies above the ones around it, beside the design line: a slope alone is no difference. */
function besideNeighbours(carriers: readonly Carrier[], place: number, design: Design): number | null {
  const over = ({ frequencyMhz, levelDbmv }: Carrier) => levelDbmv - targetDbmv(design, frequencyMhz);
  const own = carriers[place];
  if (own === undefined) return null;
  // As many on each side, so that a tilt of the whole band takes itself away.
  const each = Math.min(NEIGHBOURS / 2, place, carriers.length - 1 - place);
  const around =
    each === 0
      ? carriers.slice(Math.max(0, place - NEIGHBOURS), place + NEIGHBOURS + 1)
      : carriers.slice(place - each, place + each + 1);
  const middle = median(around.filter((one) => one !== own).map(over));
  return middle === null ? null : over(own) - middle;
}

function kindWarnings({ frequencyMhz, kind }: Carrier): PilotWarning[] {
  switch (kind) {
    case 'ofdm':
      return [
        {
          code: 'kind',
          words: `${frequencyMhz} MHz is a block of OFDM, which has no carrier of steady level for a control to hear.`,
        },
      ];
    case 'analog':
    case 'qam':
    case 'cw':
    case null:
      return [];
  }
}

function findingWarning(frequencyMhz: number, finding: Finding): PilotWarning | null {
  switch (finding.kind) {
    case 'notch': {
      const { centerMhz, depthDb, widthMhz } = finding;
      const words = `${frequencyMhz} MHz lies in the notch at ${centerMhz.toFixed(0)} MHz, ${depthDb.toFixed(1)} dB deep: the control would follow the notch, not the cable.`;
      return Math.abs(centerMhz - frequencyMhz) <= widthMhz ? { code: 'notch', words } : null;
    }
    case 'rolloff': {
      const { edge, fromMhz } = finding;
      const words = `${frequencyMhz} MHz lies where the band rolls off, from ${fromMhz.toFixed(0)} MHz on.`;
      const inside = edge === 'high' ? frequencyMhz >= fromMhz : frequencyMhz <= fromMhz;
      return inside ? { code: 'slope', words } : null;
    }
    case 'ripple':
    case 'missing':
    case 'step':
      return null;
  }
}

/**
 * Is a carrier fit to be the pilot?
 * @param rows      levels at the output in dBmV, any order
 * @param pilotMhz  MHz
 * @param design    of the output: its band, and its slope
 * @param findings  what the sweep shows; a pilot keeps clear of notches and roll-offs
 * @returns  its level, how it lies beside its neighbours, and a warning for each thing that makes it unfit
 * @source   common practice, no published source
 */
export function checkPilot(
  rows: readonly LevelRow[],
  pilotMhz: number,
  design: Design,
  findings: readonly Finding[],
): PilotCheck {
  const carriers = carriersOf(rows, design);
  const place = carriers.findIndex((one) => Math.abs(one.frequencyMhz - pilotMhz) <= SAME_CARRIER_MHZ);
  const own = carriers[place];
  if (own === undefined) {
    const words = `Nothing was read at ${pilotMhz} MHz: a control that listens there hears no pilot.`;
    const warnings: PilotWarning[] = [{ code: 'no-carrier', words }];
    return { pilotMhz, levelDbmv: null, kind: null, besideDb: null, warnings };
  }
  const besideDb = besideNeighbours(carriers, place, design);
  const warnings = kindWarnings(own);
  if (besideDb !== null && Math.abs(besideDb) > BESIDE_NEIGHBOURS_DB)
    warnings.push({
      code: 'beside-neighbours',
      words: `${pilotMhz} MHz is ${Math.abs(besideDb).toFixed(1)} dB ${besideDb < 0 ? 'below' : 'above'} its neighbours: the whole band would be held that far off.`,
    });
  warnings.push(...findings.flatMap((finding) => findingWarning(own.frequencyMhz, finding) ?? []));
  if (Math.min(place, carriers.length - 1 - place) < FROM_EDGE_CARRIERS)
    warnings.push({
      code: 'band-edge',
      words: `${pilotMhz} MHz is at the edge of the band, where filters take from it.`,
    });
  return { pilotMhz, levelDbmv: own.levelDbmv, kind: own.kind, besideDb, warnings };
}

/**
 * The carriers that would make a pilot, the best first.
 * @param rows      levels at the output in dBmV, any order
 * @param design    of the output
 * @param findings  what the sweep shows
 * @param most      at most so many, 3 unless told
 * @returns  only carriers without a warning; among them those nearest to four fifths of the band, where the control
 *           hears most of what the cable does
 * @source   common practice, no published source
 */
export function choosePilots(
  rows: readonly LevelRow[],
  design: Design,
  findings: readonly Finding[],
  most = 3,
): readonly PilotCheck[] {
  const bestMhz = design.lowMhz + BEST_PLACE * (design.highMhz - design.lowMhz);
  return carriersOf(rows, design)
    .map(({ frequencyMhz }) => checkPilot(rows, frequencyMhz, design, findings))
    .filter(({ warnings }) => warnings.length === 0)
    .sort((a, b) => Math.abs(a.pilotMhz - bestMhz) - Math.abs(b.pilotMhz - bestMhz))
    .slice(0, most);
}
