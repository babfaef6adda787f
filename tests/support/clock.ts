/** A clock that stands still until it is moved, and ids in the order in which they were asked for. */
export type Clock = Readonly<{
  now: () => Date;
  set(moment: string): void;
  forward(ms: number): void;
}>;

export function createClock(moment = '2026-03-02T08:00:00.000Z'): Clock {
  let atMs = Date.parse(moment);
  return {
    now: () => new Date(atMs),
    set(to) {
      atMs = Date.parse(to);
    },
    forward(ms) {
      atMs += ms;
    },
  };
}

/** Valid random-looking UUIDs of version 4, counted up. */
export function createIds(): () => string {
  let count = 0;
  return () => {
    count += 1;
    return `00000000-0000-4000-8000-${String(count).padStart(12, '0')}`;
  };
}
