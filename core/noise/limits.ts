import type { SignalKind } from '../line/level-row.ts';
import type { Coherence } from './coherence.ts';
import type { Distortion } from './distortion.ts';

/** A limit at the subscriber's terminal: no station has one of its own. */
export type NoiseLimit = Readonly<{
  /** `least`: the figure must not lie below it; `most`: not above it. */
  side: 'least' | 'most';
  /** dB, or dBc below 0. */
  limitDb: number;
  source: string;
  /** `from memory`: the text of the rule could not be read. */
  basis: 'read' | 'from memory';
  /** Why this limit of the rule and not another; null where it has but one. */
  why: string | null;
}>;

/** Analog pictures and what is carried by phase and amplitude are judged by other rules. */
export type SignalClass = 'analog' | 'digital';

/**
 * By which rules a kind of signal is judged.
 * @returns  the class; a pilot is judged as an analog carrier, and what is told nothing of as a digital one
 * @source   47 CFR 76.605(a) and (b): QAM by ANSI/SCTE 40, analog by 76.605(b)
 */
export function signalClassOf(kind: SignalKind | null): SignalClass {
  switch (kind) {
    case 'analog':
    case 'cw':
      return 'analog';
    case 'qam':
    case 'ofdm':
    case null:
      return 'digital';
  }
}

/**
 * The least carrier to noise, in 4 MHz.
 * @returns  the limit for analog pictures; null for digital signals, which are judged by their MER
 * @source   47 CFR 76.605, 43 dB: from memory, the rule's text could not be read
 */
export function cnrLimit(of: SignalClass): NoiseLimit | null {
  if (of === 'digital') return null;
  return { side: 'least', limitDb: 43, source: '47 CFR 76.605', basis: 'from memory', why: null };
}

/**
 * How far below the carrier a distortion must stay.
 * @param coherence  of the analog carriers: on a comb the beats fall on carriers, where less of them is seen
 * @returns  the limit, dBc; null where no rule that we know names this distortion
 * @source   analog: coherent disturbances, 47 CFR 76.605(a)(8), 51 dB (as cited by Hranac, "Digital Proofs or Not", part
 *           2), 47 dB for coherent carriers from memory; digital: ANSI/SCTE 40, CTB, CSO and discrete interference not
 *           worse than -53 dBc (Hranac, same)
 */
export function distortionLimit(
  of: SignalClass,
  kind: Distortion,
  { isCoherent, why }: Coherence,
): NoiseLimit | null {
  if (of === 'analog')
    return {
      side: 'most',
      limitDb: isCoherent ? -47 : -51,
      source: '47 CFR 76.605(a)(8), coherent disturbances',
      basis: isCoherent ? 'from memory' : 'read',
      why,
    };
  if (kind === 'xmod') return null;
  return { side: 'most', limitDb: -53, source: 'ANSI/SCTE 40', basis: 'read', why: null };
}

/**
 * The least ratio of carrier to noise and interference at a terminal, with which an estimated MER is compared.
 * @param qamOrder  64 or 256
 * @returns  the limit, dB; null for other orders
 * @source   ANSI/SCTE 40: 27 dB for 64-QAM, 33 dB for 256-QAM, from memory
 */
export function merLimit(qamOrder: number): NoiseLimit | null {
  const limitDb = qamOrder === 64 ? 27 : qamOrder === 256 ? 33 : null;
  return limitDb === null
    ? null
    : { side: 'least', limitDb, source: 'ANSI/SCTE 40', basis: 'from memory', why: null };
}

/**
 * How much a figure has in hand.
 * @param figureDb  dB or dBc
 * @returns  dB; below 0 where the limit is not kept
 * @source   definition
 */
export const inHandDb = (limit: NoiseLimit, figureDb: number): number =>
  limit.side === 'least' ? figureDb - limit.limitDb : limit.limitDb - figureDb;
