import { type AnswerLine, type AnswerPart, printable } from '../files/answer-grammar.ts';

/** What an answer said, by the names of its parts. A number that the meter says it has not is the empty text. */
export type Fields = Readonly<Record<string, string | undefined>>;

type Taken = Readonly<{ end: number; value?: string }> | null;

const isDigit = (character: string | undefined) =>
  character !== undefined && character >= '0' && character <= '9';
const isSign = (character: string | undefined) => character === '+' || character === '-';

/** Where digits that begin at `from` end. */
function afterDigits(line: string, from: number): number {
  let end = from;
  while (isDigit(line[end])) end += 1;
  return end;
}

function takeNumber(line: string, from: number, kind: 'integer' | 'decimal' | 'any'): number | null {
  const first = isSign(line[from]) ? from + 1 : from;
  let end = afterDigits(line, first);
  let digits = end - first;
  if (kind !== 'integer' && line[end] === '.') {
    const whole = afterDigits(line, end + 1);
    digits += whole - end - 1;
    end = whole;
  }
  if (digits === 0) return null;
  if (kind === 'any' && (line[end] === 'e' || line[end] === 'E')) {
    const exponent = isSign(line[end + 1]) ? end + 2 : end + 1;
    const whole = afterDigits(line, exponent);
    // An exponent without digits is half a number.
    if (whole === exponent) return null;
    end = whole;
  }
  return end;
}

function takeQuoted(line: string, from: number): Taken {
  if (line[from] !== '"') return null;
  for (let at = from + 1; at < line.length; at += 1) {
    if (line[at] !== '"') continue;
    if (line[at + 1] !== '"') return { end: at + 1, value: line.slice(from + 1, at).replaceAll('""', '"') };
    at += 1;
  }
  return null;
}

function takeDate(line: string, from: number): Taken {
  const value = line.slice(from, from + 10);
  if (!/^\d{4}-\d\d-\d\d$/.test(value)) return null;
  const day = new Date(`${value}T00:00:00Z`);
  const real = Number.isFinite(day.getTime()) && day.toISOString().startsWith(value);
  return real ? { end: from + 10, value } : null;
}

function longestOf(choices: readonly string[], line: string, from: number): string | null {
  let found: string | null = null;
  for (const choice of choices) {
    const written = line.slice(from, from + choice.length);
    if (written.toUpperCase() === choice.toUpperCase() && choice.length > (found?.length ?? 0))
      found = choice;
  }
  return found;
}

function take(part: AnswerPart, line: string, from: number, next: AnswerPart | undefined): Taken {
  switch (part.is) {
    case 'text':
      return line.startsWith(part.text, from) ? { end: from + part.text.length } : null;
    case 'maybe':
      return { end: line.startsWith(part.text, from) ? from + part.text.length : from };
    case 'number': {
      const word = longestOf(part.none, line, from);
      if (word !== null) return { end: from + word.length, value: '' };
      const end = takeNumber(line, from, part.kind);
      return end === null ? null : { end, value: line.slice(from, end) };
    }
    case 'words': {
      const found = next?.is === 'text' ? line.indexOf(next.text, from) : line.length;
      const value = found < 0 ? '' : line.slice(from, found);
      if (found < 0 || value.length < part.least || value.length > part.most) return null;
      const clean = [...value].every((character) => !part.without.includes(character));
      return clean ? { end: found, value } : null;
    }
    case 'quoted':
      return takeQuoted(line, from);
    case 'one-of': {
      const choice = longestOf(part.choices, line, from);
      return choice === null ? null : { end: from + choice.length, value: choice };
    }
    case 'date':
      return takeDate(line, from);
    case 'checksum':
      return line.slice(from, from + 2).toUpperCase() === checksumOf(line.slice(0, from))
        ? { end: from + 2 }
        : null;
  }
}

/**
 * The checksum of a line: exclusive or of its characters.
 * @param text  latin1
 * @returns  two hexadecimal digits, capitals
 * @source   common practice of plain line protocols, no published source
 */
export function checksumOf(text: string): string {
  let sum = 0;
  for (let at = 0; at < text.length; at += 1) sum ^= text.charCodeAt(at) & 0xff;
  return sum.toString(16).toUpperCase().padStart(2, '0');
}

function matchLine(parts: AnswerLine, line: string): Fields | null {
  const fields: Record<string, string> = {};
  let at = 0;
  for (const [i, part] of parts.entries()) {
    const taken = take(part, line, at, parts[i + 1]);
    if (taken === null) return null;
    if ('name' in part) fields[part.name] = taken.value ?? '';
    at = taken.end;
  }
  return at === line.length ? fields : null;
}

/**
 * Reads a line by its grammar: whole, from the first character to the last, or not at all.
 * @param answers  the lines that the answer may be; the first one that fits counts
 * @param line     one line without its end, latin1
 * @returns  what its parts said, or null when it is no such answer
 * @source   this program's own format (core/files/answer-grammar.ts); numbers after IEEE 488.2, NR1 to NR3
 */
export function matchAnswer(answers: readonly AnswerLine[], line: string): Fields | null {
  // A control character is a damaged byte; no answer holds one, not even in its free text.
  if (!printable.test(line)) return null;
  for (const parts of answers) {
    const fields = matchLine(parts, line);
    if (fields !== null) return fields;
  }
  return null;
}
