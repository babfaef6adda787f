import { describe, expect, it } from 'vitest';
import { recordDocuments } from '../../../core/files/record-documents.ts';
import { recordName, referencesOf, travels } from '../../../core/files/record-references.ts';

const digest = () => 'd'.repeat(64);

describe('what a record is called', () => {
  it.each([
    ['sweep', { sweepId: 'a', visit: 'b' }, 'a'],
    ['visit-end', { visit: 'b', note: '' }, 'b'],
    ['set-up-event', { setUp: 'c', place: 3 }, 'c/3'],
    ['notes', { stationId: 'slipway' }, digest()],
  ])('is, of a %s', (kind, document, name) => {
    expect(recordName(kind, document, digest)).toBe(name);
  });
});

describe('what a record names', () => {
  it('is found in it and in what it holds, each once', () => {
    const sweep = {
      ...{ sweepId: 's', visit: 'v', design: 'd', session: 'x', stationId: 'slipway' },
      end: { session: 'y' },
      corrects: { sweep: 'o' },
    };
    expect(referencesOf('sweep', sweep)).toEqual([
      { kind: 'session', id: 'x' },
      { kind: 'visit', id: 'v' },
      { kind: 'design', id: 'd' },
      { kind: 'session', id: 'y' },
      { kind: 'sweep', id: 'o' },
    ]);
    const watch = {
      ...{ watchId: 'w', visit: null, design: 'd', session: 'x', end: { session: 'x' } },
      meters: [{ session: 'y' }],
      temperatures: [{ session: 'z' }],
      rounds: { session: ['x', 'u'] },
    };
    expect(referencesOf('watch', watch).map(({ id }) => id)).toEqual(['x', 'd', 'y', 'z', 'u']);
  });

  it("is not a design's own text", () => {
    expect(referencesOf('design', { designId: 'd', design: '{}', session: 'x' })).toEqual([
      { kind: 'session', id: 'x' },
    ]);
  });
});

it("travels, but for what is one laptop's own", () => {
  const staying = Object.keys(recordDocuments).filter((kind) => !travels(kind));
  expect(staying).toEqual(['settings', 'truck', 'meter-use', 'simulated-hand']);
});
