import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';
import type { LevelRow } from '../../../core/line/level-row.ts';
import { refusalLine } from '../../../core/result.ts';

const rowsOf = (text: string): LevelRow[] => {
  const read = readSweepCsv(text, 'x.csv');
  if (!read.ok) throw new Error(refusalLine(read));
  return read.value.rows;
};
const pairsOf = (text: string) => rowsOf(text).map((row) => [row.frequencyMhz, row.levelDbmv]);
const refusalOf = (text: string, name = 'x.csv'): string => {
  const read = readSweepCsv(text, name);
  if (read.ok) throw new Error(`read as ${JSON.stringify(read.value.rows)}`);
  return refusalLine(read);
};

describe("the project's own CSV", () => {
  it('is read with every optional column', () => {
    const text =
      '# Ropewalk\nfrequency_mhz,level_dbmv,kind,mer_db,label\n57,36.2,qam,38.5,"2, lower"\n\n63,-1.25,CW,,\n';
    expect(rowsOf(text)).toEqual([
      { frequencyMhz: 57, levelDbmv: 36.2, kind: 'qam', merDb: 38.5, label: '2, lower', line: 3 },
      { frequencyMhz: 63, levelDbmv: -1.25, kind: 'cw', line: 5 },
    ]);
  });

  it('keeps the order, duplicates and lines of the file', () => {
    const rows = rowsOf('frequency_mhz,level_dbmv\n63,1\n57,2\n63,1\n');
    expect(rows.map((row) => [row.frequencyMhz, row.line])).toEqual([
      [63, 2],
      [57, 3],
      [63, 4],
    ]);
  });

  it('counts lines inside quotes and comments between rows', () => {
    const rows = rowsOf('frequency_mhz,level_dbmv,label\n57,1,"a\n# no comment\nb"\n# one\n63,2,c\n');
    expect(rows[0]?.label).toBe('a\n# no comment\nb');
    expect(rows.map((row) => row.line)).toEqual([2, 6]);
  });
});

describe('what people really have', () => {
  const same = [
    [57, 36.5],
    [63, -1.5],
  ];
  it.each([
    ['a byte order mark and CR LF', '\uFEFFfrequency_mhz,level_dbmv\r\n57,36.5\r\n63,-1.5\r\n'],
    ['a lone CR', 'frequency_mhz,level_dbmv\r57,36.5\r63,-1.5\r'],
    ['semicolons and decimal commas', 'Frequency (MHz);Level (dBmV)\n57;36,5\n63;-1,5\n'],
    ['tabs and decimal commas', 'f_mhz\tPower [dBmV]\n57,0\t36,5\n63,0\t-1,5\n'],
    ['the separator told', 'sep=;\nfreq mhz;level dbmv\n57;36.5\n63;-1.5\n'],
    ['Hz', 'Freq (Hz),Amplitude (dBmV)\n57000000,36.5\n63000000,-1.5\n'],
    ['bare Hz', 'Frequency,level_dbmv\n57000000,36.5\n63000000,-1.5\n'],
    ['bare kHz', 'Frequency,level_dbmv\n57000,36.5\n63000,-1.5\n'],
    ['bare MHz', 'Frequency,level_dbmv\n57,36.5\n63,-1.5\n'],
    ['GHz', 'frequency_ghz,level_dbmv\n0.057,36.5\n0.063,-1.5\n'],
    ['units in the cells', 'Frequency;Power\n57 MHz;36.5 dBmV\n63000 kHz;58.5 dBµV\n'],
    ['dBuV', 'frequency_mhz,level (dBuV)\n57,96.5\n63,58.5\n'],
    ['a typographic minus', 'frequency_mhz,level_dbmv\n57,36.5\n63,\u22121.5\n'],
    ['an unended last line', 'frequency_mhz,level_dbmv\n57,36.5\n63,-1.5'],
    [
      'columns in another order',
      'Channel,Level (dBmV),note,Center Frequency (MHz)\n2,36.5,x,57\n3,-1.5,,63\n',
    ],
    ['an exponent', 'frequency_hz;level_dbmv\n5,7E+07;36,5\n6,3E+07;-1,5\n'],
  ])('reads %s', (_what, text) => {
    expect(pairsOf(text)).toEqual(same);
  });

  // 0 dBm in 75 ohm is 48.7506 dBmV: 10 log10(75 ohm x 1 mW / (1 mV)^2), by hand.
  it('reads dBm as power in 75 ohm', () => {
    expect(pairsOf('frequency_mhz,level_dbm\n57,-48.7506\n')[0]?.[1]).toBeCloseTo(0, 4);
    expect(pairsOf('frequency_mhz,"level (dBm, 75 Ω)"\n57,0\n')[0]?.[1]).toBeCloseTo(48.7506, 4);
  });

  it.each([
    ['256QAM', 'qam'],
    ['QAM256', 'qam'],
    ['64 QAM', 'qam'],
    ['OFDM', 'ofdm'],
    ['OFDM PLC', 'ofdm'],
    ['Other', undefined],
  ])('takes the kind from the modulation %s and keeps the word', (modulation, kind) => {
    const [row] = rowsOf(`frequency_mhz,level_dbmv,modulation\n57,1,${modulation}\n`);
    expect([row?.kind, row?.modulation]).toEqual([kind, modulation]);
  });

  it('marks what the source says is not locked and keeps its values', () => {
    const [a, b] = rowsOf('Frequency (MHz),Power (dBmV),Lock Status\n57,1,Locked\n63,-30,Not Locked\n');
    expect([a?.unlocked, b?.unlocked, b?.levelDbmv]).toEqual([undefined, true, -30]);
  });

  it('keeps rows that are no reading, each with its reason and line', () => {
    const read = readSweepCsv(
      'frequency_mhz,level_dbmv,modulation\n57,1,qam\n,3.4,OFDM\n135,,OFDM\n0,0.0,Unknown\n151-324,-3.0,OFDM\n',
      'x.csv',
    );
    if (!read.ok) throw new Error(refusalLine(read));
    expect(read.value.rows.map((row) => row.frequencyMhz)).toEqual([57, null, 135, null, null]);
    expect(read.value.rows[3]?.unlocked).toBe(true);
    expect(read.value.left.map(({ line }) => line)).toEqual([3, 4, 5, 6]);
    expect(read.value.left[3]?.reason).toContain('151-324');
  });

  it('says how it understood the file', () => {
    const read = readSweepCsv('Frequenz;x\n', 'x.csv');
    expect(read.ok).toBe(false);
    const good = readSweepCsv('Freq (kHz);Level (dBµV)\n57000;60,5\n', 'x.csv');
    expect(good.ok && good.value.understood).toMatchObject({
      separator: ';',
      decimal: ',',
      frequencyUnit: 'kHz',
      levelUnit: 'dBuV',
      columns: { frequency: 'Freq (kHz)', level: 'Level (dBµV)' },
    });
  });
});

