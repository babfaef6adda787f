import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';
import { writeSweepCsv } from '../../../core/files/write-csv.ts';
import type { LevelRow } from '../../../core/line/level-row.ts';
import { refusalLine } from '../../../core/result.ts';

describe('the written sweep', () => {
  it('has the columns that are used, decimal points and line feeds', () => {
    const rows: LevelRow[] = [
      { frequencyMhz: 57, levelDbmv: -16.2 + 20 },
      { frequencyMhz: 63.25, levelDbmv: null, kind: 'qam', label: 'a "b", c' },
    ];
    expect(writeSweepCsv(rows, ['as\nfound'])).toBe(
      '# as found\nfrequency_mhz,level_dbmv,kind,label\n57,3.8,,\n63.25,,qam,"a ""b"", c"\n',
    );
  });

  it('guards text against formulas and never a number', () => {
    const text = writeSweepCsv([{ frequencyMhz: 57, levelDbmv: -3.5, label: '=1+1' }]);
    expect(text).toBe(`frequency_mhz,level_dbmv,label\n57,-3.5,"'=1+1"\n`);
  });

  it('refuses to write what is no number', () => {
    expect(() => writeSweepCsv([{ frequencyMhz: 57, levelDbmv: Number.NaN }])).toThrow(RangeError);
  });

  it('reads back as the same rows', () => {
    const millionths = (min: number, max: number) =>
      fc.integer({ min: min * 1e6, max: max * 1e6 }).map((n) => n / 1e6);
    const label = fc
      .string({ unit: fc.constantFrom(...`ab=+-@';,"#\t 0`.split('')), minLength: 1, maxLength: 6 })
      .filter((text) => text.trim() === text);
    const row = fc.record(
      {
        frequencyMhz: fc.option(millionths(1, 1218)),
        levelDbmv: fc.option(millionths(-90, 90)),
        kind: fc.constantFrom('analog', 'qam', 'ofdm', 'cw'),
        merDb: millionths(0, 60),
        label,
      },
      { requiredKeys: ['frequencyMhz', 'levelDbmv'] },
    );
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 20 }), (rows) => {
        // A row that says nothing at all is a blank line of the table, and no row.
        fc.pre(rows.every((one) => Object.values(one).some((value) => value !== null)));
        const read = readSweepCsv(writeSweepCsv(rows), 'own.csv');
        if (!read.ok) throw new Error(refusalLine(read));
        expect(read.value.rows.map(({ line: _line, reason: _reason, ...kept }) => kept)).toEqual(rows);
      }),
      { numRuns: 500 },
    );
  });
});
