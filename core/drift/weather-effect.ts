import type { Port, Station } from '../files/station.ts';
import { controlAt } from '../season/control.ts';
import { type SeasonPlan, seasonPlan } from '../season/plan.ts';
import { RATED_C, spanLossDb } from '../season/span.ts';

/** What the temperature alone does to a port's level and tilt, against 20 degrees C. */
export type WeatherEffect = Readonly<{ levelDb: number; tiltDb: number }>;

/** Gives the effect at a frequency and temperature, dB. */
export type WeatherAt = (frequencyMhz: number, ambientC: number) => number;

/** A control that the station file tells; without one, nothing follows the cable. */
const planOf = (station: Station): SeasonPlan | null => {
  const plan = seasonPlan(station);
  return plan.ok ? plan.value : null;
};

/**
 * What a station's span and its gain control explain of a port's level: the cable loses more when it is warm, and an automatic
 * or thermal control makes up for it as far as it reaches.
 * @param station  its `span` and `gainControl`
 * @param port     one of its ports
 * @returns  dB at a frequency in MHz and a temperature in degrees C, less those at 20 degrees C; null where the station file
 *           tells no span, or the port is a return port, which the span in front of the station does not feed
 * @source   contract, section 3, "season, exactly": loss(f,T), and c(T) sqrt(f/topMhz) of the control
 */
export function weatherOf(station: Station, port: Port): WeatherAt | null {
  const { span } = station;
  if (span === undefined || port.direction !== 'forward') return null;
  const plan = planOf(station);
  // A thermal control that does not say what it follows can't be computed: better nothing than half of it.
  if (plan === null && station.gainControl !== undefined && station.gainControl.mode !== 'manual')
    return null;
  const control = (frequencyMhz: number, ambientC: number): number =>
    plan === null
      ? 0
      : controlAt(plan, ambientC).controlDb * Math.sqrt(frequencyMhz / plan.gainControl.topMhz);
  return (frequencyMhz, ambientC) =>
    spanLossDb(span, frequencyMhz, RATED_C) -
    spanLossDb(span, frequencyMhz, ambientC) +
    control(frequencyMhz, ambientC) -
    control(frequencyMhz, RATED_C);
}

/**
 * The same for the two figures that are followed: the level at the design's high frequency and the tilt. Flatness is left alone:
 * a cable's change has no bumps.
 * @param weather   as `weatherOf` gives it
 * @param design    lowMhz and highMhz
 * @param ambientC  degrees C
 * @returns  dB, against 20 degrees C
 * @source   see `weatherOf`
 */
export function weatherEffect(
  weather: WeatherAt,
  design: Readonly<{ lowMhz: number; highMhz: number }>,
  ambientC: number,
): WeatherEffect {
  const levelDb = weather(design.highMhz, ambientC);
  return { levelDb, tiltDb: levelDb - weather(design.lowMhz, ambientC) };
}
