import { expect, it } from 'vitest';
import { fitModel, ownOf, type Part } from '../../../core/inspect/model.ts';
import { traceOf } from '../../../core/inspect/trace.ts';
import { notchAt, rippleOf, simulatedSweep } from './simulated-sweep.ts';

const most = (values: Float64Array) => values.reduce((top, x) => Math.max(top, Math.abs(x)), 0);

it('leaves nothing of a sweep that it describes', () => {
  const fault = (f: number) => rippleOf(48, 1)(f) + (f > 550 ? 2 : 0);
  const parts: Part[] = [
    { kind: 'ripple', told: true, ripple: { perMhz: 1 / 48, amplitudeDb: 0.5, logChance: -20 } },
    { kind: 'jump', told: true, jump: { atMhz: 552, stepDb: 2, logChance: -20 } },
  ];
  const trace = traceOf(simulatedSweep(fault));
  expect(most(fitModel(trace, parts).residualDb)).toBeLessThan(1e-9);
  expect(most(fitModel(trace, []).residualDb)).toBeGreaterThan(0.5);
});

it('leaves out the rows that a notch owns', () => {
  const bell = { centerMhz: 399, widthMhz: 20, heightDb: -6, logChance: -20 };
  expect(ownOf(bell)).toEqual({ fromMhz: 379, toMhz: 419 });
  const trace = traceOf(simulatedSweep(notchAt(399, 6, 20)));
  const fitted = fitModel(trace, [{ kind: 'bell', told: true, bell, own: ownOf(bell) }]);
  expect(fitted.mhz.filter((f) => f > 379 && f < 419)).toEqual([]);
  expect(fitted.mhz).toHaveLength(136 - 7);
});
