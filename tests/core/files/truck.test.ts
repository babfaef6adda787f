import { describe, expect, it } from 'vitest';
import { readTruck } from '../../../core/files/truck.ts';

const pad = { kind: 'pad', valueDb: 3, count: 2 };
const text = (...parts: unknown[]) => JSON.stringify({ format: 'tiltwright-truck/1', parts });

describe('readTruck', () => {
  it('reads a stock, with and without tolerances', () => {
    const parts = [pad, { kind: 'equalizer', topMhz: 870, valueDb: 8, count: 0, toleranceDb: 0.5 }];
    expect(readTruck(`\uFEFF${text(...parts)}`, 'truck.json')).toMatchObject({ ok: true, value: { parts } });
  });
  it.each([
    ['no JSON', '{', 'truck.json', 'tiltwright-truck/1'],
    ['an unknown key', text({ ...pad, vlaue: 3 }), 'truck.json, parts.0', 'vlaue'],
    ['a part without a value', text({ kind: 'pad', count: 1 }), 'parts.0.valueDb', 'number'],
    ['a negative loss', text({ ...pad, valueDb: -3 }), 'parts.0.valueDb', '0'],
    ['half a part', text({ ...pad, count: 1.5 }), 'parts.0.count', 'whole number'],
    ['an equalizer without a top frequency', text({ ...pad, kind: 'equalizer' }), 'parts.0.topMhz', 'number'],
    ['a pad with a top frequency', text({ ...pad, topMhz: 870 }), 'parts.0', 'topMhz'],
    ['a part listed twice', text(pad, { ...pad, count: 1 }), 'parts.1', 'pad 3 dB is listed before'],
    ['another format', JSON.stringify({ format: 'x', parts: [] }), 'format', 'tiltwright-truck/1'],
  ])('refuses %s with file and key', (_what, given, where, help) => {
    const read = readTruck(given, 'truck.json');
    if (read.ok) throw new Error('read');
    expect(read.where).toContain(where);
    expect(read.help).toContain(help);
  });
});
