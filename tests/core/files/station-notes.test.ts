import { describe, expect, it } from 'vitest';
import { readStationNotes } from '../../../core/files/station-notes.ts';

const text = (more: Readonly<Record<string, unknown>>) =>
  JSON.stringify({ format: 'tiltwright-station-notes/1', ...more });
const qam = { channelLabel: '2', frequencyMhz: 57, kind: 'qam', qamOrder: 256, widthMhz: 6, offsetDb: -6 };
const gain = { name: 'gain', kind: 'gain', rangeDb: [-2, 2], atMhz: 867 };

describe('readStationNotes', () => {
  it('reads a line-up, trims and a meter, its missing numbers filled in', () => {
    const given = {
      lineUp: [qam],
      trims: [gain, { ...gain, name: 'slope', kind: 'slope', port: 'forward output' }],
    };
    expect(readStationNotes(text({ ...given, meter: { accuracyDb: 1 } }), 'notes')).toMatchObject({
      ok: true,
      value: { ...given, meter: { accuracyDb: 1, repeatabilityDb: 0.125, calibratedAtC: 23 } },
    });
    expect(readStationNotes(text({}), 'notes')).toMatchObject({ ok: true });
    const figures = {
      span: { cable: '.625', lengthM: 379, perDegreeF: 0.001 },
      amplifier: { noiseFigureDb: 9, gainDb: 38, ratedAtDbmv: 46, ctbDbc: -73, csoDbc: -70, xmodDbc: -70 },
      cascade: { alikeAhead: 3, source: { cnrDb: 52, ctbDbc: -66, csoDbc: -63, merDb: 42 } },
    };
    expect(readStationNotes(text(figures), 'notes')).toMatchObject({ ok: true, value: figures });
  });
  it.each([
    ['no JSON', 'line-up', 'notes.json', 'not a JSON file'],
    ['an unknown key', text({ lineup: [] }), 'notes.json', 'lineup'],
    [
      'two channels in one place',
      text({ lineUp: [qam, { ...qam, channelLabel: '3' }] }),
      'lineUp',
      'both take 54 MHz',
    ],
    ['a width that no channel has', text({ lineUp: [{ ...qam, widthMhz: 0 }] }), 'lineUp', 'only a pilot'],
    ['a range that is none', text({ trims: [{ ...gain, rangeDb: [1, 2] }] }), 'trims.0.rangeDb.0', '0'],
    ['two trims of one name', text({ trims: [gain, gain] }), 'trims.1.name', 'two trims'],
    ['a negative uncertainty', text({ meter: { accuracyDb: -1 } }), 'meter.accuracyDb', '0'],
    ['a cable that nobody knows', text({ span: { cable: '.666', lengthM: 9 } }), 'span.cable', '.750'],
    ['a span of no length', text({ span: { cable: '.750', lengthM: 0 } }), 'span.lengthM', '0'],
    [
      'a rating without its level',
      text({ amplifier: { noiseFigureDb: 8, ctbDbc: -70 } }),
      'ratedAtDbmv',
      'level',
    ],
    [
      'a distortion above the carrier',
      text({ amplifier: { noiseFigureDb: 8, ratedAtDbmv: 46, csoDbc: 70 } }),
      'amplifier.csoDbc',
      '0',
    ],
    [
      'an amplifier with an unknown key',
      text({ amplifier: { noiseFigureDb: 8, ctb: -70 } }),
      'amplifier',
      'ctb',
    ],
    [
      'a station that is fed and has a source',
      text({ cascade: { fedBy: 'a', source: { cnrDb: 50 } } }),
      'cascade.fedBy',
      'no source',
    ],
    ['an uncertainty without a name', text({ meter: { acuracyDb: 1 } }), 'meter', 'acuracyDb'],
  ])('refuses %s with file and key', (_what, given, where, help) => {
    const read = readStationNotes(given, 'notes.json');
    if (read.ok) throw new Error('read');
    expect(read.where).toContain(where);
    expect(read.help).toContain(help);
  });
});
