import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  gripped,
  held,
  isWhole,
  moved,
  nearestStop,
  showing,
  zoomed,
} from '../../../renderer/charts/axis-view.ts';

const limits = { whole: { low: 54, high: 870 }, least: 24 };
const width = ({ low, high }: Readonly<{ low: number; high: number }>) => high - low;

describe('what of an axis is looked at', () => {
  it('comes nearer around a place that stays where it is', () => {
    const near = zoomed(limits.whole, 2, 300, limits);
    expect(width(near)).toBeCloseTo(408, 9);
    const share = (view: { low: number; high: number }) => (300 - view.low) / width(view);
    expect(share(near)).toBeCloseTo(share(limits.whole), 9);
    expect(isWhole(zoomed(near, 0.5, 300, limits), limits.whole)).toBe(true);
  });

  it('never leaves the axis nor falls below the least, whatever is done', () => {
    const deed = fc.oneof(
      fc.record({
        by: fc.constant('zoom'),
        a: fc.double({ min: 0.01, max: 100, noNaN: true }),
        b: fc.double({ min: 54, max: 870, noNaN: true }),
      }),
      fc.record({
        by: fc.constant('move'),
        a: fc.double({ min: -5, max: 5, noNaN: true }),
        b: fc.constant(0),
      }),
      fc.record({
        by: fc.constant('show'),
        a: fc.double({ min: 54, max: 870, noNaN: true }),
        b: fc.constant(0),
      }),
    );
    fc.assert(
      fc.property(fc.array(deed, { maxLength: 30 }), (deeds) => {
        let view = limits.whole;
        for (const { by, a, b } of deeds)
          view =
            by === 'zoom'
              ? zoomed(view, a, b, limits)
              : by === 'move'
                ? moved(view, a, limits)
                : showing(view, a, limits);
        expect(view.low).toBeGreaterThanOrEqual(54 - 1e-6);
        expect(view.high).toBeLessThanOrEqual(870 + 1e-6);
        expect(width(view)).toBeGreaterThanOrEqual(24 - 1e-6);
      }),
    );
  });

  it('keeps under two fingers what they took hold of', () => {
    const view = gripped(
      limits.whole,
      [
        { value: 300, share: 0.2 },
        { value: 500, share: 0.8 },
      ],
      limits,
    );
    expect(view.low + 0.2 * width(view)).toBeCloseTo(300, 9);
    expect(view.low + 0.8 * width(view)).toBeCloseTo(500, 9);
  });

  it('turns with a finger, as far as there is something', () => {
    const near = { low: 200, high: 400 };
    expect(gripped(near, [{ value: 250, share: 0.75 }], limits)).toEqual({ low: 100, high: 300 });
    expect(gripped(near, [{ value: 60, share: 0.9 }], limits)).toEqual({ low: 54, high: 254 });
    expect(held({ low: 900, high: 1000 }, limits)).toEqual({ low: 770, high: 870 });
  });

  it('stands on what was read, never between', () => {
    expect(nearestStop([57, 63, 69], 64)).toBe(63);
    expect(nearestStop([], 64)).toBeNull();
  });
});
