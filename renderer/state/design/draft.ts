import { type Position, type Station, withPluggedIn } from '../../../core/files/station.ts';
import { type KitDraft, kitOf } from './kit.ts';

/**
 * A station while a person describes it. Null is an empty field. Ports and plug-ins have keys, because names are typed, and
 * what a way passes must follow a name that changes.
 */
export type StationDraft = Readonly<{
  /** Null as long as it follows the name. */
  id: string | null;
  name: string;
  ports: readonly PortDraft[];
  positions: readonly PositionDraft[];
  stage: StageDraft | null;
  span: SpanDraft | null;
  gainControl: GainControlDraft | null;
}>;

export type DesignDraft = Readonly<{
  lowMhz: number | null;
  lowDbmv: number | null;
  highMhz: number | null;
  highDbmv: number | null;
  shape: 'linear' | 'cable';
  toleranceDb: number | null;
  flatnessDb: number | null;
}>;

export type PortDraft = Readonly<{
  key: number;
  name: string;
  direction: 'forward' | 'return';
  testPointLossDb: number | null;
  design: DesignDraft | null;
  /** Keys of the plug-ins that the signal has passed, in its order. */
  through: readonly number[];
}>;

export type PositionDraft = Readonly<{
  key: number;
  name: string;
  kind: Position['kind'];
  installedDb: number | null;
  kit: KitDraft;
  /** Of an equalizer or a cable simulator; empty is the top of the design that it serves. */
  topMhz: number | null;
  insertionLossDb: number | null;
  curves: Position['curves'];
}>;

export type StageDraft = Readonly<{
  portKey: number;
  through: readonly number[];
  atMhz: number | null;
  minDbmv: number | null;
  maxDbmv: number | null;
}>;

export type SpanDraft = Readonly<{
  lossDb: number | null;
  topMhz: number | null;
  perDegreeC: number | null;
  sky: 'aerial' | 'buried' | null;
}>;

export type GainControlDraft = Readonly<{
  mode: 'manual' | 'auto' | 'thermal';
  upDb: number | null;
  downDb: number | null;
  topMhz: number | null;
  setAtC: number | null;
  pilotMhz: number | null;
  thermalTracking: number | null;
}>;

const emptyDesign: DesignDraft = {
  lowMhz: null,
  lowDbmv: null,
  highMhz: null,
  highDbmv: null,
  shape: 'linear',
  toleranceDb: null,
  flatnessDb: null,
};
const emptyKit: KitDraft = { fromDb: null, toDb: null, stepDb: null, also: [] };

export const emptyPort = (key: number, direction: PortDraft['direction'], name: string): PortDraft => ({
  key,
  name,
  direction,
  testPointLossDb: null,
  design: emptyDesign,
  through: [],
});
export const emptyPosition = (key: number, kind: PositionDraft['kind'], name: string): PositionDraft => ({
  key,
  name,
  kind,
  installedDb: null,
  kit: emptyKit,
  topMhz: null,
  insertionLossDb: null,
  curves: undefined,
});
export const emptySpan: SpanDraft = { lossDb: null, topMhz: null, perDegreeC: null, sky: null };
export const emptyGainControl: GainControlDraft = {
  mode: 'auto',
  upDb: null,
  downDb: null,
  topMhz: null,
  setAtC: null,
  pilotMhz: null,
  thermalTracking: null,
};

/** Where a new station begins: the shape that most have, and not one figure, because each is for its papers to say. */
export const newDraft = (): StationDraft => ({
  id: null,
  name: '',
  ports: [
    { ...emptyPort(0, 'forward', 'forward output'), through: [0, 1] },
    { ...emptyPort(1, 'forward', 'forward input'), design: null },
  ],
  positions: [emptyPosition(0, 'pad', 'input pad'), emptyPosition(1, 'equalizer', 'input equalizer')],
  stage: null,
  span: null,
  gainControl: null,
});

/** A station of the archive, as it is plugged now. */
export function draftOf(station: Station, pluggedIn: Parameters<typeof withPluggedIn>[1] = {}): StationDraft {
  const { positions } = withPluggedIn(station, pluggedIn);
  const keys = (names: readonly string[]) =>
    names.map((wanted) => positions.findIndex(({ name }) => name === wanted));
  const { stageInput, span, gainControl } = station;
  return {
    id: station.id,
    name: station.name,
    ports: station.ports.map((port, key) => ({
      key,
      name: port.name,
      direction: port.direction,
      testPointLossDb: port.testPointLossDb,
      design: port.design ?? null,
      through: keys(port.through),
    })),
    positions: positions.map((position, key) => ({
      key,
      name: position.name,
      kind: position.kind,
      installedDb: position.installed,
      kit: kitOf(position.values),
      topMhz: position.kind === 'pad' ? null : position.topMhz,
      insertionLossDb: position.kind === 'pad' ? null : position.insertionLossDb,
      curves: position.curves,
    })),
    stage:
      stageInput === undefined
        ? null
        : {
            portKey: station.ports.findIndex(({ name }) => name === stageInput.port),
            through: keys(stageInput.through),
            atMhz: stageInput.atMhz,
            minDbmv: stageInput.minDbmv,
            maxDbmv: stageInput.maxDbmv,
          },
    span: span === undefined ? null : { ...span, sky: span.sky ?? null },
    gainControl:
      gainControl === undefined
        ? null
        : {
            ...gainControl,
            pilotMhz: gainControl.pilotMhz ?? null,
            thermalTracking: gainControl.thermalTracking ?? null,
          },
  };
}

/** Another one like it: same design and same kit, but what is plugged in there is for a look into its housing. */
export const likeDraft = (station: Station): StationDraft => {
  const draft = draftOf(station);
  return {
    ...draft,
    id: null,
    name: '',
    positions: draft.positions.map((position) => ({ ...position, installedDb: null, curves: undefined })),
    span: null,
    gainControl: draft.gainControl === null ? null : { ...draft.gainControl, setAtC: null },
  };
};
