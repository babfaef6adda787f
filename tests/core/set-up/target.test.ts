import { describe, expect, it } from 'vitest';
import { installedOf } from '../../../core/files/station.ts';
import { setUpPlan } from '../../../core/set-up/plan.ts';
import { setUpState } from '../../../core/set-up/state.ts';
import { setUpStepIds } from '../../../core/set-up/steps.ts';
import { stepTarget } from '../../../core/set-up/target.ts';
import { all, asked, lighthouse, skipped } from './lighthouse.ts';

const planAt = (ambientC: number | null, topMhz = 870) => {
  const plan = setUpPlan(lighthouse, { ...asked('new-module', ambientC), topMhz, topCarrierMhz: 747 });
  if (!plan.ok) throw new Error(plan.help);
  return plan.value;
};
const whole = setUpState('new-module', all('new-module'));
const target = (id: Parameters<typeof stepTarget>[4], ambientC: number | null = -18, topMhz = 870) =>
  stepTarget(lighthouse, installedOf(lighthouse), planAt(ambientC, topMhz), whole, id);

// Reserve 3.5, 4.0 and 4.5 dB at 750, 870 and 1000 MHz: common practice, no published source.
describe('backing off', () => {
  it.each([
    [750, 46.5, 'practice'],
    [870, 46, 'practice'],
    [1000, 45.5, 'practice'],
    [810, 46.25, 'interpolated'],
    [1100, 45.115, 'extrapolated'],
  ])('at %d MHz comes to %d dBmV from a maximum of 50 (%s)', (topMhz, levelDbmv, basis) => {
    expect(target('back-off', 20, topMhz)).toMatchObject({ toleranceDb: 0.2, basis });
    const found = target('back-off', 20, topMhz);
    expect('levelDbmv' in found ? found.levelDbmv : null).toBeCloseTo(levelDbmv, 2);
  });

  it('has no target while the maximum is not known', () => {
    const state = setUpState('new-module', [...all('new-module').slice(0, 5), skipped('max-gain')]);
    expect(stepTarget(lighthouse, installedOf(lighthouse), planAt(20), state, 'back-off')).toEqual({
      why: 'the maximum gain was not recorded',
    });
  });
});

// +2, +1, 0, -1, -2 dB by bands of temperature: common practice, no published source.
describe('the compensation for the day', () => {
  it('is said in the units that were chosen, and computed in dBmV and degrees C all the same', () => {
    const said = { levelUnit: 'dBuV', temperatureUnit: 'F' } as const;
    const found = stepTarget(lighthouse, installedOf(lighthouse), planAt(-18), whole, 'ambient', said);
    // 50 dBmV is 110 dBµV, and -18 degrees C are 0 degrees F (definitions).
    expect(found).toMatchObject({
      levelDbmv: 44,
      words:
        'the maximum of 110.0\u00A0dB\u00B5V less the reserve of 4.0 dB, and \u22122.0 dB for 0\u00A0\u00B0F',
    });
  });

  it.each([
    [40, 48],
    [35, 47],
    [20, 46],
    [0, 45],
    [-18, 44],
  ])(
    'at %d °C sets %d dBmV: higher on a hot day, whose cable has used some of the reserve',
    (ambientC, levelDbmv) => {
      const found = target('ambient', ambientC);
      expect('levelDbmv' in found ? found.levelDbmv : null).toBeCloseTo(levelDbmv, 9);
    },
  );

  it('says beside the rule what physics says of this span, and where they disagree', () => {
    // 28 dB at 0.002 a degree: contract, section 3, spanOffsetDb = span perDegreeC (ambient - 15.6).
    const cold = target('ambient', -18);
    expect('physics' in cold ? cold.physics : null).toMatchObject({ ruleDb: -2, disagree: false });
    expect('physics' in cold ? cold.physics?.spanDb : null).toBeCloseTo(28 * 0.002 * (-18 - 15.6), 9);
    const hot = stepTarget(
      lighthouse,
      installedOf(lighthouse),
      { ...planAt(40), spanDb: 10 },
      whole,
      'ambient',
    );
    expect('physics' in hot ? hot.physics : null).toMatchObject({ ruleDb: 2, disagree: true });
  });

  it('waits for a temperature', () => {
    expect(target('ambient', null)).toEqual({ why: "say today's temperature" });
  });
});

describe('the other targets', () => {
  it('are the design: the input behind what is plugged in, and the pilot on the line', () => {
    // 8 to 14 dBmV behind a pad of 6 and an equalizer of 18 with 1 dB of insertion loss, at 867 MHz of 870.
    const loss = 6 + 1 + 18 * (1 - Math.sqrt(867 / 870));
    const input = target('input-level');
    expect(input).toMatchObject({ toleranceDb: 3, basis: 'design' });
    expect('levelDbmv' in input ? input.levelDbmv : null).toBeCloseTo(11 + loss, 9);
    // 36 dBmV at 54 MHz and 46 at 870, straight in f.
    const pilot = target('pilot');
    expect(pilot).toMatchObject({ toleranceDb: 1, basis: 'design' });
    expect('levelDbmv' in pilot ? pilot.levelDbmv : null).toBeCloseTo(36 + (10 * (711 - 54)) / 816, 9);
  });

  it('of the range test is the level that was set', () => {
    expect(target('range-test')).toMatchObject({ levelDbmv: 46, toleranceDb: 0.2 });
  });

  it('are missing, with the reason, where the station does not say', () => {
    const { stageInput: _no, ...bare } = lighthouse;
    expect(stepTarget(bare, installedOf(bare), planAt(20), whole, 'input-level')).toHaveProperty('why');
    const deaf = { ...planAt(20), pilotMhz: null };
    expect(stepTarget(lighthouse, installedOf(lighthouse), deaf, whole, 'pilot')).toEqual({
      why: 'no pilot was chosen',
    });
  });

  it('are finite or said to be none, for every step', () => {
    for (const id of setUpStepIds) {
      const found = target(id);
      expect('why' in found ? found.why !== '' : Number.isFinite(found.levelDbmv), id).toBe(true);
    }
  });
});
