import { describe, expect, it } from 'vitest';
import type { Station } from '../../../core/files/station.ts';
import { seasonPlan } from '../../../core/season/plan.ts';
import { harbourStation } from './harbour-station.ts';

const without = (key: 'span' | 'gainControl'): Station => {
  const { [key]: _gone, ...rest } = harbourStation();
  return rest;
};

describe('what a season needs', () => {
  it('is the first forward port with a design, not the return', () => {
    const plan = seasonPlan(harbourStation());
    expect(plan.ok && plan.value.portName).toBe('forward output');
    expect(plan.ok && plan.value.design.highMhz).toBe(870);
  });

  it('may be asked for another mode', () => {
    const plan = seasonPlan(harbourStation(), 'manual');
    expect(plan.ok && plan.value.gainControl.mode).toBe('manual');
  });

  it.each([
    [without('span'), 'no-span', 'span'],
    [without('gainControl'), 'no-gain-control', 'gainControl'],
    [harbourStation({ mode: 'thermal' }), 'no-tracking', '0.8'],
    [{ ...harbourStation(), ports: harbourStation().ports.slice(0, 1) }, 'no-design', 'design'],
    [{ ...harbourStation(), span: { lossDb: 1e300, topMhz: 870, perDegreeC: 0.002 } }, 'bad-value', '1000'],
    [
      { ...harbourStation(), span: { lossDb: 22, topMhz: 870, perDegreeC: 2 } },
      'bad-value',
      'between 0 and 1',
    ],
  ] as const)('is refused where it is missing: %#', (station, code, word) => {
    const plan = seasonPlan(station);
    if (plan.ok) throw new Error('taken');
    expect(plan.code).toBe(code);
    expect(plan.help).toContain(word);
    expect(plan.where).toContain('Quillmere harbour 9');
  });
});
