import type { CascadeLink } from '../../core/bridge/cascade-calls.ts';
import type { Cable } from '../../core/coax/cables.ts';
import { type FittedSlope, fittedSlope } from '../../core/coax/fitted-slope.ts';
import { cableNamed } from '../../core/coax/loss.ts';
import { spanLossDb } from '../../core/coax/span.ts';
import { type SpanCheck, spanCheck } from '../../core/coax/span-check.ts';
import { type SpanFigures, spanFigures } from '../../core/coax/span-figures.ts';
import { type Sent, spanReadings } from '../../core/coax/span-readings.ts';
import { atTemperature } from '../../core/coax/temperature.ts';
import type { Design } from '../../core/files/station.ts';
import type { SpanNotes } from '../../core/files/station-figures.ts';
import { forwardOutput } from '../../core/noise/stage-level.ts';
import { refusalLine } from '../../core/result.ts';
import { standsOf } from './cascade-stands.ts';

export type Temperatures = Readonly<{ coldC: number; nowC: number; hotC: number }>;
/** Loss over frequency on one kind of day. */
export type LossCurve = Readonly<{
  day: 'cold' | 'now' | 'hot';
  points: readonly (readonly [mhz: number, lossDb: number])[];
}>;

export type SpanView = Readonly<{
  design: Design;
  cable: Cable;
  figures: SpanFigures;
  curves: readonly LossCurve[];
  fitted: FittedSlope;
  /** Slope that the plug-ins lack, dB; below 0 where they have too much. */
  slopeLackingDb: number;
  /** What the sweeps say, or why they say nothing. */
  check: SpanCheck | null;
  unchecked: string;
  /** Where the levels that go into the span are known from. */
  sentFrom: Readonly<{ from: Sent['from']; name: string | null }>;
  checkedAtC: number;
  /** The station file's own figure of the span, for comparison; null where it has none at this frequency. */
  fileLossDb: number | null;
}>;

/** Steps of the curves: round ones, so that a table of them reads well, and enough of them on a narrow band. */
const STEPS_MHZ = [10, 5, 1];
const LEAST_STEPS = 40;

/** The forward design of a station; the reckoning is done at its two ends. */
export function designOf(link: CascadeLink): Design | null {
  const port = forwardOutput(link.station);
  return port.ok ? port.value.design : null;
}

/** What the span in front of a station does, and what the newest sweeps say of it. */
export function viewSpan(
  links: readonly CascadeLink[],
  span: SpanNotes,
  { coldC, nowC, hotC }: Temperatures,
): SpanView | Readonly<{ missing: string }> {
  const link = links.at(-1);
  const port = link === undefined ? null : forwardOutput(link.station);
  if (link === undefined || port === null || !port.ok)
    return { missing: port?.ok === false ? refusalLine(port) : 'no station' };
  const cable = cableNamed(span.cable);
  if (!cable.ok) return { missing: refusalLine(cable) };
  const { design } = port.value;
  const { lowMhz, highMhz } = design;
  const before = links.at(-2) ?? null;
  const sentDesign = (before === null ? null : designOf(before)) ?? design;
  const rise = ({ lowDbmv, highDbmv }: Design) => highDbmv - lowDbmv;
  const topMhz = equalizerTopMhz(link, port.value.through) ?? highMhz;
  const figures = spanFigures({
    ...{ cable: cable.value, lengthM: span.lengthM, lowMhz, highMhz, coldC, nowC, hotC },
    perDegreeF: span.perDegreeF,
    topMhz: Math.max(topMhz, highMhz),
    riseToSpareDb: rise(sentDesign) - rise(design),
  });
  if (!figures.ok) return { missing: refusalLine(figures) };
  const fitted = fittedSlope(link.station, port.value.name, link.pluggedIn, lowMhz, highMhz);
  const now = figures.value.days.find(({ day }) => day === 'now');
  const neededDb = (now?.tiltDb ?? 0) - (rise(sentDesign) - rise(design));
  const stands = standsOf(link);
  const sentRows = before === null ? null : standsOf(before).outputRows;
  const sent: Sent =
    sentRows === null ? { from: 'design', design: sentDesign } : { from: 'sweep', rows: sentRows };
  const checkedAtC = link.input?.summary.ambientC ?? nowC;
  const received = stands.inputRows;
  const check =
    received === null
      ? null
      : spanCheck(
          { ...span, cable: cable.value },
          checkedAtC,
          spanReadings(received, sent, stands.lineUp ?? null),
        );
  const file = link.station.span;
  const read = check?.ok === true ? check.value.points.map(({ frequencyMhz }) => frequencyMhz) : [];
  const frequencies = curveFrequencies(lowMhz, highMhz, read);
  return {
    ...{ design, cable: cable.value, figures: figures.value, fitted, checkedAtC },
    curves: figures.value.days.map(({ day, ambientC }) => ({
      day,
      points: curveOf(cable.value, span, ambientC, frequencies),
    })),
    slopeLackingDb: neededDb - fitted.slopeDb,
    check: check?.ok === true ? check.value : null,
    unchecked: check === null ? '' : check.ok ? '' : refusalLine(check),
    sentFrom: { from: sent.from, name: before?.station.name ?? null },
    fileLossDb: file !== undefined && Math.abs(file.topMhz - highMhz) < 1 ? file.lossDb : null,
  };
}

/** The top frequency of the equalizers in the path; null without one. */
function equalizerTopMhz({ station }: CascadeLink, through: readonly string[]): number | null {
  for (const position of station.positions)
    if (position.kind === 'equalizer' && through.includes(position.name)) return position.topMhz;
  return null;
}

/** Where the curves are computed: both ends, round steps between, and every frequency that was measured. */
function curveFrequencies(lowMhz: number, highMhz: number, read: readonly number[]): readonly number[] {
  const step = STEPS_MHZ.find((one) => (highMhz - lowMhz) / one >= LEAST_STEPS) ?? 1;
  const all = new Set([lowMhz, highMhz, ...read]);
  for (let at = Math.ceil(lowMhz / step) * step; at < highMhz; at += step) all.add(at);
  return [...all].sort((a, b) => a - b);
}

function curveOf(
  cable: Cable,
  span: SpanNotes,
  ambientC: number,
  frequenciesMhz: readonly number[],
): LossCurve['points'] {
  return frequenciesMhz.map((mhz) => {
    const loss = spanLossDb(cable, mhz, span.lengthM);
    const then = loss.ok ? atTemperature(loss.value, ambientC, span.perDegreeF) : loss;
    return [mhz, then.ok ? then.value : 0] as const;
  });
}
