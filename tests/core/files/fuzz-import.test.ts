import { expect, it } from 'vitest';
import { createChance } from '../../support/chance.ts';
import { importFault, mutated, ownSeeds } from '../../support/fuzz-import.ts';

// The fuzzer of `npm run fuzz` in small: the same seed, the same mutations.
it('mutated files of every dialect are read into numbers or refused in one line', () => {
  const chance = createChance(20261125);
  for (const seed of ownSeeds) {
    const name = /^(!|\[V)/.test(seed) ? 'own.s2p' : 'own.txt';
    expect(importFault(seed, name)).toBeNull();
    for (let i = 0; i < 150; i++) {
      const text = mutated(seed, chance);
      expect([importFault(text, name), text]).toEqual([null, text]);
    }
  }
});