describe('what is not certain is refused by file, line and column', () => {
  it.each([
    ['nothing', '', /^x\.csv: the file is empty/],
    ['blank lines and comments only', '\n# a\n\n', /empty/],
    ['a header only', 'frequency_mhz,level_dbmv\n', /no rows/],
    ['no header', '57,36.5\n63,35\n', /line 1: the columns have no names; write frequency_mhz,level_dbmv/],
    ['other columns', 'a,b\n1,2\n', /line 1: no columns for a frequency and a level among "a", "b"/],
    ['a page', '<html>\n<body>\n', /no table/],
    ['NUL bytes', 'frequency_mhz,level_dbmv\n57,\u00001\n', /line 2: this is not a text file/],
    ['another encoding', 'frequency_mhz,level_db\uFFFDv\n57,61\n', /line 1: a character here is not UTF-8/],
    [
      'words for a level',
      'frequency_mhz,level_dbmv\n57,1\n63,abc\n',
      /line 3, column "level_dbmv": "abc" is not a level/,
    ],
    ['words for a frequency', 'frequency_mhz,level_dbmv\nlow,1\n', /line 2, column "frequency_mhz": "low"/],
    ['words for a MER', 'frequency_mhz,level_dbmv,mer_db\n57,1,good\n', /line 2, column "mer_db": "good"/],
    ['an unknown kind', 'frequency_mhz,level_dbmv,kind\n57,1,radio\n', /column "kind": "radio"/],
    ['a level without unit', 'frequency_mhz,level\n57,1\n', /line 1, column "level": .*level_dbmv/],
    ['dB for a level', 'frequency_mhz,level_db\n57,1\n', /dB is a gain or a loss/],
    ['50 ohm', 'frequency_mhz,level (dBmV 50 ohm)\n57,1\n', /50 ohm/],
    [
      'bare numbers of two units',
      'frequency,level_dbmv\n1200,1\n2500,1\n',
      /column "frequency": .*frequency_mhz/,
    ],
    ['bare numbers of mixed size', 'frequency,level_dbmv\n57,1\n63000000,1\n', /frequency_mhz/],
    ['some units in cells', 'frequency,level_dbmv\n57 MHz,1\n63,1\n', /line 3, column "frequency"/],
    ['a contradiction', 'frequency_mhz,level_dbmv\n57000 kHz,1\n', /line 2, column "frequency_mhz"/],
    ['Hz under MHz', 'frequency_mhz,level_dbmv\n57000000,1\n', /57000000 MHz is no frequency/],
    ['a negative frequency', 'frequency_mhz,level_dbmv\n-57,1\n', /line 2.*-57 MHz/],
    ['a thousand or a fraction', 'frequency_mhz;level_dbmv\n1,234;5\n', /"1,234" may be 1234 or 1\.234/],
    [
      'a quoted comma among commas',
      'frequency_mhz,level_dbmv\n57,"3,5"\n',
      /line 2, column "level_dbmv": "3,5"/,
    ],
    ['decimal commas among commas', 'frequency_mhz,level_dbmv\n57,3,5\n', /line 2: 3 cells under 2 headings/],
    ['two decimal signs', 'frequency_mhz;level_dbmv\n57;3,5\n63;3.5\n', /line 3.*another decimal sign/],
    ['marks at odd places', 'frequency_hz;level_dbmv\n5700.00.000;3,5\n', /more than one mark/],
    ['a mark that is both', 'frequency_hz;level_dbmv\n570.000.000;3,5\n57.5;3,5\n', /another decimal sign/],
    ['two levels', 'frequency_mhz,level_dbmv,level_db\n57,1,61\n', /both "level_dbmv" and "level_db"/],
    ['a quote left open', 'frequency_mhz,level_dbmv,label\n57,1,a\n63,2,"b\n', /line 3: a quoted cell/],
    ['a row cut off', 'frequency_mhz,level_dbmv\n57,1\n63', /line 3: 1 of 2 cells/],
    ['a last line cut off', 'frequency_mhz,level_dbmv,mer_db\n57,1.5,38\n63,2', /line 3: 2 of 3 cells/],
    ['a word for the lock', 'frequency_mhz,level_dbmv,locked\n57,1,perhaps\n', /column "locked": "perhaps"/],
    ['an immense level', 'frequency_mhz,level_dbmv\n57,1e999\n', /line 2, column "level_dbmv"/],
  ])('%s', (_what, text, line) => {
    expect(refusalOf(text)).toMatch(line);
    expect(refusalOf(text)).not.toContain('\n');
  });

  it('a Touchstone file, in a sentence of its own', () => {
    expect(refusalOf('# MHz S DB R 75\n57 0 0\n', 'amp.S2P')).toMatch(
      /^amp\.S2P: a Touchstone file holds a response/,
    );
  });
});

