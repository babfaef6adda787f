import type { Database } from 'better-sqlite3';

export type FoundVisitRow = Readonly<{
  visitId: string;
  stationId: string;
  stationName: string;
  operator: string;
  note: string;
  startedAtMs: number;
  sweepId: string | null;
  portName: string | null;
}>;
export type FoundSweepRow = Readonly<{
  sweepId: string;
  stationId: string;
  stationName: string;
  portName: string;
  purpose: 'as-found' | 'as-left' | 'check';
  operator: string;
  source: 'meter' | 'file';
  sourceName: string;
  startedAtMs: number;
}>;

export type SearchFor = Readonly<{
  words: readonly string[];
  fromMs: number;
  beforeMs: number;
  most: number;
}>;

const NAME = (id: string) =>
  `(SELECT d.name FROM design_revision d WHERE d.station_id = ${id} ORDER BY d.order_ms DESC, d.design_id DESC LIMIT 1)`;

/** Without capitals and without marks over the letters. */
const plainLetters = (text: string): string => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();

/** The beginning of an id, long enough to be no word. */
const isIdStart = (word: string): boolean => /^[0-9a-f]{8}(?:-[0-9a-f-]*)?$/i.test(word);

/**
 * The spellings of a word that SQLite can't see as one: it takes capitals for small letters only in ASCII. The first three
 * other letters are asked for in both, the rest as they were typed.
 */
function spellings(word: string): readonly string[] {
  let all = [''];
  let others = 0;
  for (const letter of word.normalize('NFC')) {
    const both = new Set([letter.toLowerCase(), letter.toUpperCase()]);
    const isOther = letter > '\u007F' && both.size === 2;
    const forms = isOther && ++others <= 3 ? [...both] : [letter];
    all = all.flatMap((so) => forms.map((form) => so + form));
  }
  return all;
}

type Values = Record<string, string | number>;
/** A word with the spellings to look for, and the stations that have it in their name or id. */
type Word = Readonly<{ spellings: readonly string[]; stations: string; idStart: string }>;

/** One condition for each word: in one of the columns, in the station's name, or as the beginning of the id. */
const condition = (columns: readonly string[], stationId: string, id: string) => (word: Word, i: number) => {
  const said = word.spellings.flatMap((_, k) =>
    columns.map((column) => `${column} LIKE @p${i}_${k} ESCAPE '\\'`),
  );
  return `AND (${[...said, `${stationId} IN (SELECT value FROM json_each(@s${i}))`, `${id} LIKE @i${i}`].join(' OR ')})`;
};

function valuesOf(words: readonly Word[], search: SearchFor): Values {
  const values: Values = { from: search.fromMs, before: search.beforeMs, most: search.most };
  words.forEach((word, i) => {
    word.spellings.forEach((spelling, k) => {
      values[`p${i}_${k}`] = `%${spelling.replace(/[\\%_]/g, '\\$&')}%`;
    });
    values[`s${i}`] = word.stations;
    values[`i${i}`] = word.idStart;
  });
  return values;
}

/**
 * Looks for words in what was noted of visits and sweeps. Nothing is written here, and no reading is opened. The newest
 * are found first, by their numbers alone; only those that are shown are then looked up.
 */
export function searchQueries(archive: Database) {
  const names = archive.prepare<[], Readonly<{ stationId: string; name: string }>>(
    `SELECT s.station_id stationId, ${NAME('s.station_id')} name FROM station s`,
  );

  /** Five thousand names are read once a search. */
  function wordsOf(search: SearchFor): readonly Word[] {
    if (search.words.length === 0) return [];
    const stations = names
      .all()
      .map(({ stationId, name }) => ({ stationId, text: plainLetters(`${name} ${stationId}`) }));
    return search.words.map((word) => {
      const plain = plainLetters(word);
      const ids = stations.filter(({ text }) => text.includes(plain)).map(({ stationId }) => stationId);
      return {
        spellings: spellings(word),
        stations: JSON.stringify(ids),
        idStart: isIdStart(word) ? `${word}%` : '',
      };
    });
  }

  function visits(words: readonly Word[], search: SearchFor): readonly FoundVisitRow[] {
    const where = words.map(condition(['v.operator', 'e.note'], 'v.station_id', 'v.visit_id'));
    return archive
      .prepare<[Values], FoundVisitRow>(
        `SELECT v.visit_id visitId, v.station_id stationId, ${NAME('v.station_id')} stationName, v.operator,
          coalesce(e.note, '') note, v.started_at startedAtMs, n.sweep_id sweepId, n.port_name portName
         FROM (SELECT v.seq FROM visit v LEFT JOIN visit_end e ON e.visit = v.seq
           WHERE v.started_at >= @from AND v.started_at < @before ${where.join(' ')}
           ORDER BY v.order_ms DESC, v.visit_id LIMIT @most) found
         JOIN visit v ON v.seq = found.seq LEFT JOIN visit_end e ON e.visit = v.seq
         LEFT JOIN sweep n ON n.seq = (SELECT w.seq FROM sweep w JOIN sweep_end x ON x.sweep = w.seq
           WHERE w.visit = v.seq AND x.reading_count > 0 ORDER BY w.order_ms DESC LIMIT 1)
         ORDER BY v.order_ms DESC, v.visit_id`,
      )
      .all(valuesOf(words, search));
  }

  function sweeps(words: readonly Word[], search: SearchFor): readonly FoundSweepRow[] {
    const columns = ['s.port_name', `replace(s.purpose, '-', ' ')`, 's.source_name', 'v.operator'];
    const where = words.map(condition(columns, 's.station_id', 's.sweep_id'));
    return archive
      .prepare<[Values], FoundSweepRow>(
        `SELECT s.sweep_id sweepId, s.station_id stationId, ${NAME('s.station_id')} stationName, s.port_name portName,
          s.purpose, v.operator, s.source, s.source_name sourceName, s.started_at startedAtMs
         FROM (SELECT s.seq FROM sweep s JOIN visit v ON v.seq = s.visit JOIN sweep_end e ON e.sweep = s.seq
           WHERE e.reading_count > 0 AND s.started_at >= @from AND s.started_at < @before ${where.join(' ')}
           ORDER BY s.order_ms DESC, s.sweep_id LIMIT @most) found
         JOIN sweep s ON s.seq = found.seq JOIN visit v ON v.seq = s.visit
         ORDER BY s.order_ms DESC, s.sweep_id`,
      )
      .all(valuesOf(words, search));
  }

  return {
    /** The newest first, at most so many of each. */
    find(search: SearchFor): Readonly<{
      visits: readonly FoundVisitRow[];
      sweeps: readonly FoundSweepRow[];
    }> {
      const words = wordsOf(search);
      return { visits: visits(words, search), sweeps: sweeps(words, search) };
    },
  };
}
