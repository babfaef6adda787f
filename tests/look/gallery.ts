import type { Stop } from './walk.ts';

/** Where the pictures of the README are, from the root of the project. */
export const SCREENS = 'docs/screens';
export type Theme = 'sun' | 'night';

export const pictureOf = ({ name }: Stop, theme: Theme): string =>
  `${SCREENS}/${name.replace(/\W+/g, '-')}-${theme}.png`;

/** Each picture with the line under it, in the order of the walk. */
export const picturesOf = (
  stops: readonly Stop[],
): readonly Readonly<{ stop: Stop; theme: Theme; path: string; shows: string }>[] =>
  stops.flatMap((stop) => {
    const { shows, night } = stop;
    if (shows === undefined) return [];
    const themes: readonly Theme[] = night === true ? ['sun', 'night'] : ['sun'];
    return themes.map((theme) => ({
      stop,
      theme,
      path: pictureOf(stop, theme),
      shows: theme === 'night' ? `${shows}, at night` : shows,
    }));
  });

const COLUMNS = 3;
const MARKS = ['<!-- screens: written by npm run screenshots -->', '<!-- /screens -->'] as const;

/** The table of all pictures, as Markdown between its two marks. */
export function galleryOf(stops: readonly Stop[]): string {
  const cells = picturesOf(stops).map(({ path, shows }) => `[![](${path})<br>${shows}](${path})`);
  const rows = Array.from({ length: Math.ceil(cells.length / COLUMNS) }, (_, i) =>
    Array.from({ length: COLUMNS }, (_, column) => cells[i * COLUMNS + column] ?? '').join(' | '),
  );
  const line = (text: string) => `| ${text} |`;
  const head = [line(Array(COLUMNS).fill('').join(' | ')), line(Array(COLUMNS).fill('---').join(' | '))];
  return [MARKS[0], ...head, ...rows.map(line), MARKS[1]].join('\n');
}

/** A document with the gallery between its marks made anew. */
export function withGallery(document: string, stops: readonly Stop[]): string {
  const from = document.indexOf(MARKS[0]);
  const to = document.indexOf(MARKS[1]);
  if (from < 0 || to < from) throw new Error('the document has no place for the screens');
  return document.slice(0, from) + galleryOf(stops) + document.slice(to + MARKS[1].length);
}
