import { describe, expect, it } from 'vitest';
import { rasterPlan } from '../../../core/files/raster-plan.ts';
import { installedOf, type Station } from '../../../core/files/station.ts';
import { targetDbmv } from '../../../core/line/design-line.ts';
import { simulatedPortDbmv } from '../../../core/simulate/level.ts';
import { type DemoStation, quillmere } from '../../../core/simulate/quillmere.ts';

const named = (name: string): DemoStation => {
  const demo = quillmere.find(({ station }) => station.name.includes(name));
  if (demo === undefined) throw new Error(name);
  return demo;
};
const outputOf = (station: Station) => {
  const design = station.ports[0]?.design;
  if (design === undefined) throw new Error('no design');
  return { portName: 'forward output', design };
};
/** Deviation from the design at the forward output, without the chance of readings. */
const deviations = ({ station, scenario }: DemoStation, ambientC: number | null = null) => {
  const { portName, design } = outputOf(station);
  const probe = { station, portName, pluggedIn: installedOf(station), ambientC };
  return rasterPlan(design, 6).map((frequencyMhz) => ({
    frequencyMhz,
    offDb:
      (simulatedPortDbmv(scenario, probe, frequencyMhz) ?? Number.NaN) - targetDbmv(design, frequencyMhz),
  }));
};
const worstDb = (demo: DemoStation, ambientC: number | null = null) =>
  Math.max(...deviations(demo, ambientC).map(({ offDb }) => Math.abs(offDb)));
const at = (demo: DemoStation, mhz: number, ambientC: number | null = null) =>
  deviations(demo, ambientC).find(({ frequencyMhz }) => Math.abs(frequencyMhz - mhz) <= 3)?.offDb ??
  Number.NaN;

describe('Quillmere', () => {
  it('is five stations in cascade order and a bench module, each with its own id', () => {
    expect(quillmere.map(({ station }) => station.name)).toEqual([
      '03 Ropewalk',
      '07 Mill Lane',
      '11 Customs Quay',
      '14 Saltpan Road',
      '19 Lighthouse Rise',
      'Bench module B2',
    ]);
    expect(new Set(quillmere.map(({ station }) => station.id)).size).toBe(6);
    for (const { story } of quillmere) expect(story.length).toBeGreaterThan(20);
  });

  it('has a stage input within its limits at every station as designed', () => {
    for (const { station, scenario } of quillmere) {
      const limit = station.stageInput;
      if (limit === undefined) throw new Error(station.name);
      const pluggedIn = installedOf(station);
      const clean = { ...scenario, ports: scenario.ports.map((port) => ({ ...port, faults: [] })) };
      const probe = { station, portName: limit.port, pluggedIn, ambientC: 20 };
      const inputDbmv = simulatedPortDbmv(clean, probe, limit.atMhz - 3) ?? Number.NaN;
      const equalizerDb = pluggedIn['input equalizer'] === 0 ? 0 : 1;
      const stageDbmv = inputDbmv - (pluggedIn['input pad'] ?? 0) - equalizerDb;
      expect(stageDbmv).toBeGreaterThan(limit.minDbmv);
      expect(stageDbmv).toBeLessThan(limit.maxDbmv);
    }
  });

  it('03 is in order', () => {
    expect(worstDb(named('03'))).toBeLessThan(0.5);
  });

  it('07 is low, most of all at the top', () => {
    expect(at(named('07'), 867)).toBeLessThan(-2);
    expect(at(named('07'), 57)).toBeGreaterThan(-1);
  });

  it('11 ripples over the whole band', () => {
    const offs = deviations(named('11')).map(({ offDb }) => offDb);
    const turns = offs.filter((off, i) => Math.sign(off) !== Math.sign(offs[i - 1] ?? off)).length;
    expect(turns).toBeGreaterThan(40);
    expect(worstDb(named('11'))).toBeGreaterThan(1.5);
  });

  it('14 has a suck-out and is in order elsewhere', () => {
    expect(at(named('14'), 615)).toBeLessThan(-4);
    for (const mhz of [57, 300, 500, 720, 867]) expect(Math.abs(at(named('14'), mhz))).toBeLessThan(0.5);
  });

  it('19 is high in the frost, and in order in mild weather', () => {
    expect(named('19').scenario.weatherC).toBeLessThan(-10);
    expect(at(named('19'), 867)).toBeGreaterThan(1.4);
    expect(worstDb(named('19'), 20)).toBeLessThan(0.5);
  });

  it('03 holds from frost to heat, because its gain control has reserve', () => {
    for (const ambientC of [-30, -10, 10, 30, 45]) expect(worstDb(named('03'), ambientC)).toBeLessThan(0.5);
  });

  it('the bench module rolls off at the top alone', () => {
    expect(at(named('B2'), 867)).toBeLessThan(-3);
    expect(Math.abs(at(named('B2'), 740))).toBeLessThan(0.3);
    expect(Math.abs(at(named('B2'), 57))).toBeLessThan(0.3);
  });
});
