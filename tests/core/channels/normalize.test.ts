import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LineUpEntry } from '../../../core/channels/line-up.ts';
import { normalizeRows, signalOf } from '../../../core/channels/normalize.ts';
import type { LevelRow } from '../../../core/line/level-row.ts';

const row = (frequencyMhz: number, more: Partial<LevelRow> = {}): LevelRow => ({
  frequencyMhz,
  levelDbmv: 40,
  ...more,
});
const qam = (frequencyMhz: number, modulation: string) => row(frequencyMhz, { modulation });
const levels = (rows: readonly LevelRow[]) => rows.map(({ levelDbmv }) => levelDbmv);

describe('signalOf', () => {
  it.each([
    [{ modulation: '256 QAM' }, '256-QAM'],
    [{ modulation: 'QAM64', kind: 'qam' }, '64-QAM'],
    [{ kind: 'qam' }, 'QAM of unknown order'],
    [{ modulation: 'OFDM' }, 'OFDM'],
    [{ modulation: 'QAM' }, 'QAM of unknown order'],
    [{ kind: 'analog' }, 'analog'],
    [{ kind: 'cw' }, 'pilot'],
    [{ modulation: 'other' }, 'unknown kind'],
    [{}, 'unknown kind'],
  ] as const)('%o is %s', (more, name) => expect(signalOf(row(60, more)).name).toBe(name));
});

describe('normalizeRows without a line-up', () => {
  it('moves nothing where there is one kind, or none told', () => {
    for (const rows of [
      [row(57), row(63)],
      [qam(57, '64QAM'), qam(63, 'QAM64')],
      [row(57, { kind: 'qam' })],
      [],
    ]) {
      const normalized = normalizeRows(rows, null);
      expect(normalized.rows).toBe(rows);
      expect(normalized).toMatchObject({ moved: false, notes: [] });
    }
  });
  // Usual offsets (secondary source, see usualOffset): 256-QAM 6 dB and 64-QAM 10 dB below analog.
  it('moves QAM onto the analog line, however few analog rows there are', () => {
    const rows = [row(55.25, { kind: 'analog' }), qam(63, '256QAM'), qam(69, '64QAM'), qam(75, '64QAM')];
    const normalized = normalizeRows(rows, null);
    expect(levels(normalized.rows)).toEqual([40, 46, 50, 50]);
    expect(normalized.reference).toBe('analog');
    expect(normalized.notes).toEqual([
      '1 row of 256-QAM compared with a line 6.0 dB below analog, the usual step.',
      '2 rows of 64-QAM compared with a line 10.0 dB below analog, the usual step.',
    ]);
  });
  it('without analog takes the kind with the most rows, and leaves rows of no kind', () => {
    const rows = [qam(57, '256QAM'), qam(63, '256QAM'), qam(69, '64QAM'), row(75)];
    const normalized = normalizeRows(rows, null);
    expect(levels(normalized.rows)).toEqual([40, 40, 44, 40]);
    expect(normalized.notes.at(-1)).toContain('unknown kind compared as they stand');
  });
  it('takes QAM of unknown order as 256-QAM, and says so', () => {
    const { rows, groups } = normalizeRows([row(55.25, { kind: 'analog' }), row(63, { kind: 'qam' })], null);
    expect(levels(rows)).toEqual([40, 46]);
    expect(groups[1]?.basis).toContain('taken as 256-QAM');
  });
});

const lineUp: readonly LineUpEntry[] = [
  { channelLabel: '2', frequencyMhz: 55.25, kind: 'analog', widthMhz: 6, offsetDb: 0 },
  { channelLabel: '3', frequencyMhz: 63, kind: 'qam', qamOrder: 256, widthMhz: 6, offsetDb: -5 },
  { channelLabel: 'wide', frequencyMhz: 160, kind: 'ofdm', widthMhz: 96, offsetDb: -7 },
];

describe('normalizeRows with a line-up', () => {
  it('gives each row the offset of the channel it lies in, even where there is one kind only', () => {
    const rows = [row(55.25), row(61), row(118), row(201)];
    const normalized = normalizeRows(rows, lineUp);
    expect(levels(normalized.rows)).toEqual([40, 45, 47, 47]);
    expect(normalized.reference).toBe('line-up');
    expect([...normalized.offsetDb]).toEqual([0, -5, -7, -7]);
  });
  it('leaves and names a row in no channel', () => {
    const normalized = normalizeRows([row(63), row(90)], lineUp);
    expect(levels(normalized.rows)).toEqual([45, 40]);
    expect(normalized.notes.at(-1)).toBe(
      '1 row in no channel of the line-up, compared as they stand: 90 MHz.',
    );
  });
});

it('keeps number and order of rows, and every level a number', () => {
  const any = fc.record({
    frequencyMhz: fc.oneof(fc.constant(null), fc.double({ min: 5, max: 1300, noNaN: true })),
    levelDbmv: fc.oneof(fc.constant(null), fc.double({ min: -60, max: 70, noNaN: true })),
    modulation: fc.constantFrom('256QAM', '64QAM', 'OFDM', '1024-QAM', 'x', ''),
  });
  fc.assert(
    fc.property(fc.array(any, { maxLength: 30 }), fc.boolean(), (rows, given) => {
      const normalized = normalizeRows(rows, given ? lineUp : null);
      expect(normalized.rows).toHaveLength(rows.length);
      normalized.rows.forEach((moved, i) => {
        const was = rows[i];
        expect(moved.frequencyMhz).toBe(was?.frequencyMhz);
        if (was?.levelDbmv == null) expect(moved.levelDbmv).toBeNull();
        else expect(moved.levelDbmv).toBe(was.levelDbmv - (normalized.offsetDb[i] ?? Number.NaN));
      });
    }),
  );
});
