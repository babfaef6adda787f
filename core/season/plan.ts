import { type Allowed, AMBIENT, FREQUENCY, LOSS, unfit } from '../checked.ts';
import type { Design, Station } from '../files/station.ts';
import { unfitDesign } from '../line/design-line.ts';
import { done, type Result, refuse } from '../result.ts';

export type Span = NonNullable<Station['span']>;
export type GainControl = NonNullable<Station['gainControl']>;
export type ControlMode = GainControl['mode'];

/** What a season is computed from: the span in front, the control, and the design of the output that it holds. */
export type SeasonPlan = Readonly<{
  portName: string;
  design: Design;
  span: Span;
  gainControl: GainControl;
  /** How much of the demand a thermal control follows; only `thermal` asks for it. */
  thermalTracking: number | null;
}>;

export type NoSeason = 'no-span' | 'no-gain-control' | 'no-tracking' | 'no-design' | 'bad-value';

/** Cable changes by 0.002 of its loss a degree; a part above 1 would be a slip of the point. */
const PER_DEGREE: Allowed = { unit: 'of the loss a degree C', from: 0, to: 1 };
/** A control that follows the whole cable has 1. */
const TRACKING: Allowed = { unit: 'of the cable', from: 0, to: 100 };

/** A station file may hold any number; a year is told only of such as cable and amplifiers have. */
function unfitYear(span: Span, gainControl: GainControl) {
  const { upDb, downDb, topMhz, setAtC, thermalTracking } = gainControl;
  return unfit([
    ['span.lossDb', span.lossDb, LOSS],
    ['span.topMhz', span.topMhz, FREQUENCY],
    ['span.perDegreeC', span.perDegreeC, PER_DEGREE],
    ['gainControl.upDb', upDb, LOSS],
    ['gainControl.downDb', downDb, LOSS],
    ['gainControl.topMhz', topMhz, FREQUENCY],
    ['gainControl.setAtC', setAtC, AMBIENT],
    ['gainControl.thermalTracking', thermalTracking ?? 0, TRACKING],
  ]);
}

/**
 * Takes from a station what its season needs.
 * @param station  levels in dBmV, frequencies in MHz, temperatures in degrees C
 * @param mode     another mode than the station's own, to see what it would do
 * @returns  the first forward port with a design, its span and its control; or a refusal that names what is missing,
 *           or the number that no cable and no amplifier has
 * @source   contract, section 2, and section 3, "season, exactly"
 */
export function seasonPlan(station: Station, mode?: ControlMode): Result<SeasonPlan, NoSeason> {
  const { span } = station;
  if (span === undefined)
    return refuse('no-span', `station ${station.name}`, 'add "span": the loss of the cable in front of it');
  if (station.gainControl === undefined)
    return refuse(
      'no-gain-control',
      `station ${station.name}`,
      'add "gainControl": its mode, ranges and the temperature at which it was set',
    );
  const gainControl = { ...station.gainControl, mode: mode ?? station.gainControl.mode };
  const thermalTracking = gainControl.thermalTracking ?? null;
  if (gainControl.mode === 'thermal' && thermalTracking === null)
    return refuse(
      'no-tracking',
      `station ${station.name}, gainControl.thermalTracking`,
      'say which part of the cable the thermal control follows, 0.8 for instance',
    );
  const port = station.ports.find((one) => one.direction === 'forward' && one.design !== undefined);
  if (port?.design === undefined)
    return refuse('no-design', `station ${station.name}, ports`, 'give a forward port its "design"');
  const wrong = unfitYear(span, gainControl) ?? unfitDesign(port.design);
  if (wrong !== null) return refuse('bad-value', `station ${station.name}, ${wrong.where}`, wrong.help);
  return done({ portName: port.name, design: port.design, span, gainControl, thermalTracking });
}
