import { expect, it } from 'vitest';
import { cableTemperatures, SUN_OFFSET_C } from '../../../core/season/sun.ts';

// The size of the offset is from memory; that only aerial cable hangs in the sun is not.
it('warms an aerial cable at the hot end only', () => {
  const air = { coldC: -20, hotC: 35 };
  expect(cableTemperatures(air, 'aerial', 12)).toEqual({ coldC: -20, hotC: 47 });
  expect(cableTemperatures(air, 'aerial')).toEqual({ coldC: -20, hotC: 35 + SUN_OFFSET_C });
  expect(cableTemperatures(air, 'buried', 12)).toEqual(air);
  expect(cableTemperatures(air, undefined, 12)).toEqual(air);
  expect(() => cableTemperatures(air, 'aerial', -1)).toThrow(RangeError);
});
