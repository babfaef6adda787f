import type { SignalKind } from '../line/level-row.ts';

const kinds: readonly SignalKind[] = ['analog', 'qam', 'ofdm', 'cw'];

/**
 * A cell of a `kind` column.
 * @returns  the kind, or null when the word is none of the four
 * @source   contract, section 1
 */
export const kindOf = (word: string): SignalKind | null =>
  kinds.find((kind) => kind === word.toLowerCase()) ?? null;

/**
 * What a modulation says about the kind of signal.
 * @param modulation  as a modem or a meter writes it: 256QAM, QAM256, 64 QAM, QAM-64, SC-QAM, OFDM, OFDM PLC
 * @returns  null when it says nothing certain (Unknown, Other)
 * @source   common practice, no published source
 */
export function kindOfModulation(modulation: string): SignalKind | null {
  if (modulation === '') return null;
  if (/^ofdma?\b/i.test(modulation)) return 'ofdm';
  if (/^(\d{1,5}[\s_-]?qam|(sc[\s-]?)?qam([\s_-]?\d{1,5})?)$/i.test(modulation)) return 'qam';
  return kindOf(modulation);
}

/**
 * Whether a cell is the name of a modulation, so that a column of such is one, whatever its heading says.
 * @returns  true for what names QAM, OFDM or PSK
 * @source   common practice, no published source
 */
export const isModulation = (cell: string): boolean => /qam|ofdm|psk/i.test(cell) && cell.length <= 60;
