import { expect, it } from 'vitest';
import { createLiveFeed } from '../../../renderer/state/live-feed.ts';

function feedWithFrames() {
  const frames: (() => void)[] = [];
  const feed = createLiveFeed((callback) => frames.push(callback));
  const frame = () => {
    for (const callback of frames.splice(0)) callback();
  };
  return { feed, frames, frame };
}
const reading = (index: number, sweepId = 'a') => ({
  sweepId,
  index,
  plannedCount: 100,
  reading: { frequencyMhz: 57 + index, meterDbmv: 20, kind: null, takenAt: '2026-11-25T09:00:00.000Z' },
});

it('calls whoever draws once a frame, however many readings came', () => {
  const { feed, frames, frame } = feedWithFrames();
  let drawn = 0;
  feed.onFrame(() => drawn++);
  feed.expect();
  frame();
  drawn = 0;
  for (let i = 0; i < 50; i++) feed.arrived(reading(i));
  expect(frames).toHaveLength(1);
  frame();
  expect(drawn).toBe(1);
  expect(feed.readings()).toHaveLength(50);
  expect(feed.readings()).toBe(feed.readings());
});

it('takes readings that come before the sweep has told its id, and none of another sweep', () => {
  const { feed } = feedWithFrames();
  feed.expect();
  feed.arrived(reading(0));
  feed.bind('a');
  feed.arrived(reading(0, 'b'));
  feed.arrived(reading(1));
  expect(feed.readings().map(({ frequencyMhz }) => frequencyMhz)).toEqual([57, 58]);
});

it('drops early readings that turn out to be of another sweep', () => {
  const { feed } = feedWithFrames();
  feed.expect();
  feed.arrived(reading(0, 'old'));
  feed.bind('a');
  expect(feed.readings()).toEqual([]);
});

it('joins what a running sweep had already read with what came meanwhile', () => {
  const { feed } = feedWithFrames();
  feed.arrived(reading(2));
  feed.seed('a', [reading(0).reading, reading(1).reading]);
  expect(feed.readings()).toHaveLength(3);
});

it('stops calling when asked', () => {
  const { feed, frame } = feedWithFrames();
  let drawn = 0;
  const stop = feed.onFrame(() => drawn++);
  stop();
  feed.arrived(reading(0));
  frame();
  expect(drawn).toBe(0);
});
