import fc from 'fast-check';
import { expect, it } from 'vitest';
import { readResponse } from '../../../../core/files/touchstone/response.ts';
import { writeTouchstone } from '../../../../core/files/touchstone/write-touchstone.ts';

it('writes nine numbers a point, and says what was not measured', () => {
  expect(writeTouchstone([{ frequencyMhz: 57, gainDb: -20 }], ['Ropewalk µ'])).toBe(
    '! Ropewalk\n! Only the magnitude of S21 was measured; S11, S12, S22 and all angles are written as 0.\n# MHz S MA R 75\n! freq S11 S21 S12 S22, each magnitude and angle\n57 0 0 0.1 0 0 0 0 0\n',
  );
});

it('refuses what is no number and what does not rise', () => {
  expect(() => writeTouchstone([{ frequencyMhz: 57, gainDb: Number.NaN }], [])).toThrow(RangeError);
  expect(() =>
    writeTouchstone(
      [
        { frequencyMhz: 57, gainDb: 0 },
        { frequencyMhz: 57, gainDb: 0 },
      ],
      [],
    ),
  ).toThrow(RangeError);
});

it('is read back to a millionth of a decibel', () => {
  const gains = fc.array(fc.double({ min: -90, max: 60, noNaN: true }), { minLength: 1, maxLength: 30 });
  fc.assert(
    fc.property(gains, (all) => {
      const points = all.map((gainDb, i) => ({ frequencyMhz: 5 + 6.25 * i, gainDb }));
      const read = readResponse(writeTouchstone(points, []), 'x.s2p');
      if (!read.ok) throw new Error(read.help);
      expect(read.value.points).toEqual(
        points.map(({ frequencyMhz, gainDb }) => ({ frequencyMhz, gainDb: expect.closeTo(gainDb, 6) })),
      );
    }),
  );
});
