import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { LiveRun } from '../../../core/bridge/live-calls.ts';
import { createLevelFeed } from '../../../renderer/state/level-feed.ts';
import { createLevelSource, type LevelGoal } from '../../../renderer/state/level-moment.ts';
import {
  ageWords,
  DASHES,
  distanceWords,
  goalWords,
  handWords,
  numberWords,
  spokenWords,
} from '../../../renderer/state/level-words.ts';

const liveId = '00000000-0000-4000-8000-000000000001';
const other = '00000000-0000-4000-8000-000000000002';
const reading = (elapsedMs: number, meterDbmv: number | null, id = liveId) => ({
  liveId: id,
  seq: Math.round(elapsedMs / 50),
  elapsedMs,
  takenAt: '2026-11-25T09:00:00.000Z',
  meterDbmv,
  testPointLossDb: 20,
});

/** A feed on a clock of the test's own, with frames that come when the test says so. */
function page() {
  const frames: (() => void)[] = [];
  const clock = { ms: 1000 };
  const feed = createLevelFeed(
    (callback) => frames.push(callback),
    () => clock.ms,
  );
  const frame = () => {
    for (const one of frames.splice(0)) one();
  };
  return { feed, clock, frame, frames };
}

let bench = page();
beforeEach(() => {
  bench = page();
});

describe('the feed of a live level', () => {
  it('gives levels at the port, holds the highest and the lowest, and holds anew when asked', () => {
    const { feed } = bench;
    feed.expect();
    feed.arrived(reading(0, 24.5));
    feed.arrived(reading(50, 27.8));
    feed.arrived(reading(100, 25));
    expect(feed.readings().map(({ levelDbmv }) => levelDbmv)).toEqual([44.5, 47.8, 45]);
    expect(feed.held()).toEqual({ highestDbmv: 47.8, lowestDbmv: 44.5 });
    feed.holdAnew();
    feed.arrived(reading(150, 24));
    expect(feed.held()).toEqual({ highestDbmv: 44, lowestDbmv: 44 });
  });

  it('takes nothing of another run, and nothing of its own once it rests', () => {
    const { feed } = bench;
    feed.expect();
    feed.bind(liveId);
    feed.arrived(reading(0, 25, other));
    expect(feed.readings()).toEqual([]);
    feed.arrived(reading(0, 25));
    feed.rest();
    feed.arrived(reading(50, 26));
    expect(feed.readings()).toHaveLength(1);
    expect(feed.lastMs()).toBeNull();
    feed.forget();
    feed.arrived(reading(100, 26));
    expect(feed.readings()).toEqual([]);
  });

  it('calls those who write once a frame, however many readings came', () => {
    const { feed, frame } = bench;
    const wrote = vi.fn();
    feed.onFrame(wrote);
    feed.expect();
    for (let i = 0; i < 20; i++) feed.arrived(reading(i * 50, 25));
    frame();
    expect(wrote).toHaveBeenCalledTimes(1);
  });

  it('goes on with what was read before the page was loaded again, without any of it twice', () => {
    const { feed } = bench;
    const run: LiveRun = {
      liveId,
      stationId: 's',
      visitId: null,
      portName: 'forward output',
      frequencyMhz: 711,
      testPointLossDb: 20,
      startedAt: '2026-11-25T09:00:00.000Z',
    };
    feed.seed(run, [reading(0, 25), reading(50, 25.1)]);
    feed.arrived(reading(0, 25));
    feed.arrived(reading(100, 25.2));
    expect(feed.readings().map(({ atS }) => atS)).toEqual([0, 0.05, 0.1]);
  });
});

describe('what the screen says of a live level', () => {
  const goal: LevelGoal = { kind: 'target', levelDbmv: 44, toleranceDb: 0.2 };
  const read = (levels: readonly (number | null)[], aimed: LevelGoal = goal) => {
    const { feed, clock } = bench;
    feed.expect();
    levels.forEach((level, i) => {
      clock.ms = 1000 + i * 100;
      feed.arrived(reading(i * 100, level === null ? null : level - 20));
    });
    return createLevelSource(feed, aimed);
  };

  it('shows the number, how far it is in words, and which way to turn', () => {
    const moment = read(Array.from({ length: 40 }, (_, i) => 46 - 0.03 * i)).read();
    expect(numberWords(moment)).toBe('44.8');
    expect(distanceWords(moment)).toBe('0.8 down');
    expect(handWords(moment)).toBe('falling: go on this way');
    expect(spokenWords(moment)).toBe('44.8, 0.8 down, falling: go on this way');
    expect(ageWords(moment)).toMatch(/^10 readings a second, 0\.0 s ago$/);
  });

  it('says "on target" inside the tolerance', () => {
    const moment = read(Array.from({ length: 40 }, () => 44.1)).read();
    expect(distanceWords(moment)).toBe('on target');
    expect(moment.way).toBe('leave-it');
  });

  it('has dashes and no distance after a second without data, and says how old the last reading is', () => {
    const source = read([44.5, 44.5, 44.5]);
    expect(numberWords(source.read())).toBe('44.5');
    bench.clock.ms += 1001;
    const stale = source.read();
    expect(stale.at).toBe('stale');
    expect(numberWords(stale)).toBe(DASHES);
    expect(distanceWords(stale)).toBe('');
    expect(stale.offDb).toBeNull();
    expect(handWords(stale)).toBe('no reading: take the hand off');
    expect(ageWords(stale)).toBe('last reading 1.0 s ago');
  });

  it('has dashes at once where the meter finds no level', () => {
    const moment = read([44.5, null]).read();
    expect(numberWords(moment)).toBe(DASHES);
    expect(handWords(moment)).toBe('the meter finds no level here');
  });

  it('does not call a turn wrong where an end is looked for: a loop may work against the hand', () => {
    const moment = read(
      Array.from({ length: 40 }, (_, i) => 40 + 0.05 * i),
      { kind: 'end', end: 'low' },
    ).read();
    expect(moment.way).toBeNull();
    expect(handWords(moment)).toBe('rising');
    expect(goalWords({ kind: 'end', end: 'low' }, '')).toBe('to the end that gives least');
  });
});
