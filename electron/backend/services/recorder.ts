/** Readings that come faster than this share a transaction; slower ones get one each. */
const PACE_MS = 20;

export type Recorder<T> = Readonly<{
  /** Never throws: a disk that takes no more is told through `failed`. */
  take(item: T): void;
  /** Keeps what waits, now. */
  flush(): void;
  keptCount(): number;
  /** What could not be kept, in order. */
  waiting(): readonly T[];
}>;

/**
 * Puts items on disk as they come and tells of each only after that. An item waits at most PACE_MS, and only when
 * another was kept less than that ago, so that a slow disk doesn't slow a quick meter.
 * @param keep    puts all of them on disk or throws; `place` is that of the first
 * @param kept    told of each, in order, once it is on disk
 * @param failed  told once, with what `keep` threw; from then on everything waits
 */
export function createRecorder<T>(
  parts: Readonly<{
    keep: (items: readonly T[], place: number) => void;
    kept: (item: T, place: number) => void;
    failed: (fault: unknown) => void;
  }>,
): Recorder<T> {
  let waiting: T[] = [];
  let place = 0;
  let lastKeptAtMs = Number.NEGATIVE_INFINITY;
  let timer: ReturnType<typeof setTimeout> | null = null;
  let broken = false;

  const flush = (): void => {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    if (broken || waiting.length === 0) return;
    const items = waiting;
    try {
      parts.keep(items, place);
    } catch (fault) {
      broken = true;
      parts.failed(fault);
      return;
    }
    lastKeptAtMs = performance.now();
    waiting = [];
    for (const item of items) {
      parts.kept(item, place);
      place += 1;
    }
  };
  return {
    take(item) {
      waiting.push(item);
      if (performance.now() - lastKeptAtMs >= PACE_MS) flush();
      else timer ??= setTimeout(flush, PACE_MS);
    },
    flush,
    keptCount: () => place,
    waiting: () => waiting,
  };
}
