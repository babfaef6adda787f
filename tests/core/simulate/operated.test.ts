import { describe, expect, it } from 'vitest';
import { installedOf } from '../../../core/files/station.ts';
import { modulePositionDb, type TimedHand } from '../../../core/simulate/gain-module.ts';
import { simulatedPortDbmv } from '../../../core/simulate/level.ts';
import { operatedStation } from '../../../core/simulate/operated.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';

const demoAt = (id: string) => {
  const demo = quillmere.find(({ station }) => station.id === id);
  if (demo === undefined) throw new Error(id);
  return demo;
};
const lighthouse = demoAt('qm4-19-lighthouse-rise');
const turn = (turnDb: number): TimedHand => ({ hand: { act: 'turn', turnDb }, atMs: 0, ambientC: -18 });
const probe = (ambientC: number, controlDb?: number | null) => ({
  station: lighthouse.station,
  portName: 'forward output',
  pluggedIn: installedOf(lighthouse.station),
  ambientC,
  ...(controlDb === undefined ? {} : { controlDb }),
});

describe('a simulated station that no hand has touched', () => {
  it.each([-30, -18, 20, 45])('stands at %d °C where the network tells it', (ambientC) => {
    const at = operatedStation(lighthouse.station, lighthouse.scenario, [], ambientC)?.(0);
    expect(at?.controlDb).toBeNull();
    const told = simulatedPortDbmv(lighthouse.scenario, probe(ambientC), 711);
    const positionDb = at === undefined ? null : modulePositionDb(at.module);
    expect(simulatedPortDbmv(lighthouse.scenario, probe(ambientC, positionDb), 711)).toBeCloseTo(
      told ?? Number.NaN,
      9,
    );
  });
});

it('moves the level by what the hand turned, at the top, and less below', () => {
  const at = operatedStation(lighthouse.station, lighthouse.scenario, [turn(3)], -18)?.(0);
  const before = simulatedPortDbmv(lighthouse.scenario, probe(-18), 867) ?? Number.NaN;
  const after = simulatedPortDbmv(lighthouse.scenario, probe(-18, at?.controlDb), 867) ?? Number.NaN;
  // The control acts as c sqrt(f/top): contract, section 3, "season, exactly".
  expect(after - before).toBeCloseTo(3 * Math.sqrt(867 / 870), 9);
});

it('loses the pilot and nothing else', () => {
  const gone: TimedHand = { hand: { act: 'pilot', present: false }, atMs: 0, ambientC: 20 };
  const at = operatedStation(lighthouse.station, lighthouse.scenario, [gone], 20)?.(0);
  expect(at).toBeDefined();
  if (at === undefined) return;
  expect(simulatedPortDbmv(at.scenario, probe(20), 711)).toBeNull();
  expect(simulatedPortDbmv(at.scenario, probe(20), 705)).not.toBeNull();
});

it('takes the weather of a hand over every other', () => {
  const made: TimedHand = { hand: { act: 'weather', ambientC: 33 }, atMs: 0, ambientC: -18 };
  expect(operatedStation(lighthouse.station, lighthouse.scenario, [made], 5)?.(0).ambientC).toBe(33);
  expect(operatedStation(lighthouse.station, lighthouse.scenario, [], 5)?.(0).ambientC).toBe(5);
  expect(operatedStation(lighthouse.station, lighthouse.scenario, [], null)?.(0).ambientC).toBe(-18);
});

it('is nothing where the network tells of no gain control', () => {
  const bench = quillmere.find(({ station }) => station.gainControl === undefined);
  expect(bench).toBeDefined();
  if (bench !== undefined) expect(operatedStation(bench.station, bench.scenario, [], null)).toBeNull();
});
