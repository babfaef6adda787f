import fc from 'fast-check';
import { expect, it } from 'vitest';
import { CABLES } from '../../../core/coax/cables.ts';
import { cableNamed } from '../../../core/coax/loss.ts';
import { lengthForLossM } from '../../../core/coax/span.ts';
import { spanFigures } from '../../../core/coax/span-figures.ts';
import { PER_DEGREE_F_OTHER } from '../../../core/coax/temperature.ts';
import example from '../../data/published/cable-tilt-example.json' with { type: 'json' };
import { anyNumber } from '../../support/any-number.ts';
import { notFinite } from '../../support/not-finite.ts';

const value = <T>(told: { ok: true; value: T } | { ok: false; help: string }): T => {
  if (!told.ok) throw new Error(told.help);
  return told.value;
};
const p750 = value(cableNamed('.750'));
const usual = { cable: p750, lowMhz: 54, highMhz: 870, coldC: -30, nowC: 20, hotC: 45 };

// cabl.com "CATV Formulas", worked example: 20 dB of .750 from 54 to 450 MHz tilt by 13.4 dB.
it('tilts as the published example', () => {
  const lengthM = value(lengthForLossM(p750, example.highMhz, example.cableLossDb));
  const figures = value(spanFigures({ ...usual, lengthM, lowMhz: example.lowMhz, highMhz: example.highMhz }));
  expect(figures.lossHighDb).toBeCloseTo(example.cableLossDb, 9);
  expect(figures.tiltDb).toBeCloseTo(example.tiltDb, 0);
  expect(figures.undoesCableDb).toBeCloseTo(example.cableLossDb, 9);
});

// "Automatic Gain Control Part 01", Transmit Magazine, 11 April 2016: 90 dB of cable, 100 F colder, 9 dB less at 0.1 % per F.
it('loses less in the cold, by the part that was chosen', () => {
  const lengthM = value(lengthForLossM(p750, 870, 90));
  const figures = value(
    spanFigures({ ...usual, lengthM, perDegreeF: PER_DEGREE_F_OTHER, coldC: 20 - 100 / 1.8 }),
  );
  const [cold, now] = figures.days;
  expect((now?.lossHighDb ?? 0) - (cold?.lossHighDb ?? 0)).toBeCloseTo(9, 9);
  expect(cold?.tiltDb).toBeCloseTo(figures.tiltDb * 0.9, 9);
});

it('needs less of an equalizer where the signal is sent in with rise to spare, and none where that is too much', () => {
  const flat = value(spanFigures({ ...usual, lengthM: 400 }));
  const risen = value(spanFigures({ ...usual, lengthM: 400, riseToSpareDb: 6 }));
  if (!('valueDb' in flat.equalizer) || !('valueDb' in risen.equalizer)) throw new Error('none');
  expect(flat.equalizer.takeAwayDb - risen.equalizer.takeAwayDb).toBeCloseTo(6, 9);
  const none = value(spanFigures({ ...usual, lengthM: 20, riseToSpareDb: 6 }));
  expect(none.equalizer).toMatchObject({ ok: false, code: 'too-little-tilt' });
  expect(none.undoesCableDb).toBeNull();
});

it('needs more of it on a hot day than at 20 degrees', () => {
  const cool = value(spanFigures({ ...usual, lengthM: 400 })).equalizer;
  const warm = value(spanFigures({ ...usual, lengthM: 400, nowC: 45 })).equalizer;
  if (!('valueDb' in cool) || !('valueDb' in warm)) throw new Error('none');
  // 0.0011 x 1.8 x 25 = 4.95 %
  expect(warm.valueDb / cool.valueDb).toBeCloseTo(1.0495, 6);
});

it('refuses what is none, and no NaN leaves it', () => {
  expect(spanFigures({ ...usual, lengthM: -1 })).toMatchObject({ ok: false, where: 'length -1 m' });
  expect(spanFigures({ ...usual, lengthM: 9, lowMhz: 900 })).toMatchObject({ code: 'low-above-high' });
  fc.assert(
    fc.property(
      fc.constantFrom(...CABLES),
      fc.array(anyNumber, { minLength: 6, maxLength: 6 }),
      (cable, [lengthM = 0, lowMhz = 0, highMhz = 0, coldC = 0, nowC = 0, riseToSpareDb = 0]) => {
        const told = spanFigures({ cable, lengthM, lowMhz, highMhz, coldC, nowC, hotC: 45, riseToSpareDb });
        expect(notFinite(told)).toEqual([]);
      },
    ),
    { numRuns: 500 },
  );
});
