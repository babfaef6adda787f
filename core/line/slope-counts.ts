/** Runs this short are ordered one row at a time, longer ones by merging. */
const SHORT_RUN = 10;

/**
 * Counts, for every row, the rows from which the line to it is no steeper than a slope: what repeated medians are decided
 * by, without looking at every pair. Rows at one position have no slope between them and are not counted.
 *
 * With r = level - slope * position, the line from row i to a later row j is no steeper than the slope exactly when r of
 * j is at most r of i; and from an earlier one when it is at least that. Both are counted while the rows are merged into
 * the order of r.
 */
export class SlopeCounts {
  private readonly position: Float64Array;
  private readonly levelDbmv: Float64Array;
  private readonly hasTwins: boolean;
  private readonly offDb: Float64Array;
  private order: Int32Array;
  private spare: Int32Array;
  /** Per row how many of the others it has a slope to. */
  readonly pairs: Int32Array;
  /** Per row how many of these slopes are no steeper than the last that was asked for. */
  readonly counts: Int32Array;

  /** @param position no unit, rising; levels in dBmV, as many */
  constructor(position: Float64Array, levelDbmv: Float64Array) {
    const n = position.length;
    this.position = position;
    this.levelDbmv = levelDbmv;
    this.offDb = new Float64Array(n);
    this.order = new Int32Array(n);
    this.spare = new Int32Array(n);
    this.counts = new Int32Array(n);
    this.pairs = new Int32Array(n).fill(n - 1);
    let hasTwins = false;
    for (let start = 0; start < n; ) {
      const end = this.endOfTwins(start);
      if (end - start > 1) {
        hasTwins = true;
        this.pairs.fill(n - (end - start), start, end);
      }
      start = end;
    }
    this.hasTwins = hasTwins;
  }

  /** Fills `counts` for a slope, dB from position 0 to 1. */
  countUpTo(slopeDb: number): void {
    const { position, levelDbmv, offDb, counts } = this;
    const n = position.length;
    for (let i = 0; i < n; i++) {
      offDb[i] = (levelDbmv[i] as number) - slopeDb * (position[i] as number);
      counts[i] = 0;
      this.order[i] = i;
    }
    for (let from = 0; from < n; from += SHORT_RUN) this.insertFrom(from, Math.min(n, from + SHORT_RUN));
    for (let width = SHORT_RUN; width < n; width *= 2) {
      for (let left = 0; left < n; left += 2 * width)
        this.merge(left, Math.min(n, left + width), Math.min(n, left + 2 * width));
      const merged = this.spare;
      this.spare = this.order;
      this.order = merged;
    }
    if (this.hasTwins) this.takeTwinsOut();
  }

  /** A short run put in the order of r, one row at a time. */
  private insertFrom(from: number, to: number): void {
    const { order, offDb, counts } = this;
    for (let later = from + 1; later < to; later++) {
      const off = offDb[later] as number;
      let at = later;
      while (at > from) {
        const earlier = order[at - 1] as number;
        if (!(off <= (offDb[earlier] as number))) break;
        counts[earlier] = (counts[earlier] as number) + 1;
        order[at] = earlier;
        at--;
      }
      order[at] = later;
      counts[later] = (counts[later] as number) + later - at;
    }
  }

  /** Two neighbouring runs in the order of r into one; of equals the later row first. */
  private merge(from: number, middle: number, to: number): void {
    const { order, spare, offDb, counts } = this;
    let i = from;
    let j = middle;
    let at = from;
    while (i < middle && j < to) {
      const earlier = order[i] as number;
      const later = order[j] as number;
      if ((offDb[later] as number) <= (offDb[earlier] as number)) {
        counts[later] = (counts[later] as number) + middle - i;
        spare[at++] = later;
        j++;
      } else {
        counts[earlier] = (counts[earlier] as number) + j - middle;
        spare[at++] = earlier;
        i++;
      }
    }
    for (; i < middle; i++) {
      const earlier = order[i] as number;
      counts[earlier] = (counts[earlier] as number) + j - middle;
      spare[at++] = earlier;
    }
    for (; j < to; j++) spare[at++] = order[j] as number;
  }

  private endOfTwins(start: number): number {
    let end = start + 1;
    while (end < this.position.length && this.position[end] === this.position[start]) end++;
    return end;
  }

  private takeTwinsOut(): void {
    const { offDb, counts } = this;
    for (let start = 0; start < offDb.length; ) {
      const end = this.endOfTwins(start);
      for (let i = start; i < end; i++)
        for (let j = i + 1; j < end; j++)
          if ((offDb[j] as number) <= (offDb[i] as number)) {
            counts[i] = (counts[i] as number) - 1;
            counts[j] = (counts[j] as number) - 1;
          }
      start = end;
    }
  }
}
