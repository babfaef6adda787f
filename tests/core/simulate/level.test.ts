import { describe, expect, it } from 'vitest';
import type { Scenario } from '../../../core/files/scenario.ts';
import type { Station } from '../../../core/files/station.ts';
import { simulatedKind, simulatedMeterDbmv, simulatedPortDbmv } from '../../../core/simulate/level.ts';

const station: Station = {
  format: 'tiltwright-station/1',
  id: 's',
  name: 'S',
  ports: [
    { name: 'out', direction: 'forward', testPointLossDb: 20, through: ['pad', 'equalizer'] },
    { name: 'unheard', direction: 'forward', testPointLossDb: 0, through: [] },
  ],
  positions: [
    { name: 'pad', kind: 'pad', installed: 3, values: [0, 3, 6] },
    {
      name: 'equalizer',
      kind: 'equalizer',
      topMhz: 900,
      insertionLossDb: 1,
      installed: 6,
      values: [0, 6, 9],
    },
  ],
};
const scenario: Scenario = {
  format: 'tiltwright-scenario/1',
  seed: 7,
  noiseDb: 0.1,
  weatherC: 20,
  ports: [
    {
      portName: 'out',
      carriers: [
        { kind: 'qam', firstMhz: 100, stepMhz: 100, count: 9, widthMhz: 6 },
        { kind: 'cw', firstMhz: 54, stepMhz: 1, count: 1, widthMhz: 0.5 },
      ],
      source: { lowMhz: 100, lowDbmv: 40, highMhz: 900, highDbmv: 40, shape: 'linear' },
      cable: { lossDb: 18, topMhz: 900, perDegreeC: 0.002 },
      gain: { lowMhz: 100, lowDb: 20, highMhz: 900, highDb: 28, shape: 'linear' },
      madeUpFor: null,
      gainControl: { upDb: 1, downDb: 0.5, setAtC: 20, topMhz: 900 },
      faults: [{ kind: 'missing', frequencyMhz: 300 }],
    },
  ],
};
const at = (pluggedIn: Record<string, number>, ambientC: number | null = null) => ({
  station,
  portName: 'out',
  pluggedIn,
  ambientC,
});
const bare = at({ pad: 0, equalizer: 0 });

describe('the level at a port', () => {
  // By hand: at 100 MHz the cable loses 18/3 = 6 dB, so 40 - 6 + 20; at 900 MHz 40 - 18 + 28.
  it('is what enters the cable, less the cable, and the gain', () => {
    expect(simulatedPortDbmv(scenario, bare, 100)).toBeCloseTo(54, 12);
    expect(simulatedPortDbmv(scenario, bare, 900)).toBeCloseTo(50, 12);
  });

  // By the contract, section 2: a pad loses its value; an equalizer 1 + 6 (1 - sqrt(100/900)) = 5 dB at 100 MHz,
  // 1 dB at 900 MHz.
  it('falls by what is plugged in', () => {
    expect(simulatedPortDbmv(scenario, at({ pad: 3, equalizer: 6 }), 100)).toBeCloseTo(54 - 3 - 5, 12);
    expect(simulatedPortDbmv(scenario, at({ pad: 3, equalizer: 6 }), 900)).toBeCloseTo(50 - 3 - 1, 12);
  });

  it('can have a gain that makes up for plug-ins', () => {
    const [port] = scenario.ports;
    if (port === undefined) throw new Error('no port');
    const made = { ...scenario, ports: [{ ...port, madeUpFor: { pad: 3, equalizer: 6 } }] };
    expect(simulatedPortDbmv(made, at({ pad: 3, equalizer: 6 }), 100)).toBeCloseTo(54, 12);
  });

  // By hand: 18 dB x 0.002 a degree x 20 degrees = 0.72 dB more when hot, which the control has; 40 degrees colder
  // 1.44 dB less, of which the control takes its 0.5 dB; at 100 MHz a third of each.
  it('follows the weather beyond what the gain control can undo', () => {
    expect(simulatedPortDbmv(scenario, at(bare.pluggedIn, 40), 900)).toBeCloseTo(50, 12);
    expect(simulatedPortDbmv(scenario, at(bare.pluggedIn, -20), 900)).toBeCloseTo(50 + 1.44 - 0.5, 12);
    expect(simulatedPortDbmv(scenario, at(bare.pluggedIn, -20), 100)).toBeCloseTo(54 + (1.44 - 0.5) / 3, 12);
    const frosty = { ...scenario, weatherC: -20 };
    expect(simulatedPortDbmv(frosty, bare, 900)).toBeCloseTo(50.94, 12);
  });
});

describe('carriers', () => {
  it('are found within half their width, and nowhere else', () => {
    const kinds = [100, 103, 103.1, 97, 150, 900, 1000, 54, 54.3].map((f) =>
      simulatedKind(scenario, 'out', f),
    );
    expect(kinds).toEqual(['qam', 'qam', null, 'qam', null, 'qam', null, 'cw', null]);
  });

  it('may be missing, or unknown at a whole port', () => {
    expect(simulatedMeterDbmv(scenario, bare, 300, 0)).toBeNull();
    expect(simulatedMeterDbmv(scenario, bare, 150, 0)).toBeNull();
    expect(simulatedMeterDbmv(scenario, { ...bare, portName: 'unheard' }, 100, 0)).toBeNull();
    expect(() => simulatedMeterDbmv(scenario, { ...bare, portName: 'none' }, 100, 0)).toThrow(RangeError);
  });
});

describe('the meter', () => {
  it('reads behind the test point, with its own chance', () => {
    const draws = Array.from({ length: 400 }, (_, i) => simulatedMeterDbmv(scenario, bare, 100, i) ?? 0);
    const mean = draws.reduce((sum, level) => sum + level, 0) / draws.length;
    expect(Math.abs(mean - 34)).toBeLessThan(5 * (0.1 / Math.sqrt(400)));
    expect(new Set(draws).size).toBeGreaterThan(390);
    expect(simulatedMeterDbmv(scenario, bare, 100, 3)).toBe(draws[3]);
  });

  it('without noise reads the level itself', () => {
    expect(simulatedMeterDbmv({ ...scenario, noiseDb: 0 }, bare, 900, 1)).toBeCloseTo(30, 12);
  });
});
