import { expect, it } from 'vitest';
import { readOptionLine } from '../../../../core/files/touchstone/option-line.ts';

// IBIS Open Forum, Touchstone File Format Specification 2.0, "Option Line": order and case are free, defaults GHz S MA R 50.
it.each([
  ['#', { unit: 'GHz', unitIsTold: false, parameter: 'S', format: 'MA', referenceOhm: 50 }],
  ['#hz z ri r 75', { unit: 'Hz', unitIsTold: true, parameter: 'Z', format: 'RI', referenceOhm: 75 }],
  ['  #  DB R=75 kHz', { unit: 'kHz', unitIsTold: true, parameter: 'S', format: 'DB', referenceOhm: 75 }],
])('%s', (line, value) => {
  expect(readOptionLine(line, 'x')).toEqual({ ok: true, value });
});

it.each(['# MHz S DB R', '# MHz S DB R 0', '# MHz S DB R -1', '# THz'])('refuses %s', (line) => {
  expect(readOptionLine(line, 'here')).toMatchObject({ ok: false, code: 'bad-option', where: 'here' });
});
