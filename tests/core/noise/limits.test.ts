import { describe, expect, it } from 'vitest';
import { cnrLimit, distortionLimit, inHandDb, merLimit, signalClassOf } from '../../../core/noise/limits.ts';

const apart = { isCoherent: false, why: 'STD' };
const comb = { isCoherent: true, why: 'HRC' };

// 47 CFR 76.605(a)(8), 51 dB, and ANSI/SCTE 40, -53 dBc, both as cited by Hranac, "Digital Proofs or Not", part 2; 43, 27
// and 33 dB, and 47 dB for coherent carriers, from memory, which the limit itself says.
describe('limits', () => {
  it('are those of the rules, each with its source and on whose word', () => {
    expect(cnrLimit('analog')).toEqual({
      ...{ side: 'least', limitDb: 43, source: '47 CFR 76.605', basis: 'from memory', why: null },
    });
    expect(cnrLimit('digital')).toBeNull();
    for (const kind of ['ctb', 'cso', 'xmod'] as const)
      expect(distortionLimit('analog', kind, apart)).toMatchObject({
        limitDb: -51,
        basis: 'read',
        why: 'STD',
      });
    expect(distortionLimit('digital', 'ctb', comb)).toMatchObject({ limitDb: -53, source: 'ANSI/SCTE 40' });
    expect(distortionLimit('digital', 'xmod', apart)).toBeNull();
    expect([64, 256, 4096].map((order) => merLimit(order)?.limitDb)).toEqual([27, 33, undefined]);
    expect(merLimit(256)).toMatchObject({ side: 'least', basis: 'from memory' });
  });
  it('of analog distortion is 4 dB wider on a comb, says why, and says that it is from memory', () =>
    expect(distortionLimit('analog', 'ctb', comb)).toMatchObject({
      ...{ limitDb: -47, basis: 'from memory', why: 'HRC' },
    }));
  it('leave something in hand on the good side of them', () => {
    const least = cnrLimit('analog');
    const most = distortionLimit('digital', 'cso', apart);
    if (least === null || most === null) throw new Error('no limit');
    expect([inHandDb(least, 45), inHandDb(least, 40)]).toEqual([2, -3]);
    expect([inHandDb(most, -60), inHandDb(most, -50)]).toEqual([7, -3]);
  });
  it('of analog rules hold for pilots too', () =>
    expect((['analog', 'cw', 'qam', 'ofdm', null] as const).map(signalClassOf)).toEqual([
      ...['analog', 'analog', 'digital', 'digital', 'digital'],
    ]));
});
