import { done, type Result, refuse } from '../../result.ts';
import type { NotedLine } from '../csv-lines.ts';

/** What the keywords of version 2 say; of version 1 the standard's own rules. */
export type Keywords = Readonly<{
  version: '1' | '2';
  ports: number | null;
  points: number | null;
  twoPortOrder: '12_21' | '21_12';
  matrix: 'full' | 'lower' | 'upper';
  referencesOhm: readonly number[] | null;
}>;

export type Sections = Readonly<{
  keywords: Keywords;
  optionLine: NotedLine | null;
  /** Lines of network data without comments; in version 1 the noise data follows in them. */
  network: readonly NotedLine[];
  /** Lines of a section of its own. */
  noiseCount: number;
}>;

const wholeNumber = /^[1-9]\d{0,6}$/;

/**
 * The numbers of a line of data.
 * @param line      without a comment
 * @param fileName  named in a refusal
 * @returns  all of them; or a refusal of the first word that is none
 * @source   Touchstone File Format Specification, version 2.0, IBIS Open Forum, 2009
 */
export function numbersOf(line: NotedLine, fileName: string): Result<number[], 'not-a-number'> {
  const numbers: number[] = [];
  for (const word of line.text.trim().split(/\s+/)) {
    const value = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[ed][+-]?\d+)?$/i.test(word)
      ? Number(word.replace(/d/i, 'e'))
      : Number.NaN;
    if (!Number.isFinite(value))
      return refuse(
        'not-a-number',
        `${fileName}, line ${line.line}`,
        `"${word.slice(0, 40)}" is not a number`,
      );
    numbers.push(value);
  }
  return done(numbers);
}

/** Every keyword of version 2; what is none may change the meaning of the data, and nobody could say how. */
const known = new Set([
  'version',
  'number of ports',
  'two-port data order',
  'two-port order',
  'number of frequencies',
  'number of noise frequencies',
  'reference',
  'matrix format',
  'mixed-mode order',
  'begin information',
  'end information',
  'network data',
  'noise data',
  'end',
]);

type Building = { -readonly [K in keyof Keywords]: Keywords[K] };

/** What one keyword says; null where it is of no weight here, a refusal where its value is none. */
function setKeyword(
  keywords: Building,
  name: string,
  value: string,
  where: string,
): Result<null, 'bad-keyword'> {
  const bad = () => refuse('bad-keyword', where, `"${value.slice(0, 40)}" is no value of [${name}]`);
  const lower = value.toLowerCase();
  if (!known.has(name))
    return refuse('bad-keyword', where, `[${name.slice(0, 40)}] is no keyword of version 2`);
  if (name === 'version') {
    if (!/^2\.\d$/.test(value)) return bad();
    keywords.version = '2';
  }
  if (name === 'number of ports' || name === 'number of frequencies') {
    if (!wholeNumber.test(value)) return bad();
    if (name === 'number of ports') keywords.ports = Number(value);
    else keywords.points = Number(value);
  }
  if (name === 'two-port data order' || name === 'two-port order') {
    if (lower !== '12_21' && lower !== '21_12') return bad();
    keywords.twoPortOrder = lower;
  }
  if (name === 'matrix format') {
    if (lower !== 'full' && lower !== 'lower' && lower !== 'upper') return bad();
    keywords.matrix = lower;
  }
  if (name === 'mixed-mode order')
    return refuse('bad-keyword', where, 'mixed-mode data has no plain S21; export it single-ended');
  return done(null);
}

/**
 * A Touchstone file cut into its parts, comments left out.
 * @param text      as decoded
 * @param fileName  named in every refusal
 * @returns  the keywords, the option line and the lines of data; or a refusal with file and line
 * @source   Touchstone File Format Specification, version 2.0, IBIS Open Forum, 2009
 */
export function sectionsOf(text: string, fileName: string): Result<Sections> {
  const keywords: Building = {
    version: '1',
    ports: null,
    points: null,
    twoPortOrder: '21_12',
    matrix: 'full',
    referencesOhm: null,
  };
  const network: NotedLine[] = [];
  let optionLine: NotedLine | null = null;
  let noiseCount = 0;
  let part: 'network' | 'noise' | 'reference' | 'information' | 'end' = 'network';
  let references: number[] = [];
  let orderIsTold = false;
  let firstKeyword: string | null = null;
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n?|\n/);
  for (const [i, whole] of lines.entries()) {
    const bare = whole.replace(/!.*$/, '').trim();
    if (bare === '' || part === 'end') continue;
    const line = { line: i + 1, text: bare };
    const where = `${fileName}, line ${i + 1}`;
    const keyword = /^\[([^\]]*)\]\s*(.*)$/.exec(bare);
    if (keyword !== null) {
      const name = (keyword[1] ?? '').trim().toLowerCase().replace(/\s+/g, ' ');
      const value = (keyword[2] ?? '').trim();
      firstKeyword ??= where;
      if (name === 'end information') part = 'network';
      else if (part === 'information') continue;
      else if (name === 'begin information') part = 'information';
      else if (name === 'network data') part = 'network';
      else if (name === 'noise data') part = 'noise';
      else if (name === 'end') part = 'end';
      else if (name === 'reference') {
        part = 'reference';
        references = [];
      }
      if (name === 'two-port data order' || name === 'two-port order') orderIsTold = true;
      const set = setKeyword(keywords, name, value, where);
      if (!set.ok) return set;
      if (name !== 'reference' || value === '') continue;
      line.text = value;
    }
    if (part === 'information') continue;
    if (bare.startsWith('#')) {
      // The standard takes the first one and passes over the others.
      optionLine ??= line;
      continue;
    }
    if (part === 'noise') noiseCount++;
    else if (part === 'reference') {
      const numbers = numbersOf(line, fileName);
      if (!numbers.ok) return numbers;
      references = references.concat(numbers.value);
      if (references.some((ohm) => !(ohm > 0)))
        return refuse('bad-keyword', where, 'a reference is a resistance above 0');
      keywords.referencesOhm = references;
      if (references.length >= (keywords.ports ?? 1)) part = 'network';
    } else network.push(line);
  }
  if (keywords.version === '1' && firstKeyword !== null)
    return refuse(
      'bad-keyword',
      firstKeyword,
      'version 1 has no keywords; a file of version 2 begins with [Version] 2.0',
    );
  if (keywords.version === '2') {
    if (keywords.ports === null) return refuse('bad-keyword', fileName, 'version 2 needs [Number of Ports]');
    if (keywords.points === null)
      return refuse('bad-keyword', fileName, 'version 2 needs [Number of Frequencies]');
    if (keywords.ports === 2 && !orderIsTold)
      return refuse(
        'bad-keyword',
        fileName,
        'two ports in version 2 need [Two-Port Data Order]; which of S12 and S21 comes first is not certain',
      );
    if (keywords.referencesOhm !== null && keywords.referencesOhm.length !== keywords.ports)
      return refuse(
        'bad-keyword',
        fileName,
        `[Reference] names ${keywords.referencesOhm.length} of ${keywords.ports} ports`,
      );
  }
  return done({ keywords, optionLine, network, noiseCount });
}
