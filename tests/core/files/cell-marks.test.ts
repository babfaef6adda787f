import { expect, it } from 'vitest';
import { unheld, withoutVerdict } from '../../../core/files/cell-marks.ts';

it('takes signs and words of how good a level is from beside it', () => {
  expect(withoutVerdict('36.1 dBmV (OK)')).toEqual({ bare: '36.1 dBmV', mark: '(OK)' });
  expect(withoutVerdict('✔ 36.1')).toEqual({ bare: '36.1', mark: '✔' });
  expect(withoutVerdict('🔴 -18.2 dBmV')).toEqual({ bare: '-18.2 dBmV', mark: '🔴' });
  expect(withoutVerdict('⚠️ 26.3 dBmV [FAIL]')).toEqual({ bare: '26.3 dBmV', mark: '⚠️ [FAIL]' });
  expect(withoutVerdict('36.1 ↓')).toEqual({ bare: '36.1', mark: '↓' });
});

it('leaves alone what may be a sign, a digit, another level, or says how the level was got', () => {
  for (const cell of [
    '▼ 3.1',
    '↓3.1',
    '➖ 3.1',
    '3️⃣ 6.1',
    '36.1 (35.9)',
    '36.1 dBmV (max)',
    '36.1 dBmV ?',
    '36.1',
  ])
    expect(withoutVerdict(cell)).toBeNull();
  expect(withoutVerdict('(OK)')).toBeNull();
  expect(withoutVerdict(`36.1 ${'x'.repeat(60)} (OK)`)).toBeNull();
});

it('reads what a formula holds, and computes none', () => {
  expect(['="57"', '="57,25"', '=-3.1', '="57 MHz"', '=""'].map(unheld)).toEqual([
    '57',
    '57,25',
    '-3.1',
    '57 MHz',
    '',
  ]);
  for (const cell of ['=36+0.1', '=C2-48.75', '="36"&".1"', '=36-1', '57', ''])
    expect(unheld(cell)).toBe(cell);
});
