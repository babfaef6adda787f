import { describe, expect, it } from 'vitest';
import { explainProposal, shapeShare } from '../../../core/propose/explain.ts';
import type { Choice } from '../../../core/propose/objective.ts';
import type { Proposal } from '../../../core/propose/propose.ts';
import { remainsOf, whyOf } from '../../../core/propose/why.ts';

const design = {
  lowMhz: 54,
  lowDbmv: 36,
  highMhz: 870,
  highDbmv: 46,
  shape: 'linear' as const,
  toleranceDb: 1,
  flatnessDb: 2.5,
};
const choice = (worstDb: number, flatnessDb: number, changeCount: number): Choice => ({
  values: {},
  changes: Array.from({ length: changeCount }, (_, i) => ({ position: `p${i}`, from: 0, to: 1 })),
  worstDb,
  flatnessDb,
  fit: { lowDbmv: 36, highDbmv: 46, tiltDb: 10 },
});
const proposal = (before: Choice, recommended: Choice, best = recommended, more: Partial<Proposal> = {}) => ({
  portName: 'out',
  count: 137,
  before,
  best,
  recommended,
  alternatives: [],
  feasible: true,
  stageInput: null,
  excluded: [],
  why: whyOf(before, design),
  remains: remainsOf(recommended, 0, design),
  pareto: [],
  ...more,
});
const said = (...given: Parameters<typeof proposal>) => explainProposal(proposal(...given), design);

describe('explainProposal', () => {
  it('says what it will give, and no more when that is well inside', () =>
    expect(said(choice(2.4, 1, 0), choice(0.4, 0.8, 2))).toBe('Worst channel 2.4 → 0.4 dB from design.'));
  it('names the trims to turn after the plug-ins, and what is left then', () => {
    const moves = [
      { name: 'gain', kind: 'gain' as const, atMhz: 867, byDb: -1.3, text: 'turn down 1.3 dB at 867 MHz' },
    ];
    const after = choice(1.7, 0.8, 2);
    const withTrims = { moves, worstDb: 0.4, flatnessDb: 0.8, fit: after.fit };
    expect(said(choice(2.4, 1, 0), { ...after, withTrims })).toBe(
      'Worst channel 2.4 → 1.7 dB from design. Then turn down 1.3 dB at 867 MHz: 0.4 dB.',
    );
  });
  it('says that the rest is shape when it nearly all is', () =>
    expect(said(choice(2.4, 1.2, 0), choice(0.7, 1.2, 2))).toBe(
      'Worst channel 2.4 → 0.7 dB from design. The rest is shape: no plug-in mends it.',
    ));
  it('says that about half is, when the line is off as well', () =>
    expect(said(choice(4, 1.2, 0), choice(1.2, 1.2, 2))).toContain('About half of it is shape'));
  it('names what more changes would buy', () => {
    expect(said(choice(4, 0.4, 0), choice(0.9, 0.3, 1), choice(0.3, 0.3, 3))).toContain(
      '2 more changes would bring it to 0.3 dB.',
    );
    expect(said(choice(4, 0.4, 0), choice(0.9, 0.3, 1), choice(0.3, 0.3, 2))).toContain(
      '1 more change would',
    );
  });
  it('does not blame the shape for what the kit lacks', () =>
    expect(said(choice(4, 0.4, 0), choice(2, 0.4, 1))).toContain('Nothing in the kit brings it nearer.'));
  it('says that there is nothing to change, or that no change buys enough', () => {
    expect(said(choice(0.4, 0.6, 0), choice(0.4, 0.6, 0))).toBe(
      'Nothing to change: worst channel 0.4 dB from design.',
    );
    expect(said(choice(1.6, 3, 0), choice(1.6, 3, 0))).toBe(
      'No change buys enough: worst channel 1.6 dB from design. The rest is shape: no plug-in mends it.',
    );
  });
  it('begins with the limit that nothing meets', () => {
    const stageInput = {
      applied: true,
      note: 'Stage input 5.0 dB low.',
      atMhz: 870,
      minDbmv: 8,
      maxDbmv: 14,
    };
    expect(said(choice(2, 1, 0), choice(1.8, 1, 1), undefined, { feasible: false, stageInput })).toBe(
      'Stage input 5.0 dB low. Worst channel 2.0 → 1.8 dB from design.',
    );
  });
});

it('never calls more than all of it shape, and nothing of nothing', () => {
  expect(shapeShare({ worstDb: 1, flatnessDb: 1 })).toBe(0.5);
  expect(shapeShare({ worstDb: 1, flatnessDb: 3 })).toBe(1);
  expect(shapeShare({ worstDb: 0, flatnessDb: 0 })).toBe(0);
});
