import type { AnswerLine, AnswerPart } from '../../core/files/answer-grammar.ts';

/**
 * The grammar of an answer in another language, for holding the two against each other: a regular expression, which this
 * program itself never makes from a profile.
 */
const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
const anyCase = (text: string) =>
  [...text]
    .map((one) => (/[a-z]/i.test(one) ? `[${one.toLowerCase()}${one.toUpperCase()}]` : escaped(one)))
    .join('');
const printable = '[\\x20-\\x7e\\xa0-\\xff]';
const numbers = {
  integer: '[+-]?\\d+',
  decimal: '[+-]?(?:\\d+(?:\\.\\d*)?|\\.\\d+)',
  any: '[+-]?(?:\\d+(?:\\.\\d*)?|\\.\\d+)(?:[eE][+-]?\\d+)?',
} as const;

function patternOf(part: AnswerPart, next: AnswerPart | undefined): string {
  switch (part.is) {
    case 'text':
      return escaped(part.text);
    case 'maybe':
      return `(?:${escaped(part.text)})?`;
    case 'number':
      return `(?:${[...part.none.map(anyCase), numbers[part.kind]].join('|')})`;
    case 'words': {
      const stops = next?.is === 'text' ? `(?!${escaped(next.text)})` : '';
      const without = part.without === '' ? '' : `(?![${part.without.replace(/[\\\]^-]/g, '\\$&')}])`;
      return `(?:${stops}${without}${printable}){${part.least},${part.most}}`;
    }
    case 'quoted':
      return `"(?:(?!")${printable}|"")*"`;
    case 'one-of':
      return `(?:${part.choices
        .toSorted((a, b) => b.length - a.length)
        .map(anyCase)
        .join('|')})`;
    case 'date':
      return '(?<date>\\d{4}-\\d\\d-\\d\\d)';
    case 'checksum':
      return '(?<checksum>[0-9A-Fa-f]{2})';
  }
}

const sumOf = (text: string) => Array.from(text).reduce((sum, character) => sum ^ character.charCodeAt(0), 0);

/** Whether the line is one of these answers, by the other way. */
export function answersBy(answers: readonly AnswerLine[]): (line: string) => boolean {
  const patterns = answers.map(
    (parts) => new RegExp(`^${parts.map((part, i) => patternOf(part, parts[i + 1])).join('')}$`),
  );
  return (line) =>
    patterns.some((pattern) => {
      const found = pattern.exec(line);
      if (found === null) return false;
      const { date, checksum } = found.groups ?? {};
      if (date !== undefined && !isDay(date)) return false;
      // The checksum is the end of its line.
      return checksum === undefined || Number.parseInt(checksum, 16) === sumOf(line.slice(0, -2));
    });
}

function isDay(written: string): boolean {
  const [year = 0, month = 0, day = 0] = written.split('-').map(Number);
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
  return day >= 1 && day <= (days[month - 1] ?? 0);
}
