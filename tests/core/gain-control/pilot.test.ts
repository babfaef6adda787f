import { describe, expect, it } from 'vitest';
import { checkPilot, choosePilots } from '../../../core/gain-control/pilot.ts';
import type { Finding } from '../../../core/inspect/finding.ts';
import { targetDbmv } from '../../../core/line/design-line.ts';
import type { LevelRow } from '../../../core/line/level-row.ts';

const design = {
  lowMhz: 54,
  lowDbmv: 36,
  highMhz: 870,
  highDbmv: 46,
  shape: 'linear' as const,
  toleranceDb: 1,
  flatnessDb: 2.5,
};
const rows = (changed: Readonly<Record<number, Partial<LevelRow>>> = {}): LevelRow[] =>
  Array.from({ length: 136 }, (_, i) => {
    const frequencyMhz = 57 + 6 * i;
    return { frequencyMhz, levelDbmv: targetDbmv(design, frequencyMhz), ...changed[frequencyMhz] };
  });
const codes = (changed: Parameters<typeof rows>[0], pilotMhz = 711, findings: readonly Finding[] = []) =>
  checkPilot(rows(changed), pilotMhz, design, findings).warnings.map(({ code }) => code);

// Common practice, no published source: kind, level beside its neighbours, clear of notches and band edges.
describe('a pilot', () => {
  it('is suitable inside the band, in line with its neighbours', () => {
    const check = checkPilot(rows(), 711, design, []);
    expect(check.warnings).toEqual([]);
    expect(check.besideDb).toBeCloseTo(0, 9);
    expect(check.levelDbmv).toBeCloseTo(44.05, 2);
  });

  it('is warned of where nothing is', () => {
    expect(codes({}, 714)).toEqual(['no-carrier']);
    expect(codes({ 711: { levelDbmv: null } })).toEqual(['no-carrier']);
    expect(codes({ 711: { unlocked: true } })).toEqual(['no-carrier']);
  });

  it.each([
    [2.5, ['beside-neighbours']],
    [-2.5, ['beside-neighbours']],
    [1.9, []],
  ])('that lies %d dB off its neighbours: %j', (offDb, expected) => {
    expect(codes({ 711: { levelDbmv: targetDbmv(design, 711) + offDb } })).toEqual(expected);
  });

  it('is not compared with the slope of the band', () => {
    const tilted = rows().map((row) => ({
      ...row,
      levelDbmv: (row.levelDbmv ?? 0) + 0.02 * (row.frequencyMhz ?? 0),
    }));
    expect(checkPilot(tilted, 711, design, []).besideDb).toBeCloseTo(0, 9);
  });

  it('is no block of OFDM', () => {
    expect(codes({ 711: { kind: 'ofdm' } })).toEqual(['kind']);
    expect(codes({ 711: { kind: 'cw' } })).toEqual([]);
  });

  it('keeps clear of notches, roll-offs and the edges of the band', () => {
    const notch: Finding = { kind: 'notch', centerMhz: 700, depthDb: 4, widthMhz: 30 };
    expect(codes({}, 711, [notch])).toEqual(['notch']);
    expect(codes({}, 741, [notch])).toEqual([]);
    const rolloff: Finding = { kind: 'rolloff', edge: 'high', fromMhz: 800, depthDb: 3 };
    expect(codes({}, 813, [rolloff])).toEqual(['slope']);
    expect(codes({}, 711, [rolloff])).toEqual([]);
    expect(codes({}, 867)).toEqual(['band-edge']);
    expect(codes({}, 57)).toEqual(['band-edge']);
    expect(codes({}, 855)).toEqual([]);
  });
});

describe('the choice of a pilot', () => {
  it('is near four fifths of the band, where nothing speaks against it', () => {
    expect(choosePilots(rows(), design, []).map(({ pilotMhz }) => pilotMhz)).toEqual([705, 711, 699]);
  });

  it('goes round a notch, and names none where every carrier has a fault', () => {
    const notch: Finding = { kind: 'notch', centerMhz: 707, depthDb: 4, widthMhz: 20 };
    const chosen = choosePilots(rows(), design, [notch]).map(({ pilotMhz }) => pilotMhz);
    expect(chosen.every((mhz) => Math.abs(mhz - 707) > 20)).toBe(true);
    const blocks = rows().map((row) => ({ ...row, kind: 'ofdm' as const }));
    expect(choosePilots(blocks, design, [])).toEqual([]);
  });
});
