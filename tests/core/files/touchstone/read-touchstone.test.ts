import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readTouchstone } from '../../../../core/files/touchstone/read-touchstone.ts';
import { refusalLine } from '../../../../core/result.ts';
import { root } from '../../../support/source-files.ts';

const read = (text: string, name = 'x.s2p') => {
  const file = readTouchstone(text, name);
  if (!file.ok) throw new Error(refusalLine(file));
  return file.value;
};
const refusalOf = (text: string, name = 'x.s2p') => {
  const file = readTouchstone(text, name);
  return file.ok ? 'read' : refusalLine(file);
};
const s21 = (text: string, name?: string) =>
  read(text, name).points.map(({ frequencyMhz, parameters }) => [frequencyMhz, parameters[2]?.db]);
const near = (...pairs: [number, number][]) => pairs.map(([f, db]) => [f, expect.closeTo(db, 9)]);
const db = (magnitude: number) => 20 * Math.log10(magnitude);

// IBIS Open Forum, Touchstone File Format Specification 2.0 (2009): the two-port example of version 1 with its defaults
// and noise data (2 and 22 GHz: S21 3.57 and 1.30), and the same in version 2 with [Two-Port Data Order].
const example =
  '!2-port network, S-parameter and noise data\n#\n! NETWORK PARAMETERS\n2 .95 -26 3.57 157 .04 76 .66 -14\n22 .60 -144 1.30 40 .14 40 .56 -85\n! NOISE PARAMETERS\n4 .7 .64 69 .38\n18 2.7 .46 -33 .40\n';
const version2 =
  '[Version] 2.0\n#\n[Number of Ports] 2\n[Two-Port Data Order] 21_12\n[Number of Frequencies] 2\n[Number of Noise Frequencies] 2\n[Reference] 50 25.0\n[Network Data]\n2 .95 -26 3.57 157 .04 76 .66 -14\n22 .60 -144 1.30 40 .14 40 .56 -85\n[Noise Data]\n4 .7 .64 69 19\n18 2.7 .46 -33 20\n[End]\n';

describe('the worked examples of the standard', () => {
  it('version 1: defaults, and noise where the frequency falls back', () => {
    const { options, noiseCount, ports } = read(example);
    expect([
      options.unit,
      options.unitIsTold,
      options.parameter,
      options.format,
      options.referenceOhm,
    ]).toEqual(['GHz', false, 'S', 'MA', 50]);
    expect([ports, noiseCount]).toEqual([2, 2]);
    expect(s21(example)).toEqual(near([2000, db(3.57)], [22000, db(1.3)]));
  });

  it('version 2: order told, references by port, noise in a section', () => {
    const { version, noiseCount, referencesOhm } = read(version2, 'x.ts');
    expect([version, noiseCount, referencesOhm]).toEqual(['2', 2, [50, 25]]);
    expect(s21(version2, 'x.ts')).toEqual(near([2000, db(3.57)], [22000, db(1.3)]));
    expect(s21(version2.replace('21_12', '12_21'), 'x.ts')).toEqual(
      near([2000, db(0.04)], [22000, db(0.14)]),
    );
  });

  it('version 2: half a matrix', () => {
    const lower =
      '[Version] 2.0\n# MHz S MA R 75\n[Number of Ports] 3\n[Number of Frequencies] 1\n[Matrix Format] Lower\n[Network Data]\n5 .11 0\n.21 0 .22 0\n.31 0 .32 0 .33 0\n[End]\n';
    const [point] = read(lower, 'x.ts').points;
    expect(point?.parameters.map((one) => Math.round(10 ** ((one.db ?? 0) / 20) * 100))).toEqual([
      11, 21, 31, 21, 22, 32, 31, 32, 33,
    ]);
  });
});

