import { describe, expect, it } from 'vitest';
import { contractVersion, fnv1a } from '../../../core/bridge/fingerprint.ts';

describe('fnv1a', () => {
  // Test vectors of the 32-bit FNV-1a as its authors publish them (from memory).
  it.each([
    ['', '811c9dc5'],
    ['a', 'e40c292c'],
    ['b', 'e70c2de5'],
    ['foobar', 'bf9cf968'],
  ])('of %j is the published value', (text, hash) => {
    expect(fnv1a(text)).toBe(hash);
  });
});

it('names the contract in eight digits, the same at every asking', () => {
  expect(contractVersion()).toMatch(/^[0-9a-f]{8}$/);
  expect(contractVersion()).toBe(contractVersion());
});
