import { describe, expect, it } from 'vitest';
import { installedOf } from '../../../core/files/station.ts';
import type { Carried } from '../../../core/noise/carried.ts';
import type { Cascade } from '../../../core/noise/cascade-noise.ts';
import { noiseReport } from '../../../core/noise/noise-report.ts';
import { stationNoise } from '../../../core/noise/station-noise.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';
import { quillmereNotes } from '../../../core/simulate/quillmere-notes.ts';
import { notFinite } from '../../support/not-finite.ts';

const digital: Carried = {
  ...{ judgedAs: 'digital', bandwidthMhz: 4, from: 'line-up' },
  qam: { order: 256, offsetDb: 0, isTaken: false },
  coherence: { isCoherent: false, why: 'STD' },
};
const members = quillmere.flatMap(({ station }) => {
  const notes = quillmereNotes[station.id];
  if (notes === undefined) return [];
  const stands = { station, pluggedIn: installedOf(station), outputRows: null, inputRows: null };
  const told = stationNoise(
    { ...stands, gainDb: notes.amplifier.gainDb },
    notes.amplifier,
    digital.bandwidthMhz,
  );
  if (!told.ok) throw new Error(told.help);
  return [told.value];
});
const source = quillmereNotes['qm4-03-ropewalk']?.cascade.source ?? null;
const whole: Cascade = { source, alikeAhead: 0, members };

describe('the report of a cascade', () => {
  it('of Quillmere: every figure told, the whole cascade worse than its last station, and all of it in order', () => {
    expect(members).toHaveLength(5);
    const report = noiseReport(whole, digital);
    expect(report.rows.map(({ key }) => key)).toEqual(['cnr', 'ctb', 'cso', 'mer']);
    for (const row of report.rows) {
      expect(row.missing).toBeNull();
      const worse = row.limit?.side === 'most' ? -1 : 1;
      expect(worse * ((row.ownDb ?? 0) - (row.cascadeDb ?? 0))).toBeGreaterThan(1);
      expect(row.verdict).toBe(row.key === 'cnr' ? 'unknown' : 'pass');
    }
    expect(report).toMatchObject({ count: 5, tightest: { inHandDb: expect.any(Number) } });
    expect(notFinite(report)).toEqual([]);
  });
  // Carrier to noise of 45 dB in 4 MHz is 43.73 dB in the 5.36 MHz of 256-QAM: 10 log (5.360537 / 4) = 1.271 dB.
  it('estimates the MER by the symbol rate, and less where QAM is carried lower', () => {
    const [first] = members;
    if (first === undefined || !('lowDb' in first.cnr)) throw new Error('no member');
    const alone = { ...first, distortions: [], cnr: { ...first.cnr, lowDb: 45, highDb: 45 } };
    const merOf = (offsetDb: number) =>
      noiseReport(
        { source: null, alikeAhead: 0, members: [alone] },
        { ...digital, qam: { order: 256, offsetDb, isTaken: false } },
      ).rows.find(({ key }) => key === 'mer');
    expect(merOf(0)?.cascadeDb).toBeCloseTo(43.729, 3);
    expect(merOf(-6)?.cascadeDb).toBeCloseTo(37.729, 3);
    expect(merOf(-14)).toMatchObject({ verdict: 'fail', limit: { limitDb: 33 } });
  });
  it('holds carrier to noise against the rule where analog pictures are carried', () => {
    const [cnr] = noiseReport(whole, { ...digital, judgedAs: 'analog', qam: null }).rows;
    expect(cnr).toMatchObject({ key: 'cnr', limit: { limitDb: 43 }, verdict: 'pass' });
  });
  it('decides nothing nearer to a limit than a data sheet is good to', () => {
    const [first] = members;
    if (first === undefined || !('lowDb' in first.cnr)) throw new Error('no member');
    const { cnr: own } = first;
    const analog = { ...digital, judgedAs: 'analog', qam: null } as const;
    const of = (cnrDb: number, ctbDbc: number, isCoherent: boolean) => {
      const distortions = [{ kind: 'ctb' as const, ratedDbc: ctbDbc, valueDbc: ctbDbc }];
      const member = { ...first, distortions, cnr: { ...own, lowDb: cnrDb, highDb: cnrDb } };
      const carried = { ...analog, coherence: { isCoherent, why: '' } };
      return noiseReport({ source: null, alikeAhead: 0, members: [member] }, carried)
        .rows.slice(0, 2)
        .map(({ verdict }) => verdict);
    };
    // 43 dB to 1 dB; 51 dB, or 47 where the carriers are coherent, to 2 dB.
    expect(of(43.9, -52.9, false)).toEqual(['undecided', 'undecided']);
    expect(of(42.1, -49.1, false)).toEqual(['undecided', 'undecided']);
    expect(of(44, -53, false)).toEqual(['pass', 'pass']);
    expect(of(41.9, -48.9, false)).toEqual(['fail', 'fail']);
    expect(of(45, -49.1, true)).toEqual(['pass', 'pass']);
  });
  it('says what is missing, and judges nothing by half', () => {
    const report = noiseReport({ ...whole, members: [...members, { name: 'new', missing: true }] }, digital);
    expect(report).toMatchObject({ own: null, tightest: null });
    for (const row of report.rows) {
      expect(row).toMatchObject({ cascadeDb: null, verdict: 'unknown' });
      expect(row.missing?.help).toContain('new');
    }
  });
});