// One for each defect that readers of such files were reported for.
describe('what real files have', () => {
  const row = '57 0 0 -3 0 -40 0 0 0';
  it.each([
    ['no blank behind #', `#MHz S DB R 75\n${row}\n`],
    ['blanks before #, and every case', `\t # mHZ   s  dB r 75.0 ! told\n${row}\n`],
    ['another order', `# R 75 DB S MHz\n${row}\n`],
    [
      'comments before, behind and at the end',
      `! a\n# MHz S DB R 75\n! 58 0 0 0 0 0 0 0 0\n${row} ! 1 2 3\n!\n`,
    ],
    ['tabs and CR LF', `# MHz\tS\tDB\tR\t75\r\n${row.replaceAll(' ', '\t')}\r\n`],
    ['wrapped lines', '# MHz S DB R 75\n57 0 0 -3 0\n  -40 0 0 0\n'],
    ['a byte order mark', `\uFEFF! a\n# MHz S DB R 75\n${row}\n`],
    ['a letter in a comment that is not UTF-8', `! \uFFFD\n# MHz S DB R 75\n${row}`],
    ['a second option line, which does not count', `# MHz S DB R 75\n# GHz Z MA R 1\n${row}\n`],
    ['exponents of old programs', '# MHz S DB R 75\n5.7D+01 0 0 -3.0E+0 0 -40 0 0 0\n'],
    [
      'information of version 2',
      `[Version] 2.0\n# MHz S DB R 75\n[Number of Ports] 2\n[Two-Port Data Order] 21_12\n[Number of Frequencies] 1\n[Begin Information]\n[Anything] 5\n1 2 3\n[End Information]\n[Network Data]\n${row}\n[End]\nend of file\n`,
    ],
  ])('%s', (_what, text) => {
    expect(s21(text)).toEqual(near([57, -3]));
  });

  it.each([
    ['nothing', '', 'x.s2p: there is no network data in this file'],
    ['a word among the numbers', `# MHz S DB\n57 0 0 x 0 0 0 0 0\n`, 'x.s2p, line 2: "x" is not a number'],
    [
      'an option that is none',
      `# MHz S QQ\n${row}\n`,
      'x.s2p, line 1: "QQ" is no option; an option line reads # MHz S DB R 75',
    ],
    [
      'a reference that is none',
      `# MHz S DB R x\n`,
      'x.s2p, line 1: "R x" is no resistance; write it as in # MHz S DB R 75',
    ],
    [
      'frequencies that fall',
      `# MHz S DB\n${row}\n57 0 0 -3 0 -40 0 0 0\n`,
      'x.s2p, line 3: 57 MHz does not rise above the point before; sort the points by frequency',
    ],
    [
      'a point cut off',
      `# MHz S DB\n${row}\n63 0 0 -3\n`,
      'x.s2p, line 3: 4 of 9 numbers: the point is cut off',
    ],
    [
      'a point too long',
      `# MHz S DB\n${row} 1\n`,
      'x.s2p, line 2: 10 numbers, where a point of 2 ports has 9',
    ],
    [
      'fewer points than told',
      version2.replace('Frequencies] 2', 'Frequencies] 3'),
      'x.s2p: 2 points, where [Number of Frequencies] says 3',
    ],
    [
      'no order in version 2',
      version2.replace(/\[Two.*\n/, ''),
      'x.s2p: two ports in version 2 need [Two-Port Data Order]; which of S12 and S21 comes first is not certain',
    ],
    [
      'no option line',
      `${row}\n`,
      'x.s2p: there is no option line, so that unit and form of the numbers are not certain; add # MHz S DB R 75 or what holds',
    ],
    [
      'two units',
      `# MHz S DB GHz\n${row}\n`,
      'x.s2p, line 1: "GHz" contradicts the option before it; keep the one that holds',
    ],
    [
      'a keyword that is none',
      version2.replace('[Number of Freq', '[Ports Swapped] yes\n[Number of Freq'),
      'x.s2p, line 5: [ports swapped] is no keyword of version 2',
    ],
    [
      'a keyword in version 1',
      `# MHz S DB R 75\n[Reference] 50 50\n${row}\n`,
      'x.s2p, line 2: version 1 has no keywords; a file of version 2 begins with [Version] 2.0',
    ],
    ['noise of another width', `${example}5 1 2 3\n`, 'x.s2p, line 9: noise data has 5 numbers a row, not 4'],
  ])('%s is refused', (_what, text, line) => {
    expect(refusalOf(text)).toBe(line);
  });

  it('ports that nothing tells are refused', () => {
    expect(refusalOf(example, 'x.txt')).toBe(
      'x.txt: nothing tells the number of ports; name the file .s1p or .s2p',
    );
  });
});

const folder = join(root, '../shared/touchstone');
describe.skipIf(!existsSync(folder))('real files (skipped where ../shared/touchstone is absent)', () => {
  // By eye, from the files themselves.
  it.each<[string, number, number, number, string, number]>([
    ['08-lowpass.s2p', 2, 58, 0, 'S', 50],
    ['09-amplifier.s2p', 2, 130, 0, 'S', 50],
    ['10-transistor-noise.s2p', 2, -1, -1, 'S', 50],
    ['11-75ohm-4port.s4p', 4, -1, 0, 'S', 75],
    ['12-leading-blanks-option.s2p', 2, 1, 0, 'S', 50],
    ['13-lowercase-irregular.s2p', 2, 4, 0, 'S', 50],
    ['14-latin1-no-reference.s2p', 2, 1, 0, 'S', 50],
    ['15-defaults-noise.s2p', 2, 2, 2, 'S', 50],
    ['16-z-parameters-75.s1p', 1, 5, 0, 'Z', 75],
    ['17-bom.s2p', 2, 1, 0, 'S', 50],
  ])('%s', (name, ports, points, noise, parameter, ohm) => {
    const file = read(readFileSync(join(folder, name), 'utf8'), name);
    expect([file.ports, file.options.parameter, file.options.referenceOhm]).toEqual([ports, parameter, ohm]);
    if (points >= 0) expect(file.points).toHaveLength(points);
    if (noise >= 0) expect(file.noiseCount).toBe(noise);
    else expect(file.noiseCount).toBeGreaterThan(10);
  });
});
