/** Signs of good and bad, of up and down behind a number; none that may be read as a sign, a digit or a letter. */
const signs = String.raw`\u2705\u2713\u2714\u2611\u274C\u2716-\u2718\u26A0\u{1F7E0}-\u{1F7E6}\u{1F534}\u{1F535}\u26AA\u26AB\u{1F44D}\u{1F44E}\u25CF\u25CB`;
const trends = String.raw`\u2191\u2193\u2197\u2198\u2B06\u2B07\u25B2\u25BC`;
/** Chooses how the sign before it is drawn, and says nothing. */
const drawn = String.raw`\uFE0E\uFE0F`;
/** What is said of a level that is a reading all the same. Nothing that says how it was got: "max", "estimated". */
const verdicts =
  'ok|okay|good|pass|passed|fail|poor|bad|marginal|excellent|fair|normal|warning|warn|low|high|too low|too high|' +
  'in spec|out of spec|within spec|in range|out of range|in tolerance|out of tolerance|acceptable|critical|gut|schlecht';

const leading = new RegExp(`^(?:[${signs}][${drawn}]*\\s*)+(?=[+\\-\\u2212\\d.,])`, 'u');
const trailing = new RegExp(
  `\\s*(?:[${signs}${trends}][${drawn}]*|[([](?:${verdicts})[)\\]]|(?<=[\\sa-z])(?:ok|pass|fail|good))$`,
  'iu',
);
/** Told by its last or its first sign, so that most cells are looked at no further. */
const mayEndSo = new RegExp(`[)\\]${signs}${trends}${drawn}klsd]$`, 'iu');

/** A cell that is longer is prose. */
const LONGEST = 60;

/**
 * A number's cell without the signs and words beside it that say how good it is.
 * @param cell  trimmed
 * @returns  the number with its unit, and what stood beside it; null where nothing did
 * @source   contract, section 1; the signs and words are common practice, no published source
 */
export function withoutVerdict(cell: string): Readonly<{ bare: string; mark: string }> | null {
  if (cell.length > LONGEST || !/\d/.test(cell)) return null;
  const front = leading.exec(cell)?.[0] ?? '';
  const rest = cell.slice(front.length);
  const back = mayEndSo.test(rest) ? (trailing.exec(rest)?.[0] ?? '') : '';
  if (front === '' && back === '') return null;
  const bare = rest.slice(0, rest.length - back.length).trim();
  const mark = [front, back].map((one) => one.trim()).filter((one) => one !== '');
  return { bare, mark: mark.join(' ') };
}

const held = /^="([^"]*)"$/;
const plain = /^=([+-]?\d+(?:[.,]\d+)?)$/;

/**
 * What a spreadsheet's formula says that computes nothing: ="57" or =57.
 * @param cell  trimmed, its own quotes taken off
 * @returns  the text or the number; the cell itself where it is no such formula
 * @source   common practice, no published source: so written to keep a spreadsheet from changing a cell
 */
export const unheld = (cell: string): string =>
  cell.charCodeAt(0) === 61 ? (held.exec(cell)?.[1]?.trim() ?? plain.exec(cell)?.[1] ?? cell) : cell;
