import { describe, expect, it } from 'vitest';
import { MeterUncertainty } from '../../../core/files/meter-uncertainty.ts';
import { installedOf, type Station } from '../../../core/files/station.ts';
import { USUAL_PART_TOLERANCE_DB } from '../../../core/propose/predicted-sweep.ts';
import { propose } from '../../../core/propose/propose.ts';
import { inputUncertaintyDb, stageInputFor } from '../../../core/propose/stage-input.ts';
import { inputRows, rows, station } from './mill-lane.ts';

const proposed = (of: Station) => {
  const proposal = propose({ rows, station: of, inputRows });
  if (!proposal.ok) throw new Error(proposal.code);
  return proposal.value;
};
const limited = (minDbmv: number, maxDbmv: number): Station => ({
  ...station,
  stageInput: {
    port: 'forward input',
    through: ['input pad', 'input equalizer'],
    atMhz: 870,
    minDbmv,
    maxDbmv,
  },
});

describe('stageInputFor', () => {
  it('is silent for a station that states no limit', () => {
    const { stageInput: _limit, ...open } = station;
    const stage = stageInputFor(open, inputRows, false);
    expect(stage).toMatchObject({ ok: true, value: { limit: null } });
    if (stage.ok) expect(stage.value.noteFor({}, {})).toBeNull();
  });
  it('says that the limit was not applied, and what it is', () => {
    const stage = stageInputFor(station, undefined, false);
    if (!stage.ok) throw new Error(stage.code);
    expect(stage.value.noteFor({}, {})).toEqual({
      applied: false,
      note: 'No sweep of "forward input": the stage input\'s limit, 8.0 dBmV to 14.0 dBmV at 870 MHz, was not applied.',
      atMhz: 870,
      minDbmv: 8,
      maxDbmv: 14,
    });
  });
  it('takes the losses of the path off the level at the port: 20 - 6 - 1 = 13 dBmV', () => {
    const stage = stageInputFor(station, inputRows, false);
    if (!stage.ok) throw new Error(stage.code);
    const note = stage.value.noteFor(installedOf(station), { ...installedOf(station), 'input pad': 9 });
    expect(note?.beforeDbmv).toBeCloseTo(13, 9);
    expect(note?.levelDbmv).toBeCloseTo(10, 9);
    expect(note?.note).toBe('Stage input 10.0 dBmV, within 8.0 dBmV to 14.0 dBmV at 870 MHz.');
  });
  it('says when the frequency lies outside the input sweep', () => {
    const short = inputRows.filter(({ frequencyMhz }) => frequencyMhz < 700);
    const stage = stageInputFor(station, short, false);
    if (!stage.ok) throw new Error(stage.code);
    const note = stage.value.noteFor(installedOf(station), installedOf(station));
    expect(note?.note).toContain('lies outside the input sweep');
  });
  // The limit is for analog carriers: 20 dBmV of analog at 870 MHz is 14 of QAM that is carried 6 dB down.
  it('compares QAM as the line-up says it is carried, and says so', () => {
    const asQam = inputRows.map((row) => ({ ...row, kind: 'qam' as const, levelDbmv: row.levelDbmv - 6 }));
    const lineUp = inputRows.map(({ frequencyMhz }, i) => ({
      ...{ channelLabel: `${i}`, frequencyMhz, kind: 'qam' as const, qamOrder: 256, widthMhz: 6 },
      offsetDb: -6,
    }));
    const inputOf = (given: typeof lineUp | null) => {
      const stage = stageInputFor(station, asQam, false, given);
      if (!stage.ok) throw new Error(stage.code);
      return stage.value.noteFor(installedOf(station), installedOf(station));
    };
    expect(inputOf(lineUp)?.levelDbmv).toBeCloseTo(13, 9);
    expect(inputOf(lineUp)?.note).toMatch(
      /within 8\.0 dBmV to 14\.0 dBmV at 870 MHz\. Of its sweep: \d+ rows of 256-QAM at -6 dB compared with a line 6\.0 dB below/,
    );
    expect(inputOf(null)?.levelDbmv).toBeCloseTo(7, 9);
    expect(inputOf(null)).not.toHaveProperty('moved');
  });
  it('refuses a sweep that has no level there', () =>
    expect(stageInputFor(station, [{ frequencyMhz: 54, levelDbmv: 30 }], false)).toMatchObject({
      ok: false,
      code: 'no-input-level',
    }));
});

