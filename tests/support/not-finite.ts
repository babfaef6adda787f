/** Paths of every number in a value that is NaN or infinite, however deep; an empty list is what core promises. */
export function notFinite(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path}: ${value}`];
  if (ArrayBuffer.isView(value) && !(value instanceof DataView))
    return Array.from(value as unknown as ArrayLike<unknown>).flatMap((one, i) =>
      notFinite(one, `${path}[${i}]`),
    );
  if (Array.isArray(value)) return value.flatMap((one, i) => notFinite(one, `${path}[${i}]`));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, one]) => notFinite(one, `${path}.${key}`));
}
