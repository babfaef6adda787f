/** Without capitals and without marks over the letters: "Öl" and "ol" are one. */
export const plainLetters = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/\u00B5/g, 'u')
    .toLowerCase();

export const wordsOf = (text: string): readonly string[] =>
  plainLetters(text)
    .split(/[\s,]+/)
    .filter((word) => word !== '');

/** How well a text has every word: a word that begins it before one that begins a part of it before any other place. */
export function nearness(words: readonly string[], text: string): number | null {
  const plain = plainLetters(text);
  let sum = 0;
  for (const word of words) {
    const at = plain.indexOf(word);
    if (at < 0) return null;
    const beginsPart = new RegExp(`(?:^|[^\\p{L}\\p{N}])${word.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}`, 'u');
    sum += at === 0 ? 0 : beginsPart.test(plain) ? 1 : 2;
  }
  return sum;
}

/** Those that have every word, the nearest first; among equals the order stays. */
export function nearest<T>(
  all: readonly T[],
  words: readonly string[],
  textOf: (one: T) => string,
  most: number,
): readonly T[] {
  return all
    .flatMap((one, i) => {
      const far = nearness(words, textOf(one));
      return far === null ? [] : [{ one, far, i }];
    })
    .sort((a, b) => a.far - b.far || a.i - b.i)
    .slice(0, most)
    .map(({ one }) => one);
}
