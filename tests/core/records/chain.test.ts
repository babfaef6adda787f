import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { GENESIS, linkHash, linkText } from '../../../core/records/chain.ts';

const sha256Hex = (text: string) => createHash('sha256').update(text, 'utf8').digest('hex');
const device = '6d1c1f2e-5d0e-4c7b-9a53-0f6f3f0d2b11';
const place = { device, seq: 1, previous: GENESIS };
const document = { note: 'pad 6 → 5', endedAtMs: 1772438400000, visit: 'v' };

// By hand, from the words of the docstring; SHA-256 by node:crypto, which knows nothing of this program.
it('hashes the kind, the place and the record, as anybody can who has a hash function', () => {
  const text = `tiltwright-record/1\n${device}\n1\n${'0'.repeat(64)}\nvisit-end\n{"endedAtMs":1772438400000,"note":"pad 6 → 5","visit":"v"}`;
  expect(linkText(place, 'visit-end', document)).toBe(text);
  expect(linkHash(place, 'visit-end', document, sha256Hex)).toBe(
    createHash('sha256').update(Buffer.from(text, 'utf8')).digest('hex'),
  );
});

it('differs when any part of it does', () => {
  const hash = linkHash(place, 'visit-end', document, sha256Hex);
  const others = [
    linkHash({ ...place, seq: 2 }, 'visit-end', document, sha256Hex),
    linkHash({ ...place, device: device.replace('6', '7') }, 'visit-end', document, sha256Hex),
    linkHash({ ...place, previous: hash }, 'visit-end', document, sha256Hex),
    linkHash(place, 'visit', document, sha256Hex),
    linkHash(place, 'visit-end', { ...document, endedAtMs: document.endedAtMs + 1 }, sha256Hex),
  ];
  expect(new Set([hash, ...others]).size).toBe(6);
});

it('has no place 0, none between two, and follows nothing that is no hash', () => {
  for (const seq of [0, -1, 1.5, Number.NaN])
    expect(() => linkText({ ...place, seq }, 'visit', document)).toThrow(RangeError);
  for (const previous of ['', GENESIS.slice(1), `${GENESIS.slice(1)}G`, `${GENESIS}\n`])
    expect(() => linkText({ ...place, previous }, 'visit', document)).toThrow(RangeError);
});
