import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { convert } from '../../electron/cli/verbs/convert.ts';
import { curve } from '../../electron/cli/verbs/curve.ts';
import { fit } from '../../electron/cli/verbs/fit.ts';
import { inspect } from '../../electron/cli/verbs/inspect.ts';
import { propose } from '../../electron/cli/verbs/propose.ts';
import { runInside } from '../support/command-line.ts';
import { root } from '../support/source-files.ts';

const folder = mkdtempSync(join(tmpdir(), 'tiltwright-files-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const fileOf = (name: string, content: string | Uint8Array): string => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};
const run = (...args: string[]) => runInside([fit, inspect, propose, convert, curve], args);
const station = join(root, 'sample-sweeps/07-mill-lane.station.json');

const paste = 'Downstream\nFrequency\tPower\n100 MHz\t10 dBmV\n200 MHz\t12 dBmV\n300 MHz\t14 dBmV\n';
const twoPort = '# MHz S DB R 75\n54 0 0 -7.1 0 0 0 0 0\n462 0 0 -4 0 0 0 0 0\n870 0 0 -1 0 0 0 0 0\n';

describe('one reader for every verb', () => {
  it.each([
    ['a paste', paste],
    ['UTF-16, little endian', Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from(paste, 'utf16le')])],
    [
      'UTF-16, big endian',
      Buffer.concat([Buffer.from([0xfe, 0xff]), Buffer.from(paste, 'utf16le').swap16()]),
    ],
  ])('fit takes %s', async (_what, content) => {
    const ran = await run('fit', fileOf(`p${Math.abs(content.length)}.txt`, content), '--json');
    expect(JSON.parse(ran.stdout)).toMatchObject({ count: 3, lowDbmv: 10, highDbmv: 14 });
  });

  it('a response is fitted in dB and said to be one', async () => {
    const file = fileOf('eq.s2p', twoPort);
    expect(JSON.parse((await run('fit', file, '--json')).stdout)).toMatchObject({
      count: 3,
      lowMhz: 54,
      highMhz: 870,
    });
    const ran = await run('fit', file);
    expect(ran.stdout).toMatch(
      /3 points[\s\S]*Gain +−?-?7\.1 +dB[\s\S]*S21 in dB is a response, not a level/,
    );
    expect((await run('inspect', file)).stdout).toContain('S21 in dB is a response');
    expect(await run('propose', file, '--station', station)).toMatchObject({
      exitCode: 2,
      stderr: expect.stringMatching(/holds a response in dB/),
    });
  });

  it('what is not certain names the option that makes it so', async () => {
    const bare = fileOf('bare.txt', 'freq  pow\n100000000  10\n200000000  12\n300000000  14\n');
    const refused = await run('fit', bare);
    expect([refused.exitCode, refused.stderr]).toEqual([2, expect.stringContaining('--level-unit')]);
    expect((await run('fit', bare, '--level-unit', 'dBmV')).exitCode).toBe(0);
    // 10, 12 and 14 mV are 20.0, 21.6 and 22.9 dBmV, 20 log10 of them by hand; read as dBmV they were 10 to 14.
    const inMv = await run('fit', bare, '--level-unit', 'mV', '--json');
    expect(JSON.parse(inMv.stdout)).toMatchObject({ count: 3, lowDbmv: expect.closeTo(20.04, 1) });
    const in50 = await run(
      'fit',
      fileOf('50.csv', 'f_mhz,level\n57,-9\n63,-9\n69,-9\n'),
      '--level-unit',
      'dBm50',
    );
    expect(in50.stdout).toMatch(/38\.0.*dBmV/);
    const two = fileOf(
      'two.txt',
      `${paste}\nThe other leg\nFrequency\tPower\n100 MHz\t40 dBmV\n200 MHz\t41 dBmV\n`,
    );
    expect((await run('inspect', two)).stderr).toMatch(
      /table 1 "Downstream".*table 2 "The other leg".*--table N/,
    );
    expect(JSON.parse((await run('fit', two, '--table', '2', '--json')).stdout)).toMatchObject({
      lowMhz: 100,
      highMhz: 200,
    });
  });
});

describe('convert', () => {
  it('writes each kind of file, never over one', async () => {
    const from = fileOf('from.txt', paste);
    const out = (name: string) => join(folder, name);
    expect((await run('convert', from, '--to', 'spreadsheet', '--out', out('a.csv'))).exitCode).toBe(0);
    expect(readFileSync(out('a.csv'), 'utf8')).toBe(
      '\uFEFFfrequency_mhz;level_dbmv\r\n100;10\r\n200;12\r\n300;14\r\n',
    );
    expect(await run('convert', from, '--to', 'own', '--out', out('a.csv'))).toMatchObject({ exitCode: 2 });
    expect((await run('convert', from, '--to', 's2p', '--out', out('b.s2p'))).stderr).toContain(
      '--input-sweep',
    );
    const input = fileOf('input.csv', 'frequency_mhz,level_dbmv\n100,-10\n300,-6\n');
    const json = await run(
      'convert',
      from,
      '--to',
      's2p',
      '--input-sweep',
      input,
      '--out',
      out('b.s2p'),
      '--json',
    );
    expect(JSON.parse(json.stdout)).toMatchObject({ format: 's2p' });
    // By hand: 10 - -10 and 14 - -6 are 20 dB, ten times the voltage.
    expect(readFileSync(out('b.s2p'), 'utf8')).toContain('\n100 0 0 10 0 0 0 0 0\n300 0 0 10 0 0 0 0 0\n');
    expect((await run('convert', out('b.s2p'), '--to', 's2p', '--out', out('c.s2p'))).exitCode).toBe(0);
    expect((await run('convert', out('b.s2p'), '--to', 'own', '--out', out('c.csv'))).exitCode).toBe(2);
  });
});

describe('curve', () => {
  it('puts a measured loss into a station file, which proposes with it', async () => {
    const out = join(folder, 'station.json');
    const file = fileOf('eq8.s2p', twoPort);
    const ran = await run(
      'curve',
      file,
      '--station',
      station,
      '--position',
      'input equalizer',
      '--value',
      '8',
      '--out',
      out,
    );
    expect(ran).toMatchObject({ exitCode: 0, stderr: '' });
    const position = JSON.parse(readFileSync(out, 'utf8')).positions.find(
      (one: { name: string }) => one.name === 'input equalizer',
    );
    expect(position.curves).toEqual({
      8: [
        [54, 7.1],
        [462, 4],
        [870, 1],
      ],
    });
    const sweep = join(root, 'sample-sweeps/07-mill-lane.as-found.csv');
    expect((await run('propose', sweep, '--station', out)).exitCode).toBe(0);
  });

  it('refuses what is no plug-in of the station', async () => {
    const args = ['--station', station, '--out', join(folder, 'never.json')];
    const file = fileOf('pad.s2p', twoPort);
    expect(await run('curve', file, ...args, '--position', 'attic', '--value', '8')).toMatchObject({
      exitCode: 2,
    });
    const amplifier = fileOf('amp.s2p', '# MHz S DB R 75\n54 0 0 20 0 0 0 0 0\n');
    expect(
      (await run('curve', amplifier, ...args, '--position', 'input pad', '--value', '1')).stderr,
    ).toMatch(/is a gain of 20\.0 dB/);
  });
});
