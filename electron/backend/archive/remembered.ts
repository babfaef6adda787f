const KEPT = 500;

/** A few texts that many sweeps share, parsed once. Whoever gets a value must not change it. */
export function remembered<T>(parse: (text: string) => T): (text: string) => T {
  const known = new Map<string, T>();
  return (text) => {
    const found = known.get(text);
    if (found !== undefined) return found;
    if (known.size >= KEPT) known.clear();
    const value = parse(text);
    known.set(text, value);
    return value;
  };
}
