/** Lines of a talk, each under its place: the same words may come again. */
export const numbered = <T>(lines: readonly T[]): Readonly<{ key: string; of: T }>[] =>
  lines.map((of, i) => ({ key: `line ${i}`, of }));
