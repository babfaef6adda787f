import type { Station } from '../files/station.ts';

const upTo = (topDb: number, stepDb: number): number[] =>
  Array.from({ length: Math.floor(topDb / stepDb) + 1 }, (_, i) => i * stepDb);

type Fitted = Readonly<{
  inputPadDb: number;
  inputEqualizerDb: number;
  interstagePadDb: number;
  /** The slope device between the stages: an equalizer, or a cable simulator behind a short span. */
  interstage: Readonly<{ kind: 'equalizer' | 'cable-simulator'; valueDb: number }>;
  returnPadDb: number;
  returnEqualizerDb: number;
}>;

export type StationPlan = Readonly<{
  id: string;
  name: string;
  fitted: Fitted;
  span: Station['span'];
  gainControl: Station['gainControl'];
}>;

const interstageName = (kind: Fitted['interstage']['kind']) =>
  kind === 'equalizer' ? 'interstage equalizer' : 'interstage cable simulator';

/**
 * A station of node QM-4: 54 to 870 MHz at 36 and 46 dBmV forward, 5 to 42 MHz return, 20 dB test points, and the
 * plug-in values that a truck holds.
 * @source   the demo's world is invented
 */
export function quillmereStation(plan: StationPlan): Station {
  const { fitted } = plan;
  const interstage = interstageName(fitted.interstage.kind);
  return {
    format: 'tiltwright-station/1',
    id: plan.id,
    name: plan.name,
    ports: [
      {
        name: 'forward output',
        direction: 'forward',
        testPointLossDb: 20,
        design: {
          lowMhz: 54,
          lowDbmv: 36,
          highMhz: 870,
          highDbmv: 46,
          shape: 'linear',
          toleranceDb: 1,
          flatnessDb: 2.5,
        },
        through: ['input pad', 'input equalizer', 'interstage pad', interstage],
      },
      { name: 'forward input', direction: 'forward', testPointLossDb: 20, through: [] },
      {
        name: 'return output',
        direction: 'return',
        testPointLossDb: 20,
        design: {
          lowMhz: 5,
          lowDbmv: 32,
          highMhz: 42,
          highDbmv: 34,
          shape: 'linear',
          toleranceDb: 1,
          flatnessDb: 2,
        },
        through: ['return pad', 'return equalizer'],
      },
    ],
    positions: [
      { name: 'input pad', kind: 'pad', installed: fitted.inputPadDb, values: upTo(20, 1) },
      {
        name: 'input equalizer',
        kind: 'equalizer',
        topMhz: 870,
        insertionLossDb: 1,
        installed: fitted.inputEqualizerDb,
        values: upTo(24, 2),
      },
      { name: 'interstage pad', kind: 'pad', installed: fitted.interstagePadDb, values: upTo(12, 1) },
      {
        name: interstage,
        kind: fitted.interstage.kind,
        topMhz: 870,
        insertionLossDb: 1,
        installed: fitted.interstage.valueDb,
        values: upTo(12, 3),
      },
      { name: 'return pad', kind: 'pad', installed: fitted.returnPadDb, values: upTo(15, 1) },
      {
        name: 'return equalizer',
        kind: 'equalizer',
        topMhz: 42,
        insertionLossDb: 0.5,
        installed: fitted.returnEqualizerDb,
        values: upTo(6, 1),
      },
    ],
    stageInput: {
      port: 'forward input',
      through: ['input pad', 'input equalizer'],
      atMhz: 867,
      minDbmv: 8,
      maxDbmv: 14,
    },
    ...(plan.span === undefined ? {} : { span: plan.span }),
    ...(plan.gainControl === undefined ? {} : { gainControl: plan.gainControl }),
  };
}

const automatic = (upDb: number, downDb: number): Station['gainControl'] => ({
  mode: 'auto',
  upDb,
  downDb,
  topMhz: 870,
  setAtC: 20,
  pilotMhz: 711,
});
const aerial = (lossDb: number): Station['span'] => ({
  lossDb,
  topMhz: 870,
  perDegreeC: 0.002,
  sky: 'aerial',
});

/** From the node outward: four on the main road, one on the point, one on the bench. */
export const quillmerePlans = {
  ropewalk: {
    id: 'qm4-03-ropewalk',
    name: '03 Ropewalk',
    fitted: {
      inputPadDb: 10,
      inputEqualizerDb: 14,
      interstagePadDb: 4,
      interstage: { kind: 'equalizer', valueDb: 6 },
      returnPadDb: 4,
      returnEqualizerDb: 2,
    },
    span: aerial(22),
    gainControl: automatic(4, 6),
  },
  millLane: {
    id: 'qm4-07-mill-lane',
    name: '07 Mill Lane',
    fitted: {
      inputPadDb: 12,
      inputEqualizerDb: 12,
      interstagePadDb: 3,
      interstage: { kind: 'equalizer', valueDb: 6 },
      returnPadDb: 5,
      returnEqualizerDb: 2,
    },
    span: aerial(20),
    gainControl: automatic(4, 6),
  },
  customsQuay: {
    id: 'qm4-11-customs-quay',
    name: '11 Customs Quay',
    fitted: {
      inputPadDb: 9,
      inputEqualizerDb: 16,
      interstagePadDb: 3,
      interstage: { kind: 'equalizer', valueDb: 6 },
      returnPadDb: 3,
      returnEqualizerDb: 3,
    },
    span: aerial(24),
    gainControl: automatic(5, 5),
  },
  saltpanRoad: {
    id: 'qm4-14-saltpan-road',
    name: '14 Saltpan Road',
    fitted: {
      inputPadDb: 20,
      inputEqualizerDb: 4,
      interstagePadDb: 2,
      interstage: { kind: 'cable-simulator', valueDb: 3 },
      returnPadDb: 8,
      returnEqualizerDb: 1,
    },
    span: { lossDb: 12, topMhz: 870, perDegreeC: 0.002, sky: 'buried' },
    gainControl: automatic(4, 5),
  },
  lighthouseRise: {
    id: 'qm4-19-lighthouse-rise',
    name: '19 Lighthouse Rise',
    fitted: {
      inputPadDb: 6,
      inputEqualizerDb: 18,
      interstagePadDb: 3,
      interstage: { kind: 'equalizer', valueDb: 6 },
      returnPadDb: 2,
      returnEqualizerDb: 4,
    },
    span: aerial(28),
    gainControl: automatic(7.5, 0.5),
  },
  benchB2: {
    id: 'qm-bench-b2',
    name: 'Bench module B2',
    fitted: {
      inputPadDb: 5,
      inputEqualizerDb: 0,
      interstagePadDb: 4,
      interstage: { kind: 'equalizer', valueDb: 9 },
      returnPadDb: 4,
      returnEqualizerDb: 2,
    },
    span: undefined,
    gainControl: undefined,
  },
} as const satisfies Readonly<Record<string, StationPlan>>;