describe('whatever comes', () => {
  const alphabet = '0123456789.,;\t -+"\'#\n\r\u0000eEMHzdBmVµfrequency_mhzlevel_dbmv'.split('');
  const garbage = fc.oneof(
    fc.array(fc.nat(0xffff), { maxLength: 200 }).map((all) => String.fromCharCode(...all)),
    fc.array(fc.constantFrom(...alphabet), { maxLength: 120 }).map((all) => all.join('')),
    fc
      .array(fc.constantFrom(...alphabet), { maxLength: 80 })
      .map((all) => `frequency_mhz,level_dbmv,label\n57,1,a\n${all.join('')}`),
    fc
      .array(
        fc.constantFrom('frequency', 'level', 'constructor', '__proto__', 'toString', ',', ';', '\n', '5'),
        {
          maxLength: 40,
        },
      )
      .map((all) => all.join('')),
  );

  it('is either read into finite numbers or refused in one line', () => {
    fc.assert(
      fc.property(garbage, (text) => {
        const read = readSweepCsv(text, 'g.csv');
        if (!read.ok) return read.where !== '' && read.help !== '';
        return read.value.rows.every(
          ({ frequencyMhz, levelDbmv, merDb = 0 }) =>
            (frequencyMhz === null || (Number.isFinite(frequencyMhz) && frequencyMhz > 0)) &&
            (levelDbmv === null || Number.isFinite(levelDbmv)) &&
            Number.isFinite(merDb),
        );
      }),
      { numRuns: 2000 },
    );
  });
});

const real = resolve(import.meta.dirname, '../../../../shared/real-levels');
describe.skipIf(!existsSync(real))(
  'real channel tables (skipped where ../shared/real-levels is absent)',
  () => {
    const files = existsSync(real) ? readdirSync(real).filter((name) => name.endsWith('.csv')) : [];
    it.each(files)('%s is read whole', (name) => {
      const text = readFileSync(join(real, name), 'utf8');
      expect(rowsOf(text)).toHaveLength(text.trimEnd().split('\n').length - 1);
    });
  },
);
