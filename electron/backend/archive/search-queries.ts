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

/** SQLite lowers only the letters of ASCII, so any other matches whatever stands there and is looked at again afterwards. */
const pattern = (word: string): string =>
  `%${word.replace(/[\\%_]/g, '\\$&').replace(/[^\p{ASCII}]/gu, '_')}%`;
const isAscii = (word: string): boolean => /^\p{ASCII}*$/u.test(word);
/** The beginning of an id, long enough to be no word. */
const isIdStart = (word: string): boolean => /^[0-9a-f]{8}(?:-[0-9a-f-]*)?$/i.test(word);

type Word = Readonly<{ word: string; stations: string }>;

/** One condition for each word: in one of the columns, the station's name, or the beginning of the id. */
const condition = (columns: readonly string[], stationId: string, id: string) => (_: Word, i: number) =>
  `AND (${[...columns.map((column) => `${column} LIKE @p${i} ESCAPE '\\'`), `${stationId} IN (SELECT value FROM json_each(@s${i}))`, `${id} LIKE @i${i}`].join(' OR ')})`;

/** Looks for words in what was noted of visits and sweeps. Nothing is written here, and no reading is opened. */
export function searchQueries(archive: Database) {
  const names = archive.prepare<[], Readonly<{ stationId: string; name: string }>>(
    `SELECT s.station_id stationId, ${NAME('s.station_id')} name FROM station s`,
  );

  function valuesOf(words: readonly Word[], search: SearchFor): Record<string, string | number> {
    const values: Record<string, string | number> = { from: search.fromMs, before: search.beforeMs };
    words.forEach(({ word, stations }, i) => {
      values[`p${i}`] = pattern(word);
      values[`s${i}`] = stations;
      values[`i${i}`] = isIdStart(word) ? `${word}%` : '';
    });
    return values;
  }

  /** The first rows that really have every word: those with other letters than ASCII's were only guessed at. */
  function take<Row>(
    rows: IterableIterator<Row>,
    words: readonly Word[],
    most: number,
    textsOf: (row: Row) => readonly string[],
  ): readonly Row[] {
    const guessed = words.filter(({ word }) => !isAscii(word)).map(({ word }) => plainLetters(word));
    const taken: Row[] = [];
    for (const row of rows) {
      const texts = guessed.length === 0 ? [] : textsOf(row).map(plainLetters);
      if (!guessed.every((word) => texts.some((text) => text.includes(word)))) continue;
      taken.push(row);
      if (taken.length === most) break;
    }
    return taken;
  }

  /** Each word with the stations that have it in their name or id: five thousand names are read once a search. */
  function wordsOf(search: SearchFor): readonly Word[] {
    if (search.words.length === 0) return [];
    const stations = names
      .all()
      .map(({ stationId, name }) => ({ stationId, text: plainLetters(`${name} ${stationId}`) }));
    return search.words.map((word) => {
      const plain = plainLetters(word);
      const ids = stations.filter(({ text }) => text.includes(plain)).map(({ stationId }) => stationId);
      return { word, stations: JSON.stringify(ids) };
    });
  }

  function visits(words: readonly Word[], search: SearchFor): readonly FoundVisitRow[] {
    const where = words.map(condition(['v.operator', 'e.note'], 'v.station_id', 'v.visit_id'));
    const rows = archive
      .prepare<[Record<string, string | number>], FoundVisitRow>(
        `SELECT v.visit_id visitId, v.station_id stationId, ${NAME('v.station_id')} stationName, v.operator,
          coalesce(e.note, '') note, v.started_at startedAtMs, n.sweep_id sweepId, n.port_name portName
         FROM visit v LEFT JOIN visit_end e ON e.visit = v.seq
         LEFT JOIN sweep n ON n.seq = (SELECT w.seq FROM sweep w JOIN sweep_end x ON x.sweep = w.seq
           WHERE w.visit = v.seq AND x.reading_count > 0 ORDER BY w.order_ms DESC LIMIT 1)
         WHERE v.started_at >= @from AND v.started_at < @before ${where.join(' ')}
         ORDER BY v.order_ms DESC, v.visit_id`,
      )
      .iterate(valuesOf(words, search));
    return take(rows, words, search.most, ({ operator, note, stationName, stationId }) => [
      operator,
      note,
      stationName,
      stationId,
    ]);
  }

  function sweeps(words: readonly Word[], search: SearchFor): readonly FoundSweepRow[] {
    const columns = ['s.port_name', `replace(s.purpose, '-', ' ')`, 's.source_name', 'v.operator'];
    const where = words.map(condition(columns, 's.station_id', 's.sweep_id'));
    const rows = archive
      .prepare<[Record<string, string | number>], FoundSweepRow>(
        `SELECT s.sweep_id sweepId, s.station_id stationId, ${NAME('s.station_id')} stationName, s.port_name portName,
          s.purpose, v.operator, s.source, s.source_name sourceName, s.started_at startedAtMs
         FROM sweep s JOIN visit v ON v.seq = s.visit JOIN sweep_end e ON e.sweep = s.seq
         WHERE e.reading_count > 0 AND s.started_at >= @from AND s.started_at < @before ${where.join(' ')}
         ORDER BY s.order_ms DESC, s.sweep_id`,
      )
      .iterate(valuesOf(words, search));
    return take(rows, words, search.most, (row) => [
      row.portName,
      row.purpose.replace('-', ' '),
      row.sourceName,
      row.operator,
      row.stationName,
      row.stationId,
    ]);
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