describe('in a proposal', () => {
  it('takes the line-up for the input as for the output', () => {
    const lineUp = [
      { channelLabel: 'all', frequencyMhz: 462, kind: 'ofdm' as const, widthMhz: 900, offsetDb: -6 },
    ];
    const levelNow = (given: typeof lineUp | null) => {
      const proposal = propose({ rows, station, inputRows, lineUp: given });
      if (!proposal.ok) throw new Error(proposal.code);
      return proposal.value.stageInput?.beforeDbmv ?? 0;
    };
    expect(levelNow(lineUp) - levelNow(null)).toBeCloseTo(6, 9);
  });
  it('moves the pad behind the stage when the input may not fall or rise', () => {
    const { recommended, feasible, stageInput } = proposed(limited(7, 9));
    expect(feasible).toBe(true);
    expect(stageInput?.levelDbmv).toBeGreaterThanOrEqual(7 - 1e-9);
    expect(stageInput?.levelDbmv).toBeLessThanOrEqual(9 + 1e-9);
    expect(recommended.worstDb).toBeGreaterThan(1);
  });
  it('without a way to meet it, gives the nearest combination, the limit and the miss', () => {
    const { recommended, best, feasible, stageInput, alternatives } = proposed(limited(25, 30));
    expect(feasible).toBe(false);
    expect(recommended).toEqual(best);
    expect(alternatives).toEqual([]);
    expect(recommended.values).toMatchObject({ 'input pad': 0, 'input equalizer': 0 });
    expect(stageInput).toMatchObject({ applied: true, missedLimit: 'min' });
    expect(stageInput?.missDb).toBeCloseTo(5, 9);
    expect(stageInput?.note).toBe(
      'Stage input 20.0 dBmV at 870 MHz, 5.0 dB below 25.0 dBmV: no combination comes nearer to its limit.',
    );
  });
  it('on the other side too, with a true minus sign', () => {
    const { stageInput } = proposed(limited(-40, -30));
    expect(stageInput).toMatchObject({ missedLimit: 'max' });
    expect(stageInput?.note).toContain('above \u221230.0 dBmV');
  });
});

describe('what the stage input is uncertain by', () => {
  const budget = { contributions: [], commonDb: 0.3, acrossDb: 0, singleDb: 0.2 };
  const two = [100, 200].map((frequencyMhz) => ({ frequencyMhz, levelDbmv: 10 }));
  it('by hand: one reading, two at half their weight, and the parts before the stage', () => {
    expect(inputUncertaintyDb(two, 200, budget, 0)).toBeCloseTo(Math.hypot(0.3, 0.2), 12);
    expect(inputUncertaintyDb(two, 150, budget, 0)).toBeCloseTo(Math.hypot(0.3, 0.1, 0.1), 12);
    expect(inputUncertaintyDb(two, 300, budget, 0)).toBeCloseTo(Math.hypot(0.3, 0.2, 0.4), 12);
    // Two rows at next to nothing tell no level at 867 MHz, however flat they look.
    const hairline = [5e-324, 1e-323].map((frequencyMhz) => ({ frequencyMhz, levelDbmv: 0 }));
    expect(inputUncertaintyDb(hairline, 867, budget, 0)).toBeNull();
    const partDb = USUAL_PART_TOLERANCE_DB / Math.sqrt(3);
    expect(inputUncertaintyDb(two, 200, budget, 2)).toBeCloseTo(Math.hypot(0.3, 0.2, partDb, partDb), 12);
  });
  it('is in the answer with an uncertainty, with the chance of lying within the limit', () => {
    const uncertainty = { meter: MeterUncertainty.parse({}), ambientC: 20 };
    const proposal = propose({ rows, station, inputRows, uncertainty });
    if (!proposal.ok) throw new Error(proposal.code);
    expect(proposal.value.stageInput?.uDb).toBeGreaterThan(0.3);
    expect(proposal.value.stageInput?.probability).toBeGreaterThan(0);
    expect(propose({ rows, station, inputRows })).not.toHaveProperty('value.stageInput.uDb');
  });
});
