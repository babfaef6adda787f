import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { calls, events } from '../../../core/bridge/contract.ts';

const schemas = [
  ...Object.entries(calls).flatMap(([name, call]) => [
    [`${name}, in`, call.in] as const,
    [`${name}, out`, call.out] as const,
  ]),
  ...Object.entries(events),
];

describe('the contract', () => {
  it.each(schemas)('refuses an unknown key by name: %s', (_name, schema) => {
    const read = (schema as z.ZodType).safeParse({ kind: 'simulated', surprise: 1 });
    expect(read.success).toBe(false);
    expect(read.success ? '' : z.prettifyError(read.error)).toContain('surprise');
  });

  it.each(schemas)('can be described, so that its fingerprint sees it: %s', (_name, schema) => {
    expect(JSON.stringify(z.toJSONSchema(schema as z.ZodType, { io: 'input' })).length).toBeGreaterThan(20);
  });

  it.each(Object.keys({ ...calls, ...events }))('has a name of topic and act: %s', (name) => {
    expect(name).toMatch(/^[a-z]+(-[a-z]+)*\.[a-z]+$/);
  });

  it('asks for the cautions to be read', () => {
    const visit = { stationId: 'a', operator: '', ambientC: null };
    expect(calls['visits.begin'].in.safeParse({ ...visit, cautionsRead: true }).success).toBe(true);
    expect(calls['visits.begin'].in.safeParse({ ...visit, cautionsRead: false }).success).toBe(false);
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY, 0, -5, 3001])('takes no frequency of %d MHz', (mhz) => {
    const sweep = {
      visitId: '7d4a3c52-6f0e-4c1b-9a55-0d3f7b1c2e90',
      portName: 'output',
      purpose: 'check',
      frequenciesMhz: [mhz],
    };
    expect(calls['sweeps.start'].in.safeParse(sweep).success).toBe(false);
    expect(calls['sweeps.start'].in.safeParse({ ...sweep, frequenciesMhz: [750] }).success).toBe(true);
  });
});
