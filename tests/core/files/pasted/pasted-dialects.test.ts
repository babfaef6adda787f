import { describe, expect, it } from 'vitest';
import { readSweepCsv } from '../../../../core/files/sweep-csv.ts';
import type { LevelRow } from '../../../../core/line/level-row.ts';
import { refusalLine } from '../../../../core/result.ts';

const rowsOf = (text: string): LevelRow[] => {
  const read = readSweepCsv(text, 'paste');
  if (!read.ok) throw new Error(refusalLine(read));
  return read.value.rows;
};
const pairsOf = (text: string) => rowsOf(text).map((row) => [row.frequencyMhz, row.levelDbmv]);
const refusalOf = (text: string): string => {
  const read = readSweepCsv(text, 'paste');
  if (read.ok) throw new Error(`read as ${JSON.stringify(read.value.rows)}`);
  return refusalLine(read);
};
const same = [
  [57, 36.5],
  [63, -1.5],
];

// The dialects are of kinds seen in the wild; the wordings are common practice, no published source.
describe('what people paste', () => {
  it.each([
    [
      'titles above and a foot below',
      'Station report\n\nDownstream Channels\nFreq (MHz)\tLevel (dBmV)\n57\t36.5\n63\t-1.5\n\nTotal: two channels\n',
    ],
    [
      'titles padded by a spreadsheet',
      'Downstream,,\nChannel,Frequency (MHz),Level (dBmV)\n1,57,36.5\n2,63,-1.5\n',
    ],
    [
      'an empty first heading',
      '\tCID\tFreq\tPower\tSNR\nDownstream 1\t3\t57.00 MHz\t36.50 dBmV\t36.61 dB\nDownstream 2\t4\t63.00 MHz\t-1.50 dBmV\t37 dB\n',
    ],
    [
      'an empty first heading whose tab was lost',
      'CID\tFreq\tPower\tSNR\nDownstream 1\t3\t57.00 MHz\t36.50 dBmV\t36.61 dB\nDownstream 2\t4\t63.00 MHz\t-1.50 dBmV\t37 dB\n',
    ],
    [
      'bars of Markdown',
      '| Ch | Frequency | Power |\n|---:|:---|---|\n| 1 | 57000000 Hz | 36.5 dBmV |\n| 2 | 63000000 Hz | -1.5 dBmV |\n',
    ],
    ['bars without an outer one', 'Frequency (MHz) | Power (dBmV)\n--- | ---\n57 | 36.5\n63 | -1.5\n'],
    [
      'a drawn box',
      '+------+-------+\n| MHz  | dBmV  |\n+------+-------+\n| 57   | 36.5  |\n| 63   | -1.5  |\n+------+-------+\n',
    ],
    [
      'a box of line characters',
      '┌──────┬───────┐\n│ MHz  │ dBmV  │\n├──────┼───────┤\n│ 57   │ 36.5  │\n│ 63   │ -1.5  │\n└──────┴───────┘\n',
    ],
    [
      'columns aligned with blanks',
      'chid       freq  level_dbmv     mod  snr\n   1   57000000        36.5  256qam   36\n   2   63000000        -1.5  256qam   37\n',
    ],
    [
      'aligned columns with an empty cell',
      'chid       freq  level_dbmv     mod  snr\n   1   57000000        36.5           36\n       63000000        -1.5  256qam   37\n',
    ],
    ['single blanks', 'frequency_mhz level_dbmv\n57 36.5\n63 -1.5\n'],
    [
      'single blanks and units in the cells',
      'Channel Frequency Power SNR\n1 57 MHz 36.5 dBmV 36 dB\n2 63 MHz -1.5 dBmV 37 dB\n',
    ],
    [
      'single blanks and headings of two words',
      'Channel ID Lock Status Center Frequency Power Level SNR/MER\n1 Locked 57 MHz 36.5 dBmV 36 dB\n2 Locked 63 MHz -1.5 dBmV 37 dB\n',
    ],
    [
      'units in a line of their own',
      'Channel\tFrequency\tPower\tSNR\n\t(MHz)\t(dBmV)\t(dB)\n1\t57\t36.5\t36\n2\t63\t-1.5\t37\n',
    ],
    [
      'units in a title',
      'Downstream levels in dBmV, frequencies in MHz\nChannel;Frequency;Level\n1;57;36.5\n2;63;-1.5\n',
    ],
    ['units in a comment', '# levels in dBuV\nfrequency_mhz,level\n57,96.5\n63,58.5\n'],
    ['a header in a comment', '# frequency_mhz level_dbmv\n57 36.5\n63 -1.5\n'],
    ['a number sign for a heading', '#\tFrequency (MHz)\tLevel (dBmV)\n1\t57\t36.5\n2\t63\t-1.5\n'],
    ['no header, units in the cells', '57 MHz\t36.5 dBmV\t38 dB\n63 MHz\t-1.5 dBmV\t38 dB\n'],
    ['no header, blanks, units in the cells', '57 MHz  36.5 dBmV\n63 MHz  -1.5 dBmV\n'],
    [
      'one line for each quantity',
      'Downstream\nChannel ID\t1\t2\nFrequency\t57000000 Hz\t63000000 Hz\nSignal to Noise Ratio\t36 dB\t36 dB\nPower Level\t36.5 dBmV\t-1.5 dBmV\n',
    ],
    ['one line for each quantity, the unit in its name', 'Frequency (MHz);57;63\nPower (dBmV);36,5;-1,5\n'],
    [
      'one block for each channel',
      'Channel: 1\nFrequency: 57 MHz\nPower: 36.5 dBmV\n\nChannel: 2\nFrequency: 63 MHz\nPower: -1.5 dBmV\n',
    ],
    [
      'tenths by the heading',
      'Frequency (Hz),Power (TenthdBmV),SNR (TenthdB)\n57000000,365,366\n63000000,-15,366\n',
    ],
    ['tenths by words', 'Frequency (MHz);Level (tenths of dBmV)\n57;365\n63;-15\n'],
    ['tenths by a factor', 'Frequency (MHz)\tLevel (dBmV x 10)\n57\t365\n63\t-15\n'],
    ['tenths by a step', 'Frequency (MHz)\tLevel [0.1 dBmV]\n57\t365\n63\t-15\n'],
    ['tenths in the cells', 'Frequency\tPower\n57 MHz\t365 TenthdBmV\n63 MHz\t-15 TenthdBmV\n'],
    ['tenths in a title', 'Levels in tenths of dBmV\nFrequency (MHz)\tLevel\n57\t365\n63\t-15\n'],
    ['hundredths', 'Frequency (MHz)\tLevel (1/100 dBmV)\n57\t3650\n63\t-150\n'],
    ['German', 'Kanal;Frequenz (MHz);Pegel (dBµV)\n1;57;96,5\n2;63;58,5\n'],
    ['French', 'Canal;Fréquence (MHz);Niveau (dBmV)\n1;57,0;36,5\n2;63,0;-1,5\n'],
    ['Spanish', 'Canal;Frecuencia [MHz];Potencia [dBmV]\n1;57;36,5\n2;63;-1,5\n'],
    [
      'camel case',
      'channelId,centralFrequency,powerLevel,snr\n1,57 MHz,36.5 dBmV,36\n2,63 MHz,-1.5 dBmV,36\n',
    ],
    ['glued units', 'FrequencyMHz,PowerdBmV\n57,36.5\n63,-1.5\n'],
    ['torn units', 'Frequency (MHz)\tLevel (dB mV)\n57\t36.5 dB mV\n63\t-1.5 dBmV\n'],
    ['thousands parted by commas', 'Frequency (Hz)\tPower (dBmV)\n57,000,000\t36.5\n63,000,000\t-1.5\n'],
    ['thousands parted by points', 'Frequenz (Hz)\tPegel (dBmV)\n57.000.000\t36,5\n63.000.000\t-1,5\n'],
    ['thousands parted by blanks', 'Frequency (kHz)\tPower (dBmV)\n57 000\t36.5\n63 000\t-1.5\n'],
    [
      'three decimals that no level can be without',
      'Frequency (MHz)\tPower (dBmV)\n57.000\t36.500\n63.000\t-1.500\n',
    ],
    [
      'other columns beside',
      'Uncorrectables\tCorrected\tSNR\tPower\tFrequency\tModulation\n0\t9\t36 dB\t36.5 dBmV\t57 MHz\t256QAM\n3\t10\t36 dB\t-1.5 dBmV\t63 MHz\t256QAM\n',
    ],
    [
      'a table of something else behind it',
      'Frequency\tPower\n57 MHz\t36.5 dBmV\n63 MHz\t-1.5 dBmV\n\nChannel\tUnerrored\tCorrectable\n1\t1000\t3\n2\t1000\t4\n',
    ],
    [
      'dBm of 75 ohm said in the cells',
      'Frequency\tPower\n57 MHz\t-12.250612633917 dBm (75 ohm)\n63 MHz\t-50.250612633917 dBm (75 ohm)\n',
    ],
  ])('%s', (_what, text) => {
    const near = same.map((pair) => pair.map((value) => expect.closeTo(value, 9)));
    expect(pairsOf(text)).toEqual(near);
  });

  it('a slot that is not locked keeps its row and loses its level where that has no unit', () => {
    const [, dead] = rowsOf('Frequency\tPower\tStatus\n57 MHz\t36.5 dBmV\tLocked\n0 Hz\t0.0\tNot Locked\n');
    expect(dead).toMatchObject({ frequencyMhz: null, levelDbmv: null, unlocked: true });
  });

  it('ranges are no frequency, told by line', () => {
    const read = readSweepCsv(
      'Frequency\tPower\n57 MHz\t36.5 dBmV\n54-60 MHz\t3 dBmV\n151 MHz – 324 MHz\t1 dBmV\n',
      'p',
    );
    expect(read.ok && read.value.left).toEqual([
      { line: 3, reason: '54-60 MHz is a range, not one frequency' },
      { line: 4, reason: '151 MHz – 324 MHz is a range, not one frequency' },
    ]);
  });

  it('a column without a name that only names modulations is the modulation, and a type says the kind', () => {
    const rows = rowsOf(
      'channelid;CentralFrequency;power;SNR;FFT;locked;ChannelType\n5;602 MHz;-4.0 dBmV;38.8 dB;256 QAM;Locked;SC-QAM\n33;202 MHz;-3.0 dBmV;39.55 dB;qam256/qam1024;Locked;OFDM\n',
    );
    expect(rows.map(({ kind, modulation }) => [kind, modulation])).toEqual([
      ['qam', '256 QAM'],
      ['ofdm', 'qam256/qam1024'],
    ]);
  });
});

