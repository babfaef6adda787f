import { expect, it } from 'vitest';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';
import { refusalLine } from '../../../core/result.ts';
import { createChance } from '../../support/chance.ts';

/*
 * The same sweep written in every dialect at random: what is read is what was written, and never anything else. Written
 * from the contract's words (section 1), not from the importer.
 */
type Row = Readonly<{ channel: number; mhz: number; dbmv: number; mer: number }>;
type Hand = Readonly<{ one: <T>(...all: readonly T[]) => T; yes: () => boolean; decimals: number }>;

/** By definition: 60 dBuV = 0 dBmV = 1 mV = 1000 uV, and 20 dB are ten times the voltage. */
const levelUnits = {
  dBmV: { key: 'level_dbmv', places: 1, of: (dbmv: number) => dbmv },
  dBuV: { key: 'level_dbuv', places: 1, of: (dbmv: number) => dbmv + 60 },
  dBµV: { key: 'level_dbuv', places: 1, of: (dbmv: number) => dbmv + 60 },
  mV: { key: 'level_mv', places: 4, of: (dbmv: number) => 10 ** (dbmv / 20) },
  µV: { key: 'level_uv', places: 1, of: (dbmv: number) => 1000 * 10 ** (dbmv / 20) },
} as const;
const frequencyUnits = { Hz: 1e6, kHz: 1e3, MHz: 1 } as const;

function written(rows: readonly Row[], { one, yes, decimals }: Hand): string {
  const unit = one<keyof typeof levelUnits>('dBmV', 'dBuV', 'dBµV', 'mV', 'µV');
  const { key, places, of } = levelUnits[unit];
  const frequencyUnit = one<keyof typeof frequencyUnits>('Hz', 'kHz', 'MHz');
  const comma = yes();
  const number = (value: number, places: number) =>
    comma ? value.toFixed(places).replace('.', ',') : value.toFixed(places);
  const mhz = ({ mhz: at }: Row) =>
    number(at * frequencyUnits[frequencyUnit], frequencyUnit === 'MHz' ? decimals : 0);
  const minus = one('-', '-', '\u2212');
  const level = ({ dbmv }: Row) => number(of(dbmv), places).replace(/^-/, minus);
  const inCells = yes();
  const heads = [
    one('Ch', 'Channel', 'Kanal'),
    `${one('Freq', 'Frequency', 'Frequenz')}${inCells ? '' : ` (${frequencyUnit})`}`,
    `${one('Level', 'Power', 'Pegel', 'Power Level')}${inCells ? '' : ` [${unit}]`}`,
    `${one('MER', 'SNR')}${inCells ? '' : ' (dB)'}`,
  ];
  const cells = (row: Row) => [
    String(row.channel),
    mhz(row) + (inCells ? ` ${frequencyUnit}` : ''),
    level(row) + (inCells ? ` ${unit}` : ''),
    number(row.mer, 1) + (inCells ? ' dB' : ''),
  ];
  const order = yes() ? [0, 1, 2, 3] : yes() ? [3, 0, 2, 1] : [1, 2, 0, 3];
  const moved = (all: readonly string[]) => order.map((i) => all[i] ?? '');
  const grid = [moved(heads), ...rows.map((row) => moved(cells(row)))];
  const title = one('', '', 'Downstream\n', 'Quillmere QM-4\nforward output\n');
  switch (one('parted', 'sides', 'markdown', 'fixed', 'json', 'walk', 'log', 'lines')) {
    case 'parted': {
      const separator = comma ? one(';', '\t') : one(',', ';', '\t');
      return title + grid.map((row) => row.join(separator)).join(one('\n', '\r\n'));
    }
    case 'sides':
      return title + (grid[0] ?? []).map((_, i) => grid.map((row) => row[i]).join('\t')).join('\n');
    case 'markdown':
      return `${title}${[grid[0] ?? [], heads.map(() => '---'), ...grid.slice(1)].map((row) => `| ${row.join(' | ')} |`).join('\n')}\n`;
    case 'fixed': {
      const widths = (grid[0] ?? []).map((_, i) => Math.max(...grid.map((row) => (row[i] ?? '').length)) + 2);
      return `${title}${grid.map((row) => row.map((cell, i) => cell.padEnd(widths[i] ?? 0)).join('')).join('\n')}\n`;
    }
    case 'json':
      return JSON.stringify(
        rows.map((row) => ({
          channel: row.channel,
          [`frequency_${frequencyUnit.toLowerCase()}`]: Number(
            (row.mhz * frequencyUnits[frequencyUnit]).toFixed(decimals),
          ),
          [key]: Number(of(row.dbmv).toFixed(places)),
        })),
        null,
        one(0, 1),
      );
    case 'walk':
      return [
        ...rows.map((row) => `frequency.${row.channel} = ${mhz(row)} ${frequencyUnit}`),
        ...rows.map((row) => `level.${row.channel} = ${level(row)} ${unit}`),
      ].join('\n');
    case 'log':
      return rows
        .map(
          (row, i) => `12:03:${10 + i} ch ${row.channel} ${mhz(row)} ${frequencyUnit} ${level(row)} ${unit}`,
        )
        .join('\n');
    case 'lines':
      return rows
        .map((row) => `${mhz(row)} ${frequencyUnit}${comma ? ';' : ','} ${level(row)} ${unit}`)
        .join('\n');
  }
}

it('reads a sweep in any dialect as it was written, or asks', () => {
  const chance = createChance(20261129);
  const below = (count: number) => Math.floor(chance() * count);
  const one = <T>(...all: readonly T[]): T => all[below(all.length)] as T;
  let read = 0;
  const asked = new Map<string, string>();
  for (let i = 0; i < 1500; i++) {
    const from = 50 + below(500);
    const rows = Array.from({ length: 2 + below(9) }, (_, k) => ({
      channel: k + 1,
      mhz: from + 6 * k + one(0, 0.25, 0.5),
      dbmv: (below(700) - 250) / 10,
      mer: 30 + below(120) / 10,
    }));
    const text = written(rows, { one, yes: () => chance() < 0.5, decimals: one(2, 2, 3) });
    const sweep = readSweepCsv(text, 'a.txt');
    if (!sweep.ok) {
      asked.set(sweep.code, `${refusalLine(sweep)}\n${text}`);
      continue;
    }
    read++;
    const levels = sweep.value.rows.map(({ frequencyMhz, levelDbmv }) => [
      frequencyMhz,
      // A voltage was rounded to less than a hundredth of a dB.
      Math.round((levelDbmv ?? Number.NaN) * 20) / 20 + 0,
    ]);
    expect([text, levels]).toEqual([text, rows.map(({ mhz, dbmv }) => [mhz, dbmv])]);
  }
  // Three digits behind a mark may be thousands, and a person is asked; all else is certain.
  expect(
    [...asked.keys()].filter((code) => code !== 'ambiguous-number').map((code) => asked.get(code)),
  ).toEqual([]);
  expect(read).toBeGreaterThan(1250);
});
