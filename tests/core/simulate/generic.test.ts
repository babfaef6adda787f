import { expect, it } from 'vitest';
import { rasterPlan } from '../../../core/files/raster-plan.ts';
import { Scenario } from '../../../core/files/scenario.ts';
import { installedOf } from '../../../core/files/station.ts';
import { targetDbmv } from '../../../core/line/design-line.ts';
import { genericScenario } from '../../../core/simulate/generic.ts';
import { simulatedPortDbmv } from '../../../core/simulate/level.ts';
import { quillmerePlans, quillmereStation } from '../../../core/simulate/quillmere-stations.ts';

const station = quillmereStation(quillmerePlans.customsQuay);

it('is off by a mild tilt that depends on the seed alone', () => {
  for (let seed = 0; seed < 50; seed += 1) {
    const scenario = genericScenario(station, seed);
    expect(Scenario.safeParse(scenario).success).toBe(true);
    expect(scenario).toEqual(genericScenario(station, seed));
    for (const port of station.ports) {
      if (port.design === undefined) continue;
      const probe = { station, portName: port.name, pluggedIn: installedOf(station), ambientC: null };
      const { design } = port;
      const off = rasterPlan(design, 1)
        .map((f) => Math.round(f))
        .map((f) => (simulatedPortDbmv(scenario, probe, f) ?? Number.NaN) - targetDbmv(design, f));
      expect(Math.max(...off.map(Math.abs))).toBeLessThan(2.5);
      expect(Math.max(...off.map(Math.abs))).toBeGreaterThan(1);
    }
  }
});

it('plays a station that has nothing but one port', () => {
  const [port] = station.ports;
  if (port === undefined) throw new Error('no port');
  const lone = { ...station, ports: [{ ...port, through: [] }], positions: [] };
  const { span: _span, gainControl: _gainControl, stageInput: _stageInput, ...plain } = lone;
  const probe = { station: plain, portName: port.name, pluggedIn: {}, ambientC: -30 };
  expect(simulatedPortDbmv(genericScenario(plain, 3), probe, 57)).toBeCloseTo(36, -1);
});