const down = 'Downstream\nChannel\tFrequency\tPower\n1\t570 MHz\t-1.5 dBmV\n2\t578 MHz\t-1.7 dBmV\n';
const up = 'Upstream\nChannel\tFrequency\tPower\n1\t16.4 MHz\t41.5 dBmV\n2\t22.8 MHz\t42 dBmV\n';
describe('several tables in one paste', () => {
  it('of two directions: what is received is read, and what is sent is left out with a word', () => {
    const read = readSweepCsv(`${down}\n${up}`, 'paste');
    expect(read.ok && read.value.rows.map(({ frequencyMhz }) => frequencyMhz)).toEqual([570, 578]);
    expect(read.ok && read.value.understood.notes[0]).toBe(
      'table 2 "Upstream" (line 7, 2 rows, 16.4 to 22.8 MHz) is of what is sent upstream, no reading, and left out',
    );
    expect(rowsOf(`${up}\n${down}`).map(({ frequencyMhz }) => frequencyMhz)).toEqual([570, 578]);
    const chosen = readSweepCsv(`${down}\n${up}`, 'paste', { table: 2 });
    expect(chosen.ok && chosen.value.rows.map(({ frequencyMhz }) => frequencyMhz)).toEqual([16.4, 22.8]);
    expect(readSweepCsv(down, 'paste', { table: 2 })).toMatchObject({ ok: false, code: 'no-such-table' });
  });

  it('of which one does not say its direction: told what there is, and a person chooses', () => {
    const untold = `${down}\n${up}`.replace('Upstream\n', '');
    expect(refusalOf(untold)).toBe(
      'paste, line 6: the file holds table 1 "Downstream" (line 2, 2 rows, 570 to 578 MHz) and table 2 (line 6, 2 rows, 16.4 to 22.8 MHz), which are not plainly one sweep; choose one, or keep only that one',
    );
  });

  it('without a blank line or a title between them', () => {
    expect(rowsOf(down + up)).toHaveLength(2);
    expect(refusalOf(`${down}${up}`.replace(/(Down|Up)stream\n/g, ''))).toMatch(/table 2 \(line 4/);
  });

  it('that lie on their sides', () => {
    const side =
      'Downstream\nFrequency\t570 MHz\t578 MHz\nPower Level\t-1 dBmV\t-2 dBmV\nUpstream\nFrequency\t16 MHz\nPower Level\t40 dBmV\n';
    expect(rowsOf(side).map(({ levelDbmv }) => levelDbmv)).toEqual([-1, -2]);
  });

  it('of one direction are joined', () => {
    const more = 'Downstream OFDM\nChannel\tFrequency\tPower\n33\t300 MHz\t2 dBmV\n';
    expect(rowsOf(`${down}\n${more}`).map(({ frequencyMhz, kind }) => [frequencyMhz, kind])).toEqual([
      [570, undefined],
      [578, undefined],
      [300, 'ofdm'],
    ]);
  });

  it('that share a frequency are two sweeps', () => {
    expect(refusalOf(`${down}\n${down}`)).toMatch(/not plainly one sweep/);
  });
});

describe('what is not certain', () => {
  it.each([
    [
      'a level without unit anywhere',
      'chid  freq       pow\n1     57000000   8\n2     63000000   8\n',
      /paste, line 1, column "pow": the unit of level/,
    ],
    [
      'tenths that nothing says',
      'Frequency (MHz)\tLevel (dBmV)\n57\t365\n63\t-15\n',
      /line 2, column "Level \(dBmV\)".*tenths/,
    ],
    [
      'a ratio of 366 dB',
      'Frequency (MHz)\tLevel (dBmV)\tSNR (dB)\n57\t-1.5\t366\n',
      /column "SNR \(dB\)".*tenths/,
    ],
    [
      'a heading of two units',
      'Frequency (MHz)\tLevel (dBmV/dBuV)\n57\t36.5\n',
      /unit of level is not certain/,
    ],
    [
      'a thousand or a fraction of a level',
      'Frequency (MHz)\tLevel (dBmV)\n57\t1,234\n',
      /line 2, column "Level \(dBmV\)": "1,234" may be 1234 or 1\.234/,
    ],
    [
      'a thousand or a fraction of a frequency',
      'Frequency (MHz)\tLevel (dBmV)\n1,234\t5\n',
      /"1,234" may be 1234 or 1\.234/,
    ],
    [
      'a row that fits no heading',
      'frequency_mhz  level_dbmv  mer_db\n57  36.5  38\n63      1 2 3 4\n',
      /line 3: /,
    ],
    [
      'a row of words among the rows',
      'frequency_mhz\tlevel_dbmv\n57\t1\n\nfoo\tbar\n63\t2\n',
      /line 4, column "frequency_mhz": "foo"/,
    ],
    [
      'a turn of direction in the middle',
      'Frequency\tPower\n570 MHz\t1 dBmV\nUpstream\n16 MHz\t40 dBmV\n',
      /line 3: 1 of 2 cells/,
    ],
    [
      'a cell of a table on its side',
      'Frequency\t57 MHz\tx\nPower\t1 dBmV\t2 dBmV\n',
      /paste, line 1, column 3: "x" is not a frequency/,
    ],
    [
      'two levels',
      'Frequency (MHz)\tLevel A (dBmV)\tLevel (dBmV)\tPower (dBmV)\n57\t1\t2\t3\n',
      /both "Level A \(dBmV\)"|both "Level \(dBmV\)"/,
    ],
    ['only ranges', 'Frequency\tPower\n54-60 MHz\t3 dBmV\n60-66 MHz\t3 dBmV\n', /no row names one frequency/],
  ])('%s', (_what, text, line) => {
    expect(refusalOf(text)).toMatch(line);
    expect(refusalOf(text)).not.toContain('\n');
  });
});
