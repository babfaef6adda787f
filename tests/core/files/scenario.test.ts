import fc from 'fast-check';
import { expect, it } from 'vitest';
import { readScenario, Scenario } from '../../../core/files/scenario.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';

it('reads back every scenario of the demo', () => {
  expect(quillmere.length).toBe(6);
  for (const { scenario } of quillmere)
    expect(readScenario(`\uFEFF${JSON.stringify(scenario)}`, 's.json')).toEqual({
      ok: true,
      value: scenario,
    });
});

it('names the key that is wrong', () => {
  const [first] = quillmere;
  const text = (change: object) => JSON.stringify({ ...first?.scenario, ...change });
  expect(readScenario(text({ seed: -1 }), 's.json')).toMatchObject({ ok: false, where: 's.json, seed' });
  expect(readScenario(text({ moon: 1 }), 's.json')).toMatchObject({ ok: false, code: 'not-a-scenario' });
  expect(readScenario('{', 's.json')).toMatchObject({ ok: false, code: 'not-json' });
  const [port] = first?.scenario.ports ?? [];
  const rolloff = { kind: 'rolloff', edge: 'high', fromMhz: 870, edgeMhz: 750, depthDb: 3 };
  expect(readScenario(text({ ports: [{ ...port, faults: [rolloff] }] }), 's.json')).toMatchObject({
    ok: false,
  });
});

it('never throws', () => {
  fc.assert(fc.property(fc.json(), (text) => typeof readScenario(text, 's').ok === 'boolean'));
  expect(Scenario.safeParse(null).success).toBe(false);
});
