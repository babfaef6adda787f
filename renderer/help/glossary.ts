import type { Term, Topic } from './term.ts';
import { gainControl } from './terms/gain-control.ts';
import { levels } from './terms/levels.ts';
import { line } from './terms/line.ts';
import { noise } from './terms/noise.ts';
import { parts } from './terms/parts.ts';
import { trust } from './terms/trust.ts';

/** Everything that the help explains, in the order of the work. */
export const topics: readonly Topic[] = [line, levels, parts, gainControl, noise, trust];

export const terms: readonly Term[] = topics.flatMap(({ terms: all }) => all);

const byId = new Map(terms.map((term) => [term.id, term]));
export const termOf = (id: string): Term | undefined => byId.get(id);

/** Every name of a term in small letters, the longest first, so that "guard band" goes before "band". */
const names: readonly Readonly<{ name: string; term: Term }>[] = terms
  .flatMap((term) =>
    [term.name, ...term.name.split(', ')].map((name) => ({ name: name.toLowerCase(), term })),
  )
  .sort((a, b) => b.name.length - a.name.length);

/** The term that a title speaks of, by its longest name; null where it names none. */
export function termIn(title: string): Term | null {
  const words = ` ${title.toLowerCase().replace(/[^\p{L}\p{N}-]+/gu, ' ')} `;
  return (
    names.find(({ name }) => words.includes(` ${name.replace(/[^\p{L}\p{N}-]+/gu, ' ').trim()} `))?.term ??
    null
  );
}
