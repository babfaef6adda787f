import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CABLES } from '../../../core/coax/cables.ts';
import { equalizerForSpan, equalizerForTiltDb } from '../../../core/coax/equalizer.ts';
import { cableNamed } from '../../../core/coax/loss.ts';
import { spanLossDb } from '../../../core/coax/span.ts';
import example from '../../data/published/cable-tilt-example.json' with { type: 'json' };
import { anyNumber } from '../../support/any-number.ts';

const value = <T>(told: { ok: true; value: T } | { ok: false; help: string }): T => {
  if (!told.ok) throw new Error(told.help);
  return told.value;
};
const p750 = value(cableNamed('.750'));

// cabl.com "CATV Formulas": EQ = tilt / (1 - ratio); its example's tilt of 13.4 dB comes from 20 dB of cable.
it('needs as many dB of cable as the published example has', () => {
  expect(value(equalizerForTiltDb(example.tiltDb, example.lossRatio))).toBeCloseTo(example.cableLossDb, 0);
});

describe('for a span', () => {
  const band = { lowMhz: 54, highMhz: 870, topMhz: 870 };
  const span = { cable: p750, lengthM: 400 };

  // Contract, section 2: an equalizer takes value * (1 - sqrt(f/top)), worked here at both ends.
  it('makes both ends equal again behind cable and equalizer', () => {
    const { valueDb } = value(equalizerForSpan(span, band));
    const behind = (mhz: number) => value(spanLossDb(p750, mhz, 400)) + valueDb * (1 - Math.sqrt(mhz / 870));
    expect(behind(54)).toBeCloseTo(behind(870), 9);
  });

  it('is a little more than the loss of foam cable, because its slope is flatter', () => {
    const { valueDb } = value(equalizerForSpan(span, band));
    const lossDb = value(spanLossDb(p750, 870, 400));
    expect(valueDb).toBeGreaterThan(lossDb);
    expect(valueDb).toBeLessThan(1.06 * lossDb);
  });

  it('is less by what the sending end already rises', () => {
    const flat = value(equalizerForSpan(span, band));
    const tilted = value(equalizerForSpan(span, band, 5));
    expect(flat.takeAwayDb - tilted.takeAwayDb).toBeCloseTo(5, 9);
    expect(tilted.spanTiltDb).toBe(flat.spanTiltDb);
  });

  it('refuses a rise beyond the tilt, and a top frequency inside the band', () => {
    expect(equalizerForSpan(span, band, 40)).toMatchObject({ ok: false, code: 'too-little-tilt' });
    expect(equalizerForSpan(span, { ...band, topMhz: 750 })).toMatchObject({
      ok: false,
      code: 'out-of-range',
    });
    expect(equalizerForTiltDb(10, 1)).toMatchObject({ ok: false, code: 'out-of-range' });
    expect(equalizerForTiltDb(-1, 0.3)).toMatchObject({ ok: false, code: 'out-of-range' });
  });
});

it('is finite or refused, whatever it is asked', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...CABLES),
      fc.array(anyNumber, { minLength: 5, maxLength: 5 }),
      (cable, [a = 0, b = 0, c = 0, d = 0, e = 0]) => {
        const told = equalizerForSpan({ cable, lengthM: a }, { lowMhz: b, highMhz: c, topMhz: d }, e);
        const plain = equalizerForTiltDb(a, b);
        return (
          (!told.ok || Number.isFinite(told.value.valueDb)) && (!plain.ok || Number.isFinite(plain.value))
        );
      },
    ),
  );
});
