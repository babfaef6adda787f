import fc from 'fast-check';
import papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import {
  exportFormats,
  exportSource,
  exportSweep,
  responseBetween,
} from '../../../core/files/export-sweep.ts';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';
import { writeSweepCsv } from '../../../core/files/write-csv.ts';
import type { LevelRow } from '../../../core/line/level-row.ts';
import { type Result, refusalLine } from '../../../core/result.ts';

const value = <T>(result: Result<T>): T => {
  if (!result.ok) throw new Error(refusalLine(result));
  return result.value;
};
const rows: LevelRow[] = [
  { frequencyMhz: 57, levelDbmv: -3.5, kind: 'qam', merDb: 38.25 },
  { frequencyMhz: 63.125, levelDbmv: 4, label: '=1+1' },
];
const source = { rows, comments: ['Ropewalk, +as found;=2+2', 'a "b"'] };

describe('the presets', () => {
  it('exchange: commas, points, CR LF, no byte order mark (RFC 4180)', () => {
    expect(value(exportSweep(source, 'exchange'))).toBe(
      "# Ropewalk, '+as found;'=2+2\r\n# a 'b'\r\nfrequency_mhz,level_dbmv,kind,mer_db,label\r\n57,-3.5,qam,38.25,\r\n63.125,4,,,\"'=1+1\"\r\n",
    );
  });

  it('spreadsheet: byte order mark, semicolons and decimal commas, or the signs of an English one', () => {
    expect(value(exportSweep(source, 'spreadsheet'))).toContain('\uFEFF# Ropewalk');
    expect(value(exportSweep(source, 'spreadsheet'))).toContain(
      '57;-3,5;qam;38,25;\r\n63,1250;4;;;"\'=1+1"\r\n',
    );
    expect(value(exportSweep(source, 'spreadsheet', '.'))).toContain('\r\n57,-3.5,qam,38.25,\r\n');
  });

  it('JSON is read again as the rows that it was written from', () => {
    const read = value(readSweepCsv(value(exportSweep(source, 'json')), 'a.json'));
    expect(read.rows.map(({ line: _line, ...row }) => row)).toEqual(rows);
  });

  it('JSON: the rows and what is said about them', () => {
    expect(JSON.parse(value(exportSweep(source, 'json')))).toEqual({
      format: 'tiltwright-sweep/1',
      about: source.comments,
      rows,
    });
  });

  it('.s2p: output less input, and never without an input', () => {
    expect(exportSweep(source, 's2p')).toMatchObject({ ok: false, code: 'no-input' });
    const inputRows = [
      { frequencyMhz: 57, levelDbmv: 16.5 },
      { frequencyMhz: 99, levelDbmv: 0 },
    ];
    // By hand: -3.5 - 16.5 = -20 dB, a tenth of the voltage.
    expect(value(exportSweep({ ...source, inputRows }, 's2p'))).toContain('\n57 0 0 0.1 0 0 0 0 0\n');
  });

  it('come from our own CSV with its comments', () => {
    const own = exportSource(writeSweepCsv(rows, ['Ropewalk']), 'own.csv');
    expect(value(own).comments).toEqual(['Ropewalk']);
    for (const format of exportFormats.slice(0, 4)) expect(exportSweep(value(own), format).ok).toBe(true);
  });
});

it('a response needs frequencies of both, each once', () => {
  expect(responseBetween(rows, [{ frequencyMhz: 5, levelDbmv: 1 }])).toMatchObject({ code: 'no-common' });
  expect(responseBetween([...rows, ...rows], rows)).toMatchObject({ code: 'duplicates' });
});

const hostile = fc.string({
  unit: fc.constantFrom(...`=+-@\t\r'"|;, #a1（＝\u00A0`.split('')),
  maxLength: 8,
});
const anyRow = fc.record(
  {
    frequencyMhz: fc.integer({ min: 5e6, max: 1218e6 }).map((n) => n / 1e6),
    levelDbmv: fc.integer({ min: -90e6, max: 90e6 }).map((n) => n / 1e6),
    kind: fc.constantFrom('analog', 'qam', 'ofdm', 'cw'),
    merDb: fc.integer({ min: 0, max: 60e6 }).map((n) => n / 1e6),
    label: hostile.filter((text) => text !== '' && text.trim() === text && !/[\r\n]/.test(text)),
  },
  { requiredKeys: ['frequencyMhz', 'levelDbmv'] },
);
const presets = [
  ['own', '.', ','],
  ['exchange', '.', ','],
  ['spreadsheet', ',', ';'],
  ['spreadsheet', '.', ','],
] as const;

// OWASP, "CSV Injection": no cell that a spreadsheet sees may begin with one of these, but for a number.
it.each(presets)('%s with %j leaves no formula and no number spoiled', (format, decimal, separator) => {
  fc.assert(
    fc.property(
      fc.array(anyRow, { minLength: 1, maxLength: 8 }),
      fc.array(hostile, { maxLength: 3 }),
      (some, comments) => {
        const text = value(exportSweep({ rows: some, comments }, format, decimal));
        const { data } = papa.parse(text.replace(/^\uFEFF/, '').replace(/\r\n/g, '\n'), {
          delimiter: separator,
          newline: '\n',
          skipEmptyLines: false,
        });
        const isNumber = (cell: string) => /^-?\d+([.,]\d+)?$/.test(cell);
        for (const cell of data.flat())
          if (/^\s*[=+\-@\t\r\uFF1D\uFF0B\uFF0D\uFF20]/.test(cell)) expect(isNumber(cell)).toBe(true);
      },
    ),
    { numRuns: 300 },
  );
});

it.each(presets)('%s with %j is read back exactly', (format, decimal) => {
  fc.assert(
    fc.property(fc.array(anyRow, { minLength: 1, maxLength: 8 }), (some) => {
      const read = readSweepCsv(
        value(exportSweep({ rows: some, comments: ['=x', 'dBuV'] }, format, decimal)),
        'own.csv',
      );
      expect(value(read).rows.map(({ line: _line, ...kept }) => kept)).toEqual(some);
    }),
    { numRuns: 300 },
  );
});
