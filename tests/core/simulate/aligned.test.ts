import { expect, it } from 'vitest';
import { installedOf } from '../../../core/files/station.ts';
import { alignedScenario } from '../../../core/simulate/aligned.ts';
import { simulatedPortDbmv } from '../../../core/simulate/level.ts';
import { quillmerePlans, quillmereStation } from '../../../core/simulate/quillmere-stations.ts';

const station = quillmereStation(quillmerePlans.ropewalk);
const alignment = {
  station,
  seed: 1,
  weatherC: 20,
  alignedWith: installedOf(station),
  errorDb: { 'return output': { lowDb: 1, highDb: -1 } },
  faults: {},
};
const scenario = alignedScenario(alignment);
const level = (portName: string, frequencyMhz: number) =>
  simulatedPortDbmv(
    scenario,
    { station, portName, pluggedIn: installedOf(station), ambientC: 20 },
    frequencyMhz,
  );

// The design of node QM-4: 36 dBmV at 54, 46 dBmV at 870 MHz, straight in f.
it('meets the design with the plug-ins it was aligned with', () => {
  expect(level('forward output', 57)).toBeCloseTo(36 + (10 * 3) / 816, 9);
  expect(level('forward output', 462)).toBeCloseTo(41, 9);
});

// A span of 22 dB at 870 MHz in front of the input: 46 - 22 near the top.
it('feeds a port without a design by the span alone', () => {
  expect(level('forward input', 870)).toBeCloseTo(24, 9);
});

it('adds the errors asked for', () => {
  expect(level('return output', 5)).toBeCloseTo(33, 9);
  expect(level('return output', 42)).toBeCloseTo(33, 9);
});

it('gives forward ports channels and return ports test carriers', () => {
  const kinds = scenario.ports.map((port) => port.carriers.map(({ kind, count }) => [kind, count]));
  expect(kinds).toEqual([[['qam', 136]], [['qam', 136]], [['cw', 38]]]);
});

it('lets what the span does reach the input and the output', () => {
  const faults = { span: [{ kind: 'missing', frequencyMhz: 57 } as const] };
  const spoilt = alignedScenario({ ...alignment, faults });
  expect(spoilt.ports.map((port) => port.faults.length)).toEqual([1, 1, 0]);
});
