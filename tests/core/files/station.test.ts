import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { installedOf, pluggedAt, readStation, type Station } from '../../../core/files/station.ts';

// The example of the contract, section 2, with one interstage pad more, which its `through` names.
const example = {
  format: 'tiltwright-station/1',
  id: 'qm4-07',
  name: '07 Mill Lane',
  ports: [
    {
      name: 'forward output',
      direction: 'forward',
      testPointLossDb: 20,
      design: {
        ...{ lowMhz: 54, lowDbmv: 36, highMhz: 870, highDbmv: 46, shape: 'linear' },
        ...{ toleranceDb: 1.0, flatnessDb: 2.5 },
      },
      through: ['input pad', 'input equalizer', 'interstage pad', 'interstage equalizer'],
    },
    { name: 'forward input', direction: 'forward', testPointLossDb: 20, through: [] },
  ],
  positions: [
    { name: 'input pad', kind: 'pad', installed: 6, values: [0, 1, 2, 3] },
    {
      ...{ name: 'input equalizer', kind: 'equalizer', topMhz: 870, insertionLossDb: 1 },
      ...{
        installed: 8,
        values: [0, 2, 4, 6, 8],
        curves: {
          '8': [
            [54, 7.1],
            [870, 1.0],
          ],
        },
      },
    },
    { name: 'interstage pad', kind: 'pad', installed: 4, values: [0, 4] },
    {
      ...{ name: 'interstage equalizer', kind: 'cable-simulator', topMhz: 870, insertionLossDb: 1 },
      ...{ installed: 0, values: [0, 3, 6] },
    },
  ],
  stageInput: {
    ...{ port: 'forward input', through: ['input pad', 'input equalizer'] },
    ...{ atMhz: 870, minDbmv: 8, maxDbmv: 14 },
  },
  span: { lossDb: 22, topMhz: 870, perDegreeC: 0.002, sky: 'aerial' },
  gainControl: {
    ...{ mode: 'auto', upDb: 4, downDb: 6, topMhz: 870, setAtC: 20 },
    ...{ pilotMhz: 711, thermalTracking: 0.8 },
  },
};
const read = (station: unknown) => readStation(JSON.stringify(station), 's.json');
const stationOf = (raw: unknown): Station => {
  const station = read(raw);
  if (!station.ok) throw new Error(`${station.where}: ${station.help}`);
  return station.value;
};

describe('a station file', () => {
  it("is read as the contract's example has it", () => {
    expect(stationOf(example)).toEqual(example);
  });

  it('needs neither stage input, span nor gain control, and has a byte order mark if it likes', () => {
    const { stageInput: _stageInput, span: _span, gainControl: _gainControl, ...plain } = example;
    expect(readStation(`\uFEFF${JSON.stringify(plain)}`, 's.json')).toEqual({ ok: true, value: plain });
  });

  it('fills in what the contract leaves open', () => {
    const [, input] = example.ports;
    const { testPointLossDb: _loss, through: _through, ...bare } = input ?? { name: 'x' };
    const { perDegreeC: _perDegreeC, ...span } = example.span;
    const station = stationOf({ ...example, ports: [example.ports[0], bare], span });
    expect(station.ports[1]).toMatchObject({ testPointLossDb: 0, through: [] });
    // 0.0011 per degree F, published; times 1.8.
    expect(station.span?.perDegreeC).toBeCloseTo(0.0011 * 1.8, 9);
  });

  it('says what is plugged in', () => {
    expect(installedOf(stationOf(example))).toEqual({
      'input pad': 6,
      'input equalizer': 8,
      'interstage pad': 4,
      'interstage equalizer': 0,
    });
  });

  const [output, input] = example.ports;
  const [pad, ...positions] = example.positions;
  it.each([
    ['an unknown key', { ...example, moon: 1 }, /moon/],
    ['an unknown key of a pad', { ...example, positions: [{ ...pad, topMhz: 870 }, ...positions] }, /topMhz/],
    ['another format', { ...example, format: 'tiltwright-station/2' }, /format/],
    ['no ports', { ...example, ports: [] }, /ports/],
    [
      'a design upside down',
      { ...example, ports: [{ ...output, design: { ...output?.design, lowMhz: 900 } }, input] },
      /below highMhz/,
    ],
    ['a position that is none', { ...example, ports: [{ ...output, through: ['attic'] }, input] }, /"attic"/],
    ['two positions of one name', { ...example, positions: [pad, pad, ...positions] }, /two positions/],
    ['two ports of one name', { ...example, ports: [output, output, input] }, /two ports/],
    [
      'a stage input elsewhere',
      { ...example, stageInput: { ...example.stageInput, port: 'attic' } },
      /"attic"/,
    ],
    ['a limit upside down', { ...example, stageInput: { ...example.stageInput, minDbmv: 20 } }, /maxDbmv/],
    [
      'a negative pad',
      { ...example, positions: [{ ...pad, values: [-1] }, ...positions] },
      /positions\.0\.values\.0/,
    ],
    ['a list', [example], /s\.json/],
  ])('refuses %s by file and key', (_what, raw, line) => {
    const station = read(raw);
    if (station.ok) throw new Error('was read');
    expect(station.code).toBe('not-a-station');
    expect(`${station.where}: ${station.help}`).toMatch(line);
    expect(station.where).toMatch(/^s\.json/);
  });

  it('refuses what is no JSON, and never throws', () => {
    expect(readStation('frequency_mhz,level_dbmv', 's.csv')).toMatchObject({ ok: false, code: 'not-json' });
    fc.assert(fc.property(fc.oneof(fc.string(), fc.json()), (text) => !readStation(text, 's').ok));
  });
});

it('says what is in at every position of a design, by what a sweep of another design tells', () => {
  const station = {
    positions: [
      { name: 'input pad', kind: 'pad' as const, installed: 6, values: [0, 6] },
      { name: 'interstage pad', kind: 'pad' as const, installed: 3, values: [0, 3] },
    ],
  };
  expect(pluggedAt(station, { 'input pad': 0, 'return pad': 9 })).toEqual({
    'input pad': 0,
    'interstage pad': 3,
  });
});
