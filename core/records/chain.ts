import { canonicalText, type PlainObject } from './canonical-text.ts';

/** The hash of what stands before a device's first record. */
export const GENESIS = '0'.repeat(64);

/** A record's place in the chain of the device that made it. */
export type Place = Readonly<{
  /** The device's random id. */
  device: string;
  /** From 1, without a gap. */
  seq: number;
  /** The hash of the record before it, in hexadecimal; `GENESIS` before the first. */
  previous: string;
}>;

/**
 * What is hashed of a record: its kind and its place along with the record itself, so that none can be changed, left
 * out, put in or exchanged without another hash here or in a record after it.
 * @param place     the device, the number in its chain, and the hash before, as 64 hexadecimal digits
 * @param kind      what sort of record it is
 * @param document  the record, in whole numbers of the units that its keys name
 * @returns  the text; its bytes are UTF-8
 * @throws   RangeError as `canonicalText`, and for a number that is none or a hash that is none
 * @source   a hash chain, each link over the one before: common practice, no published source; the spelling is RFC 8785's
 */
export function linkText({ device, seq, previous }: Place, kind: string, document: PlainObject): string {
  if (!Number.isSafeInteger(seq) || seq < 1) throw new RangeError(`a chain has no place ${seq}`);
  if (!/^[0-9a-f]{64}$/.test(previous)) throw new RangeError(`"${previous}" is no hash`);
  return `tiltwright-record/1\n${device}\n${seq}\n${previous}\n${kind}\n${canonicalText(document)}`;
}

/**
 * The hash of a record in its place.
 * @param sha256Hex  SHA-256 of a text's UTF-8 bytes, as 64 lower-case hexadecimal digits; given by whoever has one
 * @returns  64 hexadecimal digits
 * @throws   RangeError as `linkText`
 * @source   SHA-256: FIPS 180-4; see `linkText` for what is hashed
 */
export const linkHash = (
  place: Place,
  kind: string,
  document: PlainObject,
  sha256Hex: (text: string) => string,
): string => sha256Hex(linkText(place, kind, document));
