import { expect, it } from 'vitest';
import { readSweepFile } from '../../../core/files/read-sweep-file.ts';
import { responseAsFile, sweepAsFile } from '../../../renderer/state/sweep-as-file.ts';

const output = {
  fileName: 'out.csv',
  text: '# 07 Mill Lane\nfrequency_mhz,level_dbmv\n57,36.5\n63,37\n69,37.5\n',
};
const input = { fileName: 'in.csv', text: '# forward input\nfrequency_mhz,level_dbmv\n69,12.5\n57,10\n' };

it('saves what lies between two sweeps as Touchstone, where both were read', () => {
  const made = responseAsFile(output, input);
  if (!made.ok) throw new Error(made.help);
  expect(made.value.fileName).toBe('out.s2p');
  expect(made.value.text).toMatch(/^! 07 Mill Lane\n! input: forward input\n/);
  const read = readSweepFile(made.value.text, 'out.s2p');
  const rows = read.ok ? read.value.rows.map((row) => [row.frequencyMhz, row.levelDbmv?.toFixed(3)]) : [];
  expect(rows).toEqual([
    [57, '26.500'],
    [69, '25.000'],
  ]);
});

it('saves no response of sweeps that share no frequency', () => {
  const other = { fileName: 'in.csv', text: 'frequency_mhz,level_dbmv\n500,1\n' };
  expect(responseAsFile(output, other)).toMatchObject({ ok: false, code: 'no-common' });
});

it('leaves our own form as the archive gives it, and names the others by their ending', () => {
  expect(sweepAsFile(output, 'own')).toEqual({ ok: true, value: output });
  const json = sweepAsFile(output, 'json');
  expect(json.ok && [json.value.fileName, JSON.parse(json.value.text).rows.length]).toEqual(['out.json', 3]);
});
