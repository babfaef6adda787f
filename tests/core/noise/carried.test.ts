import { describe, expect, it } from 'vitest';
import type { LineUpEntry } from '../../../core/channels/line-up.ts';
import { carriedBy } from '../../../core/noise/carried.ts';

const entries = (count: number, over: Partial<LineUpEntry>): LineUpEntry[] =>
  Array.from({ length: count }, (_, i) => ({
    ...{ channelLabel: `${i}`, frequencyMhz: 57 + 6 * i, kind: 'qam' as const, qamOrder: 256 },
    ...{ widthMhz: 6, offsetDb: -6, ...over },
  }));

describe('what is carried', () => {
  it('is told by the line-up: the commonest QAM, at its level', () => {
    const lineUp = [...entries(30, {}), ...entries(9, { qamOrder: 64, offsetDb: -10 })];
    expect(carriedBy(lineUp, null)).toEqual({
      ...{ judgedAs: 'digital', bandwidthMhz: 4, from: 'line-up' },
      coherence: { isCoherent: false, why: 'fewer than two analog carriers make no comb' },
      qam: { order: 256, offsetDb: -6, isTaken: false },
    });
  });
  it('is judged as analog as soon as one analog channel is among it, but not for a pilot', () => {
    const { qamOrder: _, ...analog } = entries(1, { kind: 'analog', offsetDb: 0 })[0] as LineUpEntry;
    const { qamOrder: _order, ...pilot } = entries(1, { kind: 'cw', widthMhz: 0 })[0] as LineUpEntry;
    expect(carriedBy([...entries(5, {}), analog], null).judgedAs).toBe('analog');
    expect(carriedBy([...entries(5, {}), pilot], null).judgedAs).toBe('digital');
    expect(carriedBy([analog], null).qam).toBeNull();
  });
  it('knows from line-up or sweep alike that its analog carriers stand on a comb', () => {
    const { qamOrder: _, ...analog } = entries(1, { kind: 'analog', offsetDb: 0 })[0] as LineUpEntry;
    const onComb = [9, 10, 11].map((n) => ({ ...analog, frequencyMhz: n * 6.0003 }));
    expect(carriedBy([...onComb, ...entries(5, {})], null).coherence.isCoherent).toBe(true);
    const rows = onComb.map(({ frequencyMhz }) => ({ frequencyMhz, levelDbmv: 40, kind: 'analog' as const }));
    expect(carriedBy(null, rows).coherence.isCoherent).toBe(true);
  });
  it('has the wider noise bandwidth where channels are 7 or 8 MHz wide', () =>
    expect(carriedBy(entries(5, { widthMhz: 8 }), null).bandwidthMhz).toBe(4.75));
  it('is told by the sweep where there is no line-up, and taken where nothing tells', () => {
    const rows = [57, 63, 69].map((frequencyMhz) => ({ frequencyMhz, levelDbmv: 40, modulation: '64-QAM' }));
    expect(carriedBy(null, rows)).toMatchObject({ from: 'sweep', qam: { order: 64, offsetDb: 0 } });
    const bare = [57, 63].map((frequencyMhz) => ({ frequencyMhz, levelDbmv: 40 }));
    for (const nothing of [null, [], bare])
      expect(carriedBy([], nothing)).toMatchObject({ from: 'nothing', qam: { order: 256, isTaken: true } });
  });
});
