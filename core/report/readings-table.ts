import type { LevelRow } from '../line/level-row.ts';
import { bareLevel, bareMhz, type LevelUnitWord, levelWord, signedDecimal } from '../words/numbers.ts';
import type { Block, Cell, Column } from './document.ts';
import { type JudgedSweep, lastOf, type PortView } from './port-view.ts';

const kindWords = { analog: 'analog', qam: 'QAM', ofdm: 'OFDM', cw: 'CW' } as const;

const signalOf = (row: LevelRow | undefined): string =>
  row?.modulation ?? (row?.kind === undefined ? '' : kindWords[row.kind]);

/** By frequency; a later reading of one frequency stands for an earlier. */
function byFrequency({ sweep, targets }: JudgedSweep) {
  const at = new Map<
    number,
    Readonly<{ row: LevelRow; targetDbmv: number | null; deviationDb: number | null }>
  >();
  sweep.rows.forEach((row, i) => {
    if (row.frequencyMhz === null) return;
    const target = targets[i] ?? null;
    at.set(row.frequencyMhz, {
      row,
      targetDbmv: target?.targetDbmv ?? null,
      deviationDb: target?.deviationDb ?? null,
    });
  });
  return at;
}

/**
 * Every reading of a port at a visit, as found beside as left.
 * @param unit  levels are written in
 * @returns  a table, rising in MHz; a reading without a level says so
 * @source   the readings themselves; what each is compared with: `rowTargets`
 */
export function readingsTable(view: PortView, unit: LevelUnitWord): Block {
  const last = byFrequency(lastOf(view));
  const found = view.left === null ? null : byFrequency(view.found);
  const hasDesign = lastOf(view).design !== null;
  const frequencies = [...new Set([...last.keys(), ...(found?.keys() ?? [])])].sort((a, b) => a - b);
  const dbmv = levelWord(unit);
  const levelCell = (row: LevelRow | undefined): Cell =>
    row === undefined
      ? { text: '' }
      : row.levelDbmv === null || row.unlocked === true
        ? { text: 'no level' }
        : { text: bareLevel(row.levelDbmv, unit) };
  const columns: readonly Column[] = [
    { title: 'MHz', align: 'end', share: 1 },
    { title: 'Signal', align: 'start', share: 1.1 },
    ...(found === null ? [] : [{ title: `As found, ${dbmv}`, align: 'end', share: 1.4 } as const]),
    { title: found === null ? `Read, ${dbmv}` : `As left, ${dbmv}`, align: 'end', share: 1.4 },
    ...(hasDesign
      ? ([
          { title: `Wanted, ${dbmv}`, align: 'end', share: 1.4 },
          { title: 'Deviation, dB', align: 'end', share: 1.6 },
        ] as const)
      : []),
  ];
  return {
    block: 'table',
    set: 'columns',
    caption: `Readings at the ${view.port.name}, at the port`,
    columns,
    rows: frequencies.map((frequencyMhz) => {
      const now = last.get(frequencyMhz);
      const then = found?.get(frequencyMhz);
      return [
        { text: bareMhz(frequencyMhz) },
        { text: signalOf(now?.row ?? then?.row), soft: true },
        ...(found === null ? [] : [{ ...levelCell(then?.row), soft: true }]),
        { ...levelCell(now?.row) },
        ...(hasDesign
          ? [
              { text: now?.targetDbmv == null ? '' : bareLevel(now.targetDbmv, unit), soft: true },
              { text: now?.deviationDb == null ? '' : signedDecimal(now.deviationDb), bold: true },
            ]
          : []),
      ];
    }),
    empty: 'Nothing was read.',
  };
}
