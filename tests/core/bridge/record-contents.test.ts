import { describe, expect, it } from 'vitest';
import { checkedContents } from '../../../core/bridge/record-contents.ts';
import { stationFile } from '../../support/archive.ts';

const end = { state: 'complete', reason: null, recovered: 0, readingCount: 2, endedAtMs: 1, session: 'x' };
const sweep = {
  ...{ source: 'meter', pluggedIn: { 'input pad': '6', tilt: '0.5' }, plannedCount: 2, end },
  meter: { maker: 'Q', model: 'Level 4', serialNumber: '1', firmware: '1' },
  readings: { frequencyHz: [1, 2], meterMdbmv: [null, 3], kind: [null, 'cw'], takenAtMs: [1, 2] },
};
const live = {
  ...{ meter: JSON.stringify(sweep.meter), pluggedIn: '{}', end: { readingCount: 1 } },
  readings: { elapsedMs: [0], meterMdbmv: [1], takenAtMs: [1] },
};
const watch = {
  frequencies: '[711000000]',
  meters: [{ choice: '{"kind":"simulated"}', meter: JSON.stringify(sweep.meter) }],
  rounds: { round: [0, 1], rounds: [1, 1], gap: [null, null], takenAtMs: [1, 2], session: ['x', 'x'] },
  levels: { round: [0, 0, 1], place: [0, 1, 0], meterMdbmv: [1, null, 2] },
};
const odd = (kind: string, document: object) => checkedContents(kind, document as never, 'a, line 2');

describe('what a record holds', () => {
  it('is taken as this program keeps it', () => {
    const whole = {
      sweep,
      live,
      watch,
      design: { design: stationFile() },
      fitting: { from: '6', to: '5.5' },
    };
    for (const [kind, document] of Object.entries(whole))
      expect(odd(kind, document)).toMatchObject({ ok: true });
  });

  it.each([
    ['lists of two lengths', 'sweep', { ...sweep, readings: { ...sweep.readings, takenAtMs: [1] } }],
    ['an end that counts others', 'sweep', { ...sweep, end: { ...end, readingCount: 3 } }],
    ['a complete one that lacks readings', 'sweep', { ...sweep, plannedCount: 3 }],
    ['a reason for a complete one', 'sweep', { ...sweep, end: { ...end, reason: 'rain' } }],
    ['a meter that none is', 'sweep', { ...sweep, meter: { maker: 'Q' } }],
    ['a meter for a file', 'sweep', { ...sweep, source: 'file' }],
    ['a value with another spelling', 'sweep', { ...sweep, pluggedIn: { 'input pad': '6.0' } }],
    ['a value with another spelling', 'fitting', { from: '6', to: '05' }],
    ['a design that is no station', 'design', { design: '{}' }],
    ['notes that are no JSON', 'notes', { notes: '{' }],
    ['another count of live readings', 'live', { ...live, end: { readingCount: 2 } }],
    [
      'levels out of order',
      'watch',
      { ...watch, levels: { round: [1, 0], place: [0, 0], meterMdbmv: [1, 2] } },
    ],
    ['a choice of no meter', 'watch', { ...watch, meters: [{ choice: '{}', meter: '{}' }] }],
  ])('is refused with %s', (_, kind, document) => {
    expect(odd(kind, document)).toMatchObject({ ok: false, code: 'not-a-record', where: 'a, line 2' });
  });
});
