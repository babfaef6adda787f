import { type Allowed, FREQUENCY, RATIO, type Unfit, unfit } from '../checked.ts';
import type { SignalKind } from '../line/level-row.ts';
import { done, type Refusal, type Result, refuse } from '../result.ts';

/** What one channel carries. */
export type LineUpEntry = Readonly<{
  channelLabel: string;
  /** Where its level is read, MHz: the visual carrier of an analog channel, the centre of a digital one, the tone. */
  frequencyMhz: number;
  kind: SignalKind;
  qamOrder?: number;
  /** MHz; 0 only for a tone. An OFDM entry may be as wide as its signal; its level is always that of 6 MHz. */
  widthMhz: number;
  /** Its level less that of the analog design line at its frequency, dB. Editable. */
  offsetDb: number;
}>;

/** A level above or below the analog design line, and on whose word. */
export type UsualOffset = Readonly<{ offsetDb: number; basis: string }>;

const SECONDARY =
  'docsis.org forum, "qam64-vs-qam256": many set 64-QAM at -10 and 256-QAM at -5 to -6 dBc (secondary)';

/**
 * The offset from the analog design line that a signal usually has.
 * @param qamOrder  64 or 256; only looked at for `qam`
 * @returns  dB and its basis, or a refusal of a QAM order without a usual offset
 * @source   docsis.org forum "qam64-vs-qam256" (secondary); analog and pilot by definition; OFDM from memory: per 6 MHz
 *           like a 256-QAM channel
 */
export function usualOffset(kind: SignalKind, qamOrder?: number): Result<UsualOffset, 'no-usual-offset'> {
  switch (kind) {
    case 'analog':
      return done({ offsetDb: 0, basis: 'the design line is that of analog carriers' });
    case 'cw':
      return done({ offsetDb: 0, basis: 'a pilot is set to the analog design line; common practice' });
    case 'ofdm':
      return done({ offsetDb: -6, basis: 'per 6 MHz like a 256-QAM channel; from memory' });
    case 'qam':
      if (qamOrder === 256) return done({ offsetDb: -6, basis: SECONDARY });
      if (qamOrder === 64) return done({ offsetDb: -10, basis: SECONDARY });
      return refuse(
        'no-usual-offset',
        qamOrder === undefined ? 'QAM of unknown order' : `${qamOrder}-QAM`,
        'usual offsets are known for 64-QAM and 256-QAM; type the offset of this network',
      );
  }
}

const WIDTH: Allowed = { unit: 'MHz', from: 0, to: 2000 };

function unfitEntry(entry: LineUpEntry): Refusal<Unfit> | null {
  const where = `channel ${entry.channelLabel}`;
  const wrong = unfit([
    [`${where}: frequency`, entry.frequencyMhz, FREQUENCY],
    [`${where}: width`, entry.widthMhz, WIDTH],
    [`${where}: offset`, entry.offsetDb, RATIO],
  ]);
  if (wrong !== null) return wrong;
  if (entry.widthMhz === 0 && entry.kind !== 'cw')
    return refuse('out-of-range', `${where}: width 0 MHz`, 'only a pilot has no width');
  if (entry.frequencyMhz - entry.widthMhz / 2 < 0)
    return refuse('out-of-range', `${where}: width ${entry.widthMhz} MHz`, 'reaches below 0 MHz');
  return null;
}

/**
 * How far a reading of this entry should lie from the analog design line.
 * @returns  dB, or a refusal of an entry with a number that is none or makes no sense
 * @source   design: QAM carried 6 dB down is compared with its own target, not with the analog line
 */
export function offsetOf(entry: LineUpEntry): Result<number, Unfit> {
  return unfitEntry(entry) ?? done(entry.offsetDb);
}

export type Band = Readonly<{ lowMhz: number; highMhz: number }>;

/** Lower edge to visual carrier, MHz: see `northAmericanChannels` and `europeanChannels`. */
const EDGE_TO_VISUAL_MHZ = 1.25;

/**
 * The part of the spectrum that an entry takes.
 * @returns  MHz: from 1.25 below the visual carrier for analog, both sides of the centre for QAM and OFDM, a point for
 *           a tone; or a refusal of a number that makes no sense
 * @source   visual - 1.25 to visual + 4.75 MHz: repairfaq.org "tvnocbfreq"
 */
export function occupiedBand(entry: LineUpEntry): Result<Band, Unfit> {
  const wrong = unfitEntry(entry);
  if (wrong !== null) return wrong;
  const lowMhz = entry.frequencyMhz - (entry.kind === 'analog' ? EDGE_TO_VISUAL_MHZ : entry.widthMhz / 2);
  return done({ lowMhz, highMhz: lowMhz + entry.widthMhz });
}

/** Neighbours may reach into each other by this much: offsets of 12.5 and 25 kHz, and the comb's 0.3 kHz a step. */
const OVERLAP_MHZ = 0.06;

/**
 * A line-up that was typed or edited, put in order and checked.
 * @param entries  in any order
 * @returns  rising in frequency; or a refusal that names the entry with a number that makes no sense, or the two that
 *           want the same part of the spectrum
 * @source   common practice, no published source
 */
export function checkedLineUp(
  entries: readonly LineUpEntry[],
): Result<readonly LineUpEntry[], Unfit | 'overlap'> {
  const placed: { entry: LineUpEntry; band: Band }[] = [];
  for (const entry of entries) {
    const band = occupiedBand(entry);
    if (!band.ok) return band;
    placed.push({ entry, band: band.value });
  }
  placed.sort((a, b) => a.band.lowMhz - b.band.lowMhz || a.band.highMhz - b.band.highMhz);
  let before = placed[0];
  for (const next of placed.slice(1)) {
    if (before === undefined) break;
    const sharedMhz = before.band.highMhz - next.band.lowMhz;
    if (sharedMhz > OVERLAP_MHZ || before.entry.frequencyMhz === next.entry.frequencyMhz)
      return refuse(
        'overlap',
        `channels ${before.entry.channelLabel} and ${next.entry.channelLabel}`,
        `both take ${next.band.lowMhz} MHz; change the width, the kind or the frequency of one`,
      );
    before = next;
  }
  return done(placed.map(({ entry }) => entry).sort((a, b) => a.frequencyMhz - b.frequencyMhz));
}
