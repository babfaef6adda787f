/** Twelve digits: a decibel read back differs by less than a millionth. */
const number = (value: number): string => {
  if (!Number.isFinite(value)) throw new RangeError(`${value} can't be written`);
  return String(Number(value.toPrecision(12)) + 0);
};

/**
 * A response as a strict Touchstone 1.1 file. Only the size of S21 is known from levels; what was not measured is
 * written as 0 and said so in a comment.
 * @param points    MHz rising, gain in dB
 * @param comments  lines about it, written first
 * @returns  the text of a .s2p file in 75 ohm: MHz, magnitude and angle, S11 S21 S12 S22
 * @throws   RangeError for NaN and infinities, and for frequencies that do not rise
 * @source   Touchstone File Format Specification, version 2.0, IBIS Open Forum, 2009, rules for version 1 files
 */
export function writeTouchstone(
  points: readonly Readonly<{ frequencyMhz: number; gainDb: number }>[],
  comments: readonly string[],
): string {
  const said = comments.map((comment) => comment.replace(/[^\x20-\x7e]+/g, ' ').trim());
  const rows = points.map(({ frequencyMhz, gainDb }, i) => {
    if (!(frequencyMhz > (points[i - 1]?.frequencyMhz ?? -1)))
      throw new RangeError(`${frequencyMhz} MHz does not rise above the point before`);
    return `${number(frequencyMhz)} 0 0 ${number(10 ** (gainDb / 20))} 0 0 0 0 0`;
  });
  return [
    ...said.map((comment) => `! ${comment}`),
    '! Only the magnitude of S21 was measured; S11, S12, S22 and all angles are written as 0.',
    '# MHz S MA R 75',
    '! freq S11 S21 S12 S22, each magnitude and angle',
    ...rows,
    '',
  ].join('\n');
}
