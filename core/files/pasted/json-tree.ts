import { done, type Result, refuse } from '../../result.ts';

/** A value of a JSON text with the line on which it begins. Numbers stay as they are written. */
export type JsonNode =
  | Readonly<{ kind: 'object'; line: number; entries: readonly (readonly [string, JsonNode])[] }>
  | Readonly<{ kind: 'list'; line: number; items: readonly JsonNode[] }>
  | Readonly<{ kind: 'text' | 'number' | 'word'; line: number; text: string }>;

/** Lists of lists of rows of values with their units are five deep; what is deeper is no sweep. */
const DEEPEST = 12;
/** So many brackets at its beginning need not be read at all. */
const tooDeep = /^\s*(?:\[\s*){14}/;

/** What a list or an object begins with. Three dots of a log's date or a section's name are none. */
const begins = /^\uFEFF?\s*(?:\[\s*[[{]|\{\s*["}])/;
/**
 * Whether a text begins as a list or an object of JSON does.
 * @returns  true also for what is none further on
 * @source   RFC 8259
 */
export const beginsAsJson = (text: string): boolean => begins.test(text);
const token = /"(?:[^"\\]|\\.)*"|[{}[\],:]|[^\s{}[\],:"]+|\n/g;

/** Why a text is no JSON, as whoever reads it says; null where it is. */
function jsonFault(text: string): string | null {
  try {
    JSON.parse(text);
    return null;
  } catch (fault) {
    return fault instanceof Error ? fault.message : '';
  }
}

class Reading {
  readonly #tokens: readonly string[];
  #at = 0;
  line: number;

  constructor(text: string, line: number) {
    this.#tokens = text.match(token) ?? [];
    this.line = line;
  }

  #next(): string {
    for (;;) {
      const one = this.#tokens[this.#at++];
      if (one === undefined) throw new RangeError('a JSON text that is none');
      if (one !== '\n') return one;
      this.line++;
    }
  }

  #peek(): string {
    const one = this.#next();
    this.#at--;
    return one;
  }

  /** The text is known to be JSON, so that every token is where it must be. */
  value(depth = 0): JsonNode {
    if (depth > DEEPEST) throw new TooDeep();
    const first = this.#next();
    const { line } = this;
    if (first === '[') {
      const items: JsonNode[] = [];
      for (let more = this.#peek() !== ']'; more; ) {
        items.push(this.value(depth + 1));
        more = this.#peek() === ',' && this.#next() !== '';
      }
      this.#next();
      return { kind: 'list', line, items };
    }
    if (first === '{') {
      const entries: (readonly [string, JsonNode])[] = [];
      for (let more = this.#peek() !== '}'; more; ) {
        const key = String(JSON.parse(this.#next()));
        this.#next();
        entries.push([key, this.value(depth + 1)]);
        more = this.#peek() === ',' && this.#next() !== '';
      }
      this.#next();
      return { kind: 'object', line, entries };
    }
    if (first.startsWith('"')) return { kind: 'text', line, text: String(JSON.parse(first)).trim() };
    return { kind: /^[-\d]/.test(first) ? 'number' : 'word', line, text: first };
  }
}

class TooDeep extends Error {}

/** The first key that stands twice in one object: a reader of JSON would take the last without a word. */
function keyTwice(node: JsonNode): Readonly<{ key: string; line: number }> | null {
  if (node.kind === 'object') {
    const seen = new Set<string>();
    for (const [key, value] of node.entries) {
      if (seen.has(key)) return { key, line: value.line };
      seen.add(key);
      const within = keyTwice(value);
      if (within !== null) return within;
    }
  }
  if (node.kind === 'list')
    for (const item of node.items) {
      const within = keyTwice(item);
      if (within !== null) return within;
    }
  return null;
}

/** The line on which a text is no JSON any more; the last where its fault tells none. */
function faultLine(text: string, fault: string): number {
  const at = /position (\d+)/.exec(fault)?.[1];
  const read = at === undefined ? text.trimEnd() : text.slice(0, Number(at));
  return read.split('\n').length;
}

/**
 * A text that begins as JSON does, or that is an object or a list on every line, with the line of each value.
 * @param text      line feeds only
 * @param fileName  named in a refusal
 * @returns  null where it begins otherwise; refused where it is broken off, deeper than rows are, or names a key twice
 *           in one object
 * @source   RFC 8259; section 4: "The names within an object SHOULD be unique"
 */
export function jsonTree(text: string, fileName: string): Result<JsonNode, 'not-json' | 'bad-key'> | null {
  if (!beginsAsJson(text)) return null;
  const bare = text.replace(/^\uFEFF/, ' ');
  try {
    if (tooDeep.test(bare)) throw new TooDeep();
    const fault = jsonFault(bare);
    const node = fault === null ? new Reading(bare, 1).value() : lines(bare);
    if (node === null)
      return refuse(
        'not-json',
        `${fileName}, line ${faultLine(bare, fault ?? '')}`,
        'it begins as JSON does and is none here; save it whole, or paste a table',
      );
    const twice = keyTwice(node);
    if (twice === null) return done(node);
    const help = `"${twice.key.slice(0, 60)}" stands twice in one object; keep the one that counts`;
    return refuse('bad-key', `${fileName}, line ${twice.line}`, help);
  } catch (fault) {
    if (!(fault instanceof TooDeep)) throw fault;
    return refuse('not-json', fileName, 'its lists lie too deep in each other to be a sweep');
  }
}

/** An object or a list a line, as logs of programs are written; null where a line is neither. */
function lines(text: string): JsonNode | null {
  const items: JsonNode[] = [];
  if (!text.trim().includes('\n')) return null;
  for (const [i, line] of text.split('\n').entries()) {
    if (line.trim() === '') continue;
    if (!begins.test(line) || jsonFault(line) !== null) return null;
    items.push(new Reading(line, i + 1).value());
  }
  return { kind: 'list', line: 1, items };
}
