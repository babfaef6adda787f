import type { Span } from './scale.ts';

const DAY_MS = 86_400_000;

export type TimeTick = Readonly<{ ms: number; text: string }>;

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

/** The span of some moments with a little room at both ends; never less than two months. */
export function timeSpan(moments: readonly number[]): Span {
  const first = Math.min(...moments);
  const last = Math.max(...moments);
  const room = Math.max(30 * DAY_MS, (last - first) * 0.03);
  return { low: first - room, high: last + room };
}

/** Beginnings of months or years inside a span, as many as there is room for: "Mar 2025", or "2025". */
export function timeTicks(span: Span, wanted: number): readonly TimeTick[] {
  const from = new Date(span.low);
  const steps = [1, 2, 3, 6, 12, 24, 60, 120];
  const monthsIn = (span.high - span.low) / (30.44 * DAY_MS);
  const step = steps.find((size) => monthsIn / size <= wanted) ?? 120;
  const ticks: TimeTick[] = [];
  const start = from.getFullYear() * 12 + from.getMonth();
  for (let month = Math.ceil(start / step) * step; ; month += step) {
    const at = new Date(Math.floor(month / 12), month % 12, 1);
    const ms = at.getTime();
    if (ms > span.high) return ticks;
    if (ms < span.low) continue;
    const name = months[at.getMonth()] ?? '';
    ticks.push({ ms, text: step >= 12 ? `${at.getFullYear()}` : `${name} ${at.getFullYear()}` });
  }
}
