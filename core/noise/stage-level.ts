import type { LineUpEntry } from '../channels/line-up.ts';
import type { PluggedIn, Port, Station } from '../files/station.ts';
import { targetDbmv } from '../line/design-line.ts';
import { fitSweep } from '../line/fit-sweep.ts';
import type { LevelRow } from '../line/level-row.ts';
import { lossDb } from '../plug-ins/loss.ts';
import { done, type Result, refuse } from '../result.ts';

/** A station as it stands: its file, what is in, and its newest sweeps at output and input, levels at the port in dBmV. */
export type StationAsItStands = Readonly<{
  station: Station;
  pluggedIn: PluggedIn;
  lineUp?: readonly LineUpEntry[] | null | undefined;
  gainDb?: number | undefined;
  outputRows: readonly LevelRow[] | null;
  inputRows: readonly LevelRow[] | null;
}>;

/** Levels at the two ends of the forward design, dBmV on the line of the carriers, and where they are known from. */
export type EndLevels<From extends string> = Readonly<{ lowDbmv: number; highDbmv: number; from: From }>;
export type OutputLevels = EndLevels<'sweep' | 'design'>;
export type StageLevels = EndLevels<'input sweep' | 'output less gain'>;

export type DesignedPort = Port & Readonly<{ design: NonNullable<Port['design']> }>;
export type NoLevels = 'no-design' | 'no-input-level';

/**
 * The forward port whose output the design names.
 * @returns  the first one with a design, or a refusal
 * @source   contract, section 2
 */
export function forwardOutput(station: Station): Result<DesignedPort, 'no-design'> {
  for (const port of station.ports)
    if (port.direction === 'forward' && port.design !== undefined)
      return done({ ...port, design: port.design });
  return refuse(
    'no-design',
    `${station.name}, forward ports`,
    'none has a design; it stands in the station file',
  );
}

/**
 * The output levels of a station at the two ends of its design: by the line of its sweep, else by the design.
 * @returns  dBmV, or a refusal without a forward design
 * @source   contract, section 3, "fit, exactly"
 */
export function outputLevels(stands: StationAsItStands): Result<OutputLevels, 'no-design'> {
  const port = forwardOutput(stands.station);
  if (!port.ok) return port;
  const { design } = port.value;
  const read = lineAt(stands, stands.outputRows, design);
  if (read !== null) return done({ ...read, from: 'sweep' });
  return done({
    lowDbmv: targetDbmv(design, design.lowMhz),
    highDbmv: targetDbmv(design, design.highMhz),
    from: 'design',
  });
}

/**
 * The levels at the first stage of the amplifier, behind input pad and equalizer: from a sweep of the input, less what is
 * plugged in there; else from the output, less the gain and what is plugged in behind.
 * @returns  dBmV, or a refusal where neither is known
 * @source   contract, section 2, `stageInput`; the rest is arithmetic of gains and losses
 */
export function stageLevels(stands: StationAsItStands): Result<StageLevels, NoLevels> {
  const { station } = stands;
  const port = forwardOutput(station);
  if (!port.ok) return port;
  const { design, through } = port.value;
  const before = station.stageInput?.through ?? [];
  const at = (frequencyMhz: number, positions: readonly string[]) =>
    positions.reduce((sum, named) => sum + lossOf(stands, named, frequencyMhz), 0);
  const input = station.stageInput === undefined ? null : lineAt(stands, stands.inputRows, design);
  if (input !== null)
    return done({
      lowDbmv: input.lowDbmv - at(design.lowMhz, before),
      highDbmv: input.highDbmv - at(design.highMhz, before),
      from: 'input sweep',
    });
  const { gainDb } = stands;
  if (gainDb === undefined)
    return refuse(
      'no-input-level',
      `${station.name}, input level`,
      'read the forward input, or enter the gain that the data sheet of the amplifier says',
    );
  const output = outputLevels(stands);
  if (!output.ok) return output;
  const behind = through.filter((named) => !before.includes(named));
  return done({
    lowDbmv: output.value.lowDbmv - gainDb + at(design.lowMhz, behind),
    highDbmv: output.value.highDbmv - gainDb + at(design.highMhz, behind),
    from: 'output less gain',
  });
}

function lossOf({ station, pluggedIn }: StationAsItStands, named: string, frequencyMhz: number): number {
  const position = station.positions.find(({ name }) => name === named);
  if (position === undefined) return 0;
  return lossDb(position, pluggedIn[named] ?? position.installed, frequencyMhz);
}

/** The line of a sweep at the two ends of a design; null without a sweep, or with one that has no line. */
function lineAt(
  { lineUp }: StationAsItStands,
  rows: readonly LevelRow[] | null,
  { shape, lowMhz, highMhz }: DesignedPort['design'],
): Readonly<{ lowDbmv: number; highDbmv: number }> | null {
  if (rows === null) return null;
  const fit = fitSweep(rows, { shape, lowMhz, highMhz, lineUp });
  return fit.ok ? { lowDbmv: fit.value.lowDbmv, highDbmv: fit.value.highDbmv } : null;
}
