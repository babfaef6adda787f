/**
 * Puts the values so that the one at a place is the one that sorting would put there; the others are left as they come.
 * @param values  changed in place; the first `count` of them are looked at; none NaN
 * @param place   0 for the smallest
 * @returns  the value at the place; before it none is larger, after it none is smaller
 * @throws   RangeError when the place is outside
 * @source   C. A. R. Hoare, "Algorithm 65: Find", Communications of the ACM 4 (1961), 321; pivot: the middle of three
 */
export function selectAt(values: Float64Array, count: number, place: number): number {
  if (!(place >= 0 && place < count && count <= values.length))
    throw new RangeError(`no place ${place} among ${count}`);
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const a = values[low] as number;
    const b = values[(low + high) >> 1] as number;
    const c = values[high] as number;
    const pivot = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    let i = low;
    let j = high;
    while (i <= j) {
      while ((values[i] as number) < pivot) i++;
      while ((values[j] as number) > pivot) j--;
      if (i <= j) {
        const swap = values[i] as number;
        values[i++] = values[j] as number;
        values[j--] = swap;
      }
    }
    if (place <= j) high = j;
    else if (place >= i) low = i;
    else break;
  }
  return values[place] as number;
}
