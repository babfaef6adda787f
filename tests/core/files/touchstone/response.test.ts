import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  isTouchstone,
  readPlugInResponse,
  readResponse,
  rowsOfResponse,
} from '../../../../core/files/touchstone/response.ts';
import { root } from '../../../support/source-files.ts';

it('is S21 in dB of two ports, S11 of one', () => {
  const two = readResponse('# MHz S DB R 75\n0 0 0 -3 0 -40 0 0 0\n57 0 0 -4 0 -40 0 0 0\n', 'x.s2p');
  if (!two.ok) throw new Error(two.help);
  expect(two.value.quantity).toBe('S21');
  expect(rowsOfResponse(two.value)).toEqual([{ frequencyMhz: 57, levelDbmv: -4 }]);
  expect(two.value.notes).toEqual(['Touchstone 1: 2 points in MHz, 0 to 57 MHz, 75 and 75 ohm']);
  expect(readResponse('# MHz S DB R 75\n57 -20 0\n', 'x.s1p')).toMatchObject({
    ok: true,
    value: { quantity: 'S11' },
  });
});

it('tells a span that is none, a unit that nobody told, and another reference', () => {
  const far = readResponse('# S DB\n57 0 0 -4 0 -40 0 0 0\n', 'x.s2p');
  expect(far.ok && far.value.notes.join('; ')).toMatch(
    /in GHz, which holds where the option line names no unit.*check the unit.*not 75 ohm/,
  );
});

it.each([
  ['# MHz Z MA R 75\n57 1 0\n', 'x.s1p', /holds Z parameters/],
  ['# MHz S MA R 75\n57 1 0 0 0 0 0 0 0\n', 'x.s2p', /S21 is 0 here/],
])('refuses %j', (text, name, help) => {
  const response = readResponse(text, name);
  expect(response.ok ? '' : response.help).toMatch(help);
});

it('knows a Touchstone file by its ending or its option line, and takes no CSV for one', () => {
  expect(isTouchstone('', 'A.S2P')).toBe(true);
  expect(isTouchstone('! a\n\n#MHz S DB R 75\n', 'a.txt')).toBe(true);
  for (const text of ['# MHz S\n', '# levels in dBmV\nfrequency_mhz,level_dbmv\n', '# S is here\n'])
    expect(isTouchstone(text, 'a.txt')).toBe(false);
});

const folder = join(root, '../shared/touchstone');
describe.skipIf(!existsSync(folder))('real files (skipped where ../shared/touchstone is absent)', () => {
  const help = (name: string) => {
    const response = readResponse(readFileSync(join(folder, name), 'utf8'), name);
    return response.ok ? response.value.notes.join('; ') : response.help;
  };
  it('Z parameters, four ports and noise are told clearly', () => {
    expect(help('16-z-parameters-75.s1p')).toMatch(/Z parameters/);
    expect(help('11-75ohm-4port.s4p')).toMatch(/4 ports/);
    expect(help('15-defaults-noise.s2p')).toMatch(/2 rows of noise data were passed over/);
    expect(help('13-lowercase-irregular.s2p')).toMatch(/span is none of a cable network/);
  });
});

// A resistance of 100 ohm in series: S11 = 1/2 and S21 = 1/2 between 50 ohm, S21 = 150/250 between 75 ohm.
it('renormalises a plug-in that was measured in 50 ohm, and says so', () => {
  const read = readPlugInResponse('# MHz S MA R 50\n100 0.5 0 0.5 0 0.5 0 0.5 0\n', 'pad.s2p');
  expect(read.ok && read.value.points[0]?.gainDb).toBeCloseTo(20 * Math.log10(0.6), 12);
  expect(read.ok && [read.value.referenceOhm, read.value.notes.slice(1)]).toEqual([
    75,
    ['S21 was measured in 50 ohm and is renormalised to 75 ohm with all four S parameters'],
  ]);
  const own = '# MHz S MA R 75\n100 0.1 0 0.5 0 0.5 0 0.1 0\n';
  expect(readPlugInResponse(own, 'pad.s2p')).toEqual(readResponse(own, 'pad.s2p'));
});
