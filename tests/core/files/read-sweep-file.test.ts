import { expect, it } from 'vitest';
import { readSweepFile } from '../../../core/files/read-sweep-file.ts';

it('reads levels of any dialect, and a response, and says which it is', () => {
  expect(readSweepFile('f_mhz\tdBuV\n57\t61\n', 'x')).toMatchObject({
    ok: true,
    value: { holds: 'levels', rows: [{ levelDbmv: 1 }] },
  });
  const response = readSweepFile('# MHz S DB R 75\n57 0 0 -3 0 0 0 0 0\n', 'x.s2p');
  expect(response).toMatchObject({
    ok: true,
    value: { holds: 'response', rows: [{ frequencyMhz: 57, levelDbmv: -3 }] },
  });
  expect(response.ok && response.value.notes[0]).toBe('S21 in dB is a response, not a level');
  expect(readSweepFile('x', 'x')).toMatchObject({ ok: false });
});
