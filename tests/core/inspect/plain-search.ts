import { type Explained, explainedBy, explainedBySine, type Fitted } from '../../../core/inspect/fitted.ts';
import { bellPatch } from '../../../core/inspect/notch.ts';
import { type RippleLimits, rippleLimits } from '../../../core/inspect/ripple.ts';
import { bendPatch } from '../../../core/inspect/rolloff.ts';
import type { Trace } from '../../../core/inspect/trace.ts';

/*
 * Every part that a finder may try, reckoned one by one as it is defined: takes the square of the rows, and is what the
 * quick finders must come to.
 */

export type PlainBest<Place> = Readonly<{ place: Place; explained: Explained; tried: number }> | null;

function bestOf<Place>(places: Iterable<Place>, explain: (place: Place) => Explained): PlainBest<Place> {
  let best: Readonly<{ place: Place; explained: Explained }> | null = null;
  let tried = 0;
  for (const place of places) {
    tried++;
    const explained = explain(place);
    if (explained.gainDb2 > (best?.explained.gainDb2 ?? 0)) best = { place, explained };
  }
  return best === null ? null : { ...best, tried };
}

export function plainJump({ mhz, island }: Trace, fitted: Fitted): PlainBest<number> {
  const n = fitted.mhz.length;
  const islandAt = (i: number) => island[mhz.indexOf(fitted.mhz[i] ?? 0)];
  const all = Array.from({ length: Math.max(0, n - 5) }, (_, i) => i + 3);
  return bestOf(
    all.filter((at) => islandAt(at - 1) === islandAt(at)),
    (at) => explainedBy(fitted, { at, values: Array.from({ length: n - at }, () => 1) }),
  );
}

export function plainBend(fitted: Fitted, edge: 'low' | 'high') {
  const rows = edge === 'high' ? fitted.mhz.toReversed() : fitted.mhz;
  const all = rows
    .slice(1, Math.floor(rows.length * 0.4) + 1)
    .flatMap((f, i) =>
      i === 0
        ? [{ fromMhz: f, power: 1 }]
        : [0, 0.5].flatMap((part) =>
            [1, 2, 3].map((power) => ({ fromMhz: f + part * ((rows[i] ?? 0) - f), power })),
          ),
    );
  return bestOf(all, ({ fromMhz, power }) =>
    explainedBy(fitted, bendPatch(fitted.mhz, edge, fromMhz, power)),
  );
}

export function plainSine(fitted: Fitted, { shortestMhz, longestMhz }: RippleLimits): PlainBest<number> {
  const { mhz } = fitted;
  const step = 1 / (4 * ((mhz.at(-1) ?? 0) - (mhz[0] ?? 0)));
  const all: number[] = [];
  for (let perMhz = 1 / longestMhz; perMhz <= 1 / shortestMhz; perMhz += step) all.push(perMhz);
  return bestOf(all, (perMhz) => explainedBySine(fitted, perMhz));
}

/** Over one island without gaps. */
export function plainBell(fitted: Fitted, stepMhz: number, sign: -1 | 1) {
  const [low = 0, high = 0] = [fitted.mhz[0], fitted.mhz.at(-1)];
  const all: { centerMhz: number; widthMhz: number }[] = [];
  for (let widthMhz = stepMhz; widthMhz <= Math.max(stepMhz, (high - low) * 0.25); widthMhz *= 1.5)
    for (let centerMhz = low; centerMhz <= high; centerMhz += widthMhz / 3) {
      const room = widthMhz / 2 + stepMhz / 2;
      if (centerMhz - room >= low && centerMhz + room <= high) all.push({ centerMhz, widthMhz });
    }
  return bestOf(all, ({ centerMhz, widthMhz }) => {
    const explained = explainedBy(fitted, bellPatch(fitted.mhz, centerMhz, widthMhz));
    return Math.sign(explained.amplitudeDb) === sign ? explained : { gainDb2: 0, amplitudeDb: 0 };
  });
}

export const limitsOf = (trace: Trace): RippleLimits => rippleLimits(trace.stepMhz, trace.widestMhz);
