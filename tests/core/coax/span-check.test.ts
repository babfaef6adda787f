import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cableNamed } from '../../../core/coax/loss.ts';
import { spanLossDb } from '../../../core/coax/span.ts';
import { type SpanReading, spanCheck } from '../../../core/coax/span-check.ts';
import { anyNumber } from '../../support/any-number.ts';
import { notFinite } from '../../support/not-finite.ts';

const value = <T>(told: { ok: true; value: T } | { ok: false; help: string }): T => {
  if (!told.ok) throw new Error(told.help);
  return told.value;
};
const p750 = value(cableNamed('.750'));
const span = { cable: p750, lengthM: 400 };
const carriersMhz = Array.from({ length: 136 }, (_, i) => 57 + 6 * i);
/** A span that is known exactly, with what is wrong with it added. */
const readings = (lengthM: number, wrongDb: (frequencyMhz: number) => number): SpanReading[] =>
  carriersMhz.map((frequencyMhz) => ({
    frequencyMhz,
    sentDbmv: 40,
    receivedDbmv: 40 - value(spanLossDb(p750, frequencyMhz, lengthM)) - wrongDb(frequencyMhz),
  }));
const check = (lengthM: number, wrongDb: (frequencyMhz: number) => number = () => 0, ambientC = 20) =>
  value(spanCheck(span, ambientC, readings(lengthM, wrongDb)));

describe('spanCheck', () => {
  it('finds a span as it was entered plausible', () => {
    const found = check(400, (mhz) => 0.2 * Math.sin(mhz));
    expect(found).toMatchObject({ finding: 'plausible', isUneven: false });
    expect(found.asIfLengthM).toBeCloseTo(400, -1);
  });
  it('finds more and less of the same cable, and how much', () => {
    expect(check(450)).toMatchObject({ finding: 'longer' });
    expect(check(450).asIfLengthM).toBeCloseTo(450, 6);
    expect(check(350).finding).toBe('shorter');
  });
  it('knows a flat loss and a slanted one from cable', () => {
    const flat = check(400, () => 3);
    expect(flat.finding).toBe('flat');
    expect([flat.excessLowDb, flat.excessHighDb]).toEqual([expect.closeTo(3, 9), expect.closeTo(3, 9)]);
    // Little at the bottom, far too much at the top would be cable; too much at the bottom is not.
    expect(check(400, (mhz) => 4 - mhz / 250).finding).toBe('slanted');
  });
  it('sees a ripple, whatever the length says', () => {
    const found = check(400, (mhz) => 1.6 * Math.sin((2 * Math.PI * mhz) / 31));
    expect(found).toMatchObject({ finding: 'plausible', isUneven: true });
    expect(found.unevenDb).toBeGreaterThan(3);
  });
  it('counts the temperature of the day', () => {
    // 25 degrees C warmer: 4.95 % more, which is not a longer cable.
    const warm = readings(400 * 1.0495, () => 0);
    expect(value(spanCheck(span, 45, warm)).asIfLengthM).toBeCloseTo(400, 6);
  });
  it('refuses too few carriers and what the cable is not known for', () => {
    expect(spanCheck(span, 20, readings(400, () => 0).slice(0, 4))).toMatchObject({ code: 'too-few' });
    const rg6 = value(cableNamed('RG-6'));
    const beyond = [{ frequencyMhz: 1200, sentDbmv: 1, receivedDbmv: 0 }];
    expect(spanCheck({ cable: rg6, lengthM: 30 }, 20, beyond)).toMatchObject({ code: 'outside-table' });
  });
  it('lets no NaN out', () => {
    const wild = fc.record({ frequencyMhz: anyNumber, sentDbmv: anyNumber, receivedDbmv: anyNumber });
    fc.assert(
      fc.property(fc.array(wild, { maxLength: 9 }), anyNumber, anyNumber, (some, lengthM, ambientC) => {
        expect(notFinite(spanCheck({ cable: p750, lengthM }, ambientC, some))).toEqual([]);
      }),
      { numRuns: 400 },
    );
  });
});
