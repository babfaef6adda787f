/** One unit of a program message: its header from the root, whether it asks, and its parameters as written. */
export type MessageUnit = Readonly<{
  header: readonly string[];
  query: boolean;
  parameters: readonly string[];
}>;

/** A unit, or the code of the command error that ends the message there. */
export type ParsedUnit = Readonly<{ ok: true; unit: MessageUnit }> | Readonly<{ ok: false; code: number }>;

const INVALID_CHARACTER = -101;
const SYNTAX_ERROR = -102;
const INVALID_SEPARATOR = -103;

const mnemonic = '[A-Za-z][A-Za-z0-9_]*';
const unitShape = new RegExp(
  String.raw`^(?<common>\*${mnemonic})?(?<root>:)?(?<path>${mnemonic}(?::${mnemonic})*)?(?<query>\?)?(?<rest>.*)$`,
);

/** Splits at a mark that stands outside of quotes. */
function splitOutsideQuotes(text: string, mark: string): string[] {
  const parts = [''];
  let quote: string | null = null;
  for (const character of text) {
    if (quote === null && character === mark) {
      parts.push('');
      continue;
    }
    if (quote === character) quote = null;
    else if (quote === null && (character === '"' || character === "'")) quote = character;
    parts[parts.length - 1] += character;
  }
  return parts;
}

/**
 * A program message as SCPI-1999 and IEEE 488.2 have it: units joined by semicolons. A header without a leading
 * colon continues the path of the one before it; a common command leaves that path alone. After a command error the
 * rest of the message is not looked at.
 */
export function parseMessage(line: string): readonly ParsedUnit[] {
  if (line.trim() === '') return [];
  if (/[^\t\x20-\x7e]/.test(line)) return [{ ok: false, code: INVALID_CHARACTER }];
  const parsed: ParsedUnit[] = [];
  let path: readonly string[] = [];
  for (const text of splitOutsideQuotes(line, ';')) {
    const unit = parseUnit(text.trim(), path);
    parsed.push(unit);
    if (!unit.ok) break;
    if (!unit.unit.header[0]?.startsWith('*')) path = unit.unit.header.slice(0, -1);
  }
  return parsed;
}

function parseUnit(text: string, path: readonly string[]): ParsedUnit {
  const groups = unitShape.exec(text)?.groups ?? {};
  const { common, root, path: written, query, rest = '' } = groups;
  const syntax = { ok: false, code: SYNTAX_ERROR } as const;
  if ((common === undefined) === (written === undefined)) return syntax;
  if (common !== undefined && root !== undefined) return syntax;
  if (rest !== '' && !/^\s/.test(rest)) return { ok: false, code: INVALID_SEPARATOR };
  const parameters = rest.trim() === '' ? [] : splitOutsideQuotes(rest, ',').map((part) => part.trim());
  if (parameters.includes('')) return syntax;
  const own = common === undefined ? (written ?? '').split(':') : [common];
  const header = common !== undefined || root !== undefined ? own : [...path, ...own];
  return { ok: true, unit: { header, query: query !== undefined, parameters } };
}
