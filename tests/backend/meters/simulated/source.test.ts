import { expect, it } from 'vitest';
import { readStation } from '../../../../core/files/station.ts';
import { simulatedMeterDbmv } from '../../../../core/simulate/level.ts';
import { quillmere } from '../../../../core/simulate/quillmere.ts';
import { createSimulatedPlace, probeAt } from '../../../../electron/backend/meters/simulated/source.ts';

const [first, second] = quillmere;
if (first === undefined || second === undefined) throw new Error('Quillmere has no two stations');

const ownStation = readStation(
  JSON.stringify({
    format: 'tiltwright-station/1',
    id: 'own-1',
    name: 'Own design',
    ports: [
      {
        name: 'main out',
        direction: 'forward',
        testPointLossDb: 20,
        design: {
          lowMhz: 54,
          lowDbmv: 36,
          highMhz: 870,
          highDbmv: 46,
          shape: 'linear',
          toleranceDb: 1,
          flatnessDb: 2,
        },
        through: ['pad'],
      },
    ],
    positions: [{ name: 'pad', kind: 'pad', installed: 4, values: [0, 2, 4] }],
  }),
  'own.json',
);
if (!ownStation.ok) throw new Error(ownStation.help);
const own = ownStation.value;

it("sits at the first Quillmere station's forward output before it is put anywhere", () => {
  const expected = simulatedMeterDbmv(first.scenario, probeAt(first.station, 'forward output'), 711, 3);
  expect(expected).not.toBeNull();
  expect(createSimulatedPlace().levelAt(711, 3)).toBe(expected);
});

it('plays the story of the station that the probe is moved to', () => {
  const place = createSimulatedPlace();
  const probe = { ...probeAt(second.station, 'forward output'), ambientC: 31 };
  place.moveProbe(probe);
  expect(place.levelAt(711, 0)).toBe(simulatedMeterDbmv(second.scenario, probe, 711, 0));
});

it('plays a general story at a station that it does not know, and follows what is plugged in', () => {
  const place = createSimulatedPlace();
  const probe = probeAt(own, 'main out');
  place.moveProbe(probe);
  const with4 = place.levelAt(423, 0);
  place.moveProbe({ ...probe, pluggedIn: { pad: 2 } });
  const with2 = place.levelAt(423, 0);
  expect((with2 ?? 0) - (with4 ?? 0)).toBeCloseTo(2, 9);
});

it('keeps to a scenario of its own wherever the probe is', () => {
  const place = createSimulatedPlace({ scenario: second.scenario });
  const probe = probeAt(first.station, 'forward output');
  place.moveProbe(probe);
  expect(place.levelAt(711, 0)).toBe(simulatedMeterDbmv(second.scenario, probe, 711, 0));
});
