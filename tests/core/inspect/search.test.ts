import { describe, expect, it } from 'vitest';
import { searchParts } from '../../../core/inspect/search.ts';
import { traceOf } from '../../../core/inspect/trace.ts';
import { echoOf, notchAt, rippleOf, simulatedSweep } from './simulated-sweep.ts';

describe('the search', () => {
  it('finds each of several faults once, and exactly, beside the others', () => {
    const fault = (f: number) =>
      rippleOf(60, 1.2)(f) + notchAt(300, 5, 25)(f) - 3 * Math.max(0, (f - 780) / 87) ** 2;
    const parts = searchParts(traceOf(simulatedSweep(fault))).filter((part) => part.told);
    expect(parts.map((part) => part.kind).sort()).toEqual(['bell', 'bend', 'ripple']);
    const ripple = parts.find((part) => part.kind === 'ripple');
    expect(ripple?.kind === 'ripple' && 1 / ripple.ripple.perMhz).toBeCloseTo(60, 1);
    expect(ripple?.kind === 'ripple' && ripple.ripple.amplitudeDb).toBeCloseTo(0.6, 2);
  });

  it('keeps the overtones of an echo without telling them', () => {
    const parts = searchParts(traceOf(simulatedSweep(echoOf(0.3, 40))));
    expect(parts.length).toBeGreaterThan(1);
    expect(parts.filter((part) => part.told)).toHaveLength(1);
  });

  it('says nothing about too few rows', () => {
    const rows = simulatedSweep((f) => (f > 80 ? -9 : 0), { mhz: [57, 63, 69, 75, 81, 87, 93] });
    expect(searchParts(traceOf(rows))).toEqual([]);
  });
});
