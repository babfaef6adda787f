import { describe, expect, it } from 'vitest';
import { installedOf, type Station } from '../../../core/files/station.ts';
import { propose } from '../../../core/propose/propose.ts';
import { stageInputFor } from '../../../core/propose/stage-input.ts';
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
  it('refuses a sweep that has no level there', () =>
    expect(stageInputFor(station, [{ frequencyMhz: 54, levelDbmv: 30 }], false)).toMatchObject({
      ok: false,
      code: 'no-input-level',
    }));
});

describe('in a proposal', () => {
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
