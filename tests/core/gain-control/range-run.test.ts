import { describe, expect, it } from 'vitest';
import {
  type RangePhase,
  type RangeRun,
  rangeRunAfter,
  rangeRunBegin,
  rangeRunVerdict,
  rangeRunWords,
} from '../../../core/gain-control/range-run.ts';
import { chanceFrom } from '../../../core/season/chance.ts';

const PER_SECOND = 10;
/** What a hand does: it brings the level there in so many seconds, and leaves it for so many. */
type Move = readonly [toDbmv: number, inS: number, restS: number];

function* played(fromDbmv: number, moves: readonly Move[], noiseDb: number, seed: number) {
  const chance = chanceFrom(seed);
  let k = 0;
  let atDbmv = fromDbmv;
  for (const [toDbmv, inS, restS] of moves) {
    const steps = Math.round(inS * PER_SECOND);
    for (let i = 1; i <= steps + restS * PER_SECOND; i++) {
      const levelDbmv = atDbmv + (toDbmv - atDbmv) * Math.min(1, steps === 0 ? 1 : i / steps);
      yield { atS: k++ / PER_SECOND, levelDbmv: levelDbmv + noiseDb * chance.normal() };
    }
    atDbmv = toDbmv;
  }
}
function run(fromDbmv: number, moves: readonly Move[], noiseDb = 0.1, seed = 1) {
  let state: RangeRun = rangeRunBegin;
  const phases: RangePhase[] = ['set'];
  for (const reading of played(fromDbmv, moves, noiseDb, seed)) {
    state = rangeRunAfter(state, reading);
    if (state.phase !== phases.at(-1)) phases.push(state.phase);
  }
  return { state, phases };
}
const whole = (upDb: number, downDb: number): Move[] => [
  [40, 0, 3],
  [40 + upDb, 4, 3],
  [40 - downDb, 6, 3],
  [40, 3, 4],
];

describe('a range test, measured from the live level', () => {
  it.each([
    [4, 6, 'pass'],
    [4.2, 6.3, 'pass'],
    [5.3, 6, 'undecided'],
    [2.2, 6, 'fail'],
    [4, 9, 'fail'],
  ] as const)('of %d dB up and %d dB down: %s', (upDb, downDb, verdict) => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const { state, phases } = run(40, whole(upDb, downDb), 0.1, seed);
      expect(phases).toEqual(['set', 'up', 'down', 'back', 'done']);
      const found = rangeRunVerdict(state);
      expect(found?.upDb).toBeCloseTo(upDb, 0);
      expect(Math.abs((found?.upDb ?? 0) - upDb)).toBeLessThan(0.2);
      expect(Math.abs((found?.downDb ?? 0) - downDb)).toBeLessThan(0.2);
      expect(found?.verdict).toBe(verdict);
      expect(Math.abs((state.returnedDbmv ?? 0) - 40)).toBeLessThan(0.2);
    }
  });

  it('takes a pause on the way for no end', () => {
    const { state } = run(40, [
      [40, 0, 3],
      [42, 2, 5],
      [44, 2, 3],
      [37, 5, 5],
      [34, 3, 3],
      [40, 3, 4],
    ]);
    expect(rangeRunVerdict(state)?.verdict).toBe('pass');
  });

  it('is not done before the level is back within 0.2 dB', () => {
    const short = whole(4, 6).slice(0, 3);
    const { state } = run(40, [...short, [39.5, 3, 10]]);
    expect(state.phase).toBe('back');
    expect(rangeRunVerdict(state)?.verdict).toBe('pass');
    expect(run(40, [...short, [39.5, 3, 3], [40.05, 1, 4]]).state.phase).toBe('done');
  });

  it('has no verdict before both ends are found, and changes nothing after the end', () => {
    expect(rangeRunVerdict(run(40, whole(4, 6).slice(0, 2)).state)).toBeNull();
    const { state } = run(40, whole(4, 6));
    expect(rangeRunAfter(state, { atS: 99, levelDbmv: 0 })).toBe(state);
  });

  it('goes on through a meter of 0.3 dB noise', () => {
    for (let seed = 10; seed < 20; seed++)
      expect(run(40, whole(4, 6), 0.3, seed).phases.at(-1), `seed ${seed}`).toBe('done');
  });
});

it('says what to do next in every phase', () => {
  let state: RangeRun = rangeRunBegin;
  const said = new Set([rangeRunWords(state)]);
  for (const reading of played(40, whole(4, 6), 0, 1)) {
    state = rangeRunAfter(state, reading);
    said.add(rangeRunWords(state));
  }
  expect([...said]).toEqual([
    'hands off: reading the set level',
    'turn up to the end and leave it there for two seconds',
    'if that is the end, turn down to the other one and leave it there for two seconds',
    'turn down to the end and leave it there for two seconds',
    'if that is the end, turn back to the set level, 40.0\u00A0dBmV',
    'back to the set level, 40.0\u00A0dBmV, and leave it there for two seconds',
    'done, and back at the set level',
  ]);
});

it('takes no reading that is no number', () => {
  expect(() => rangeRunAfter(rangeRunBegin, { atS: 0, levelDbmv: Number.NaN })).toThrow(RangeError);
});
