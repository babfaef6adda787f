import { describe, expect, it } from 'vitest';
import { setUpPlan } from '../../../core/set-up/plan.ts';
import { asked, lighthouse } from './lighthouse.ts';

describe('a set-up is planned', () => {
  it('from the station, where nothing else is said', () => {
    expect(setUpPlan(lighthouse, asked('check'))).toEqual({
      ok: true,
      value: {
        kind: 'check',
        outputPort: 'forward output',
        inputPort: 'forward input',
        topMhz: 870,
        topCarrierMhz: 867,
        pilotMhz: 711,
        spanDb: 28,
        ambientC: -18,
      },
    });
  });

  it('with what the technician says', () => {
    const said = { ...asked('new-module', 31), topMhz: 750, topCarrierMhz: 747, pilotMhz: 609, spanDb: 21 };
    const plan = setUpPlan(lighthouse, said);
    expect(plan.ok ? plan.value : plan).toMatchObject({
      topMhz: 750,
      topCarrierMhz: 747,
      pilotMhz: 609,
      spanDb: 21,
      ambientC: 31,
    });
  });

  it('at the top frequency itself where no carrier is known', () => {
    const { stageInput: _no, gainControl: _none, ...bare } = lighthouse;
    const plan = setUpPlan(bare, asked('check'));
    expect(plan.ok ? plan.value : plan).toMatchObject({
      topMhz: 870,
      topCarrierMhz: 870,
      pilotMhz: null,
      inputPort: 'forward input',
    });
  });

  it('not without an output that has a design, nor with a carrier above the top', () => {
    const ports = lighthouse.ports.filter(({ design }) => design === undefined);
    expect(setUpPlan({ ...lighthouse, ports }, asked('check'))).toMatchObject({ code: 'no-design' });
    expect(setUpPlan(lighthouse, { ...asked('check'), topMhz: 750 })).toMatchObject({ code: 'bad-top' });
  });
});
