import type { LineUpEntry } from '../channels/line-up.ts';
import { type Design, installedOf, type PluggedIn, type Port, type Station } from '../files/station.ts';
import type { Trim } from '../files/station-notes.ts';
import type { Truck } from '../files/truck.ts';
import type { ChosenSignals } from '../line/choose-rows.ts';
import { chooseRows } from '../line/choose-rows.ts';
import { unfitDesign } from '../line/design-line.ts';
import type { LevelRow } from '../line/level-row.ts';
import type { Excluded } from '../line/usable-rows.ts';
import { done, type Refusal, type Result, refuse } from '../result.ts';
import { type Conditions, unfitConditions } from '../uncertainty/budget.ts';
import { type BeyondTruck, beyondTruck } from './beyond-truck.ts';
import { leastWorst } from './least-worst.ts';
import { type Choice, choiceOf, type Objective, objectiveOf, offOf } from './objective.ts';
import { type PredictedPoint, predictedSweep } from './predicted-sweep.ts';
import type { Found } from './rank.ts';
import { recommend } from './recommend.ts';
import { searchCombinations } from './search.ts';
import { type StageInputNote, type StageLimit, stageInputFor } from './stage-input.ts';
import { stockOf } from './stock.ts';
import { trimEffect, unfitTrim } from './trims.ts';
import { type Remains, remainsOf, type Why, whyOf } from './why.ts';

export type ProposeRequest = Readonly<{
  /** MHz and dBmV at the port, any order. */
  rows: readonly LevelRow[];
  station: Station;
  /** The port that was read; the first one with a design when left out. */
  portName?: string | undefined;
  /** What was in when it was read; positions not named hold their `installed` value. */
  pluggedIn?: PluggedIn | undefined;
  /** A sweep of the stage input's port, dBmV there. */
  inputRows?: readonly LevelRow[] | undefined;
  /** dB that a further change must buy; 0.25 when left out. */
  slackDb?: number | undefined;
  keepAll?: boolean | undefined;
  maxAlternatives?: number | undefined;
  /** What is in the truck; without it any number of each value of the kit. */
  truck?: Truck | null | undefined;
  /** Trims that may be turned once the plug-ins are in. */
  trims?: readonly Trim[] | undefined;
  /** The meter and the temperature; with them the answer holds the predicted sweep and what it is uncertain by. */
  uncertainty?: Conditions | null | undefined;
  /** What each channel carries; without it rows of different kinds are moved by their usual steps. */
  lineUp?: readonly LineUpEntry[] | null | undefined;
}>;
export type Proposal = Readonly<{
  portName: string;
  count: number;
  before: Omit<Choice, 'values' | 'changes'>;
  best: Choice;
  recommended: Choice;
  alternatives: readonly Choice[];
  feasible: boolean;
  stageInput: StageInputNote | null;
  excluded: readonly Excluded[];
  /** What is wrong as it was read, the largest part named; and what is left, and whether plug-ins could mend it. */
  why: Why;
  remains: Remains;
  /** By rising number of changes, from staying on: the least worst channel that so many can give, while it falls. */
  pareto: readonly Choice[];
  /** The sweep as it will be with what is recommended; only with an uncertainty. */
  predicted?: readonly PredictedPoint[];
  /** Only where there are several kinds of signal, or a line-up was given. */
  signals?: ChosenSignals;
  /** Only with a truck: what parts that it lacks would have given; null where they would buy no more than the slack. */
  beyondTruck?: BeyondTruck | null;
}>;
export type ProposeRefusal =
  | 'no-such-port'
  | 'no-design'
  | 'bad-design'
  | 'no-such-position'
  | 'bad-value'
  | 'no-usable-rows'
  | 'too-few'
  | 'one-frequency'
  | 'not-finite'
  | 'no-input-level'
  | 'too-many';

export const DEFAULT_SLACK_DB = 0.25;
export const DEFAULT_MAX_ALTERNATIVES = 5;

/**
 * Which plug-ins to change so that the port comes nearest to its design. Exact: `best` is the least worst channel over
 * every combination that the kit allows and the stage input permits; what is in now may always stay.
 * @param request  sweep, station and what is plugged in; see its fields for units and defaults
 * @returns  best, recommended, alternatives, what it is now, and how the stage input's limit was met; or a refusal that
 *           says what is missing
 * @source   contract, section 3, "propose, exactly"
 */
export function propose(request: ProposeRequest): Result<Proposal, ProposeRefusal> {
  const { station, keepAll } = request;
  const checked = checkedRequest(request);
  if (!checked.ok) return checked;
  const { port, design, pluggedIn, slackDb, maxAlternatives } = checked.value;

  const { shape, lowMhz, highMhz, toleranceDb } = design;
  const { lineUp } = request;
  const { used, excluded, signals } = chooseRows(request.rows, { shape, lowMhz, highMhz, keepAll, lineUp });
  if (used.length === 0)
    return refuse(
      'no-usable-rows',
      `port "${port.name}"`,
      `no usable row between ${lowMhz} and ${highMhz} MHz, the port's design range`,
    );

  const stage = stageInputFor(station, request.inputRows, keepAll, lineUp);
  if (!stage.ok) return stage;
  const limit = stage.value.limit;
  const stock = request.truck == null ? null : stockOf(request.truck);
  const objective = objectiveOf(used, station, port, design, pluggedIn, limit, stock);
  if (!allFinite(objective))
    return refuse('not-finite', 'levels and losses', 'too large to compute with; look at their units');
  const before = choiceOf(
    objective,
    objective.free.map(({ nowIndex }) => nowIndex),
  );
  if (!before.ok) return before;

  const searched = searchWithin(objective, limit, 1 + maxAlternatives);
  if (searched === null)
    return refuse(
      'too-many',
      `port "${port.name}"`,
      'too many combinations to try them all; name fewer values in the station file',
    );
  const { lists, feasible } = searched;
  const found = recommend(lists, { toleranceDb, slackDb, maxAlternatives });
  if (found === null) throw new RangeError('the search found no combination');
  const trims = (request.trims ?? []).filter((trim) => (trim.port ?? port.name) === port.name);
  const chosen = new Map<Found, Choice>();
  for (const one of [found.best, found.recommended, ...found.alternatives, ...found.pareto]) {
    if (chosen.has(one)) continue;
    const choice = choiceOf(objective, one.indices, trims);
    if (!choice.ok) return choice;
    chosen.set(one, choice.value);
  }
  const listOf = (some: readonly Found[]) => some.flatMap((one) => chosen.get(one) ?? []);
  const best = chosen.get(found.best);
  const recommended = feasible ? chosen.get(found.recommended) : best;
  if (best === undefined || recommended === undefined) throw new RangeError('a choice that was not made');
  const { values: _values, changes: _changes, ...now } = before.value;
  const floorDb = floorOf(objective, found.best.indices);
  const { uncertainty } = request;
  const fitted = { from: pluggedIn, to: recommended.values, moves: recommended.withTrims?.moves, trims };
  return done({
    portName: port.name,
    count: used.length,
    before: now,
    best,
    recommended,
    alternatives: feasible ? listOf(found.alternatives) : [],
    feasible,
    stageInput: stage.value.noteFor(pluggedIn, recommended.values, uncertainty),
    excluded,
    why: whyOf(now, design),
    remains: remainsOf(recommended.withTrims ?? recommended, floorDb, design),
    pareto: listOf(found.pareto),
    ...(uncertainty == null
      ? {}
      : {
          predicted: predictedSweep(request.rows, station, port.name, fitted, uncertainty, request.truck),
        }),
    ...(signals === null ? {} : { signals }),
    ...(request.truck == null
      ? {}
      : {
          beyondTruck: withAnyPart(
            station,
            request.truck,
            objectiveOf(used, station, port, design, pluggedIn, limit),
            limit,
            { bestWorstDb: feasible ? best.worstDb : null, slackDb },
          ),
        }),
  });
}

/** The same search with any number of each value of the kit. */
function withAnyPart(
  station: Station,
  truck: Truck,
  objective: Objective,
  limit: StageLimit | null,
  within: Parameters<typeof beyondTruck>[3],
): BeyondTruck | null {
  const searched = searchWithin(objective, limit, 1);
  if (searched?.feasible !== true) return null;
  const { slackDb } = within;
  const found = recommend(searched.lists, { toleranceDb: 0, slackDb, maxAlternatives: 0 });
  const choice = found === null ? null : choiceOf(objective, found.recommended.indices);
  if (found === null || choice?.ok !== true) return null;
  return beyondTruck(station, truck, { choice: choice.value, bestWorstDb: found.best.worstDb }, within);
}

type Searched = Readonly<{ lists: readonly (readonly Found[])[]; feasible: boolean }>;

/**
 * The search among the combinations that the stage input allows, or among those nearest to it where none is; null where
 * there are too many. Which is nearest costs more with a stock than the search itself, so there it is asked only if needed.
 */
function searchWithin(objective: Objective, limit: StageLimit | null, keep: number): Searched | null {
  const { free, counts } = objective;
  if (limit === null || counts !== undefined) {
    const lists = searchCombinations(objective, limit?.allowed ?? null, keep);
    if (lists === null || limit === null || lists.some((list) => list.length > 0))
      return lists === null ? null : { lists, feasible: true };
  }
  const window = limit.windowFor(free, counts);
  const lists = window === null ? null : searchCombinations(objective, window, keep);
  return window === null || lists === null ? null : { lists, feasible: window.missDb === 0 };
}

/** The worst channel that would be left with the best plug-ins if level and tilt could then be set at will, dB. */
function floorOf(objective: Objective, indices: readonly number[]): number {
  const atMhz = objective.used.map(({ frequencyMhz }) => frequencyMhz);
  const { design } = objective;
  const anyDb: [number, number] = [-1000, 1000];
  const effects = (['gain', 'slope'] as const).map((kind) =>
    trimEffect({ name: kind, kind, rangeDb: anyDb, atMhz: design.highMhz }, design, atMhz),
  );
  return leastWorst(offOf(objective, indices), effects, [anyDb, anyDb]).worstDb;
}

/** Losses and deviations that are numbers; a plain loop, because there are thousands of them. */
function allFinite({ bareDb, free }: Objective): boolean {
  for (const list of [bareDb, ...free.flatMap(({ pathLossDb, inputLossDb }) => [...pathLossDb, inputLossDb])])
    for (let i = 0; i < list.length; i++) if (!Number.isFinite(list[i])) return false;
  return true;
}

type Checked = Readonly<{
  port: Port;
  design: Design;
  pluggedIn: PluggedIn;
  slackDb: number;
  maxAlternatives: number;
}>;

/** What a person may have got wrong in the request, in one place, with the defaults. */
function checkedRequest(request: ProposeRequest): Result<Checked, ProposeRefusal> {
  const { station, portName } = request;
  const found = portOf(station, portName);
  if (!found.ok) return found;
  const { port, design } = found.value;
  const unfit =
    unfitDesign(design) ?? (request.uncertainty == null ? null : unfitConditions(request.uncertainty));
  if (unfit !== null) return unfit;
  const trim = unfitTrim(request.trims ?? []);
  if (trim !== null) return trim;
  const slackDb = request.slackDb ?? DEFAULT_SLACK_DB;
  if (!(Number.isFinite(slackDb) && slackDb >= 0)) return refuse('bad-value', 'slack', 'give dB, 0 or more');
  const names = new Set(station.positions.map(({ name }) => name));
  for (const [name, valueDb] of Object.entries(request.pluggedIn ?? {})) {
    if (!names.has(name))
      return refuse('no-such-position', `plugged in at "${name}"`, `the station has ${listed([...names])}`);
    if (!(Number.isFinite(valueDb) && valueDb >= 0))
      return refuse('bad-value', `plugged in at "${name}"`, 'give dB, 0 or more');
  }
  return done({
    port,
    design,
    pluggedIn: { ...installedOf(station), ...request.pluggedIn },
    slackDb,
    maxAlternatives: Math.max(0, Math.trunc(request.maxAlternatives ?? DEFAULT_MAX_ALTERNATIVES)),
  });
}

function portOf(
  { ports }: Station,
  portName: string | undefined,
): Result<{ port: Port; design: Design }, ProposeRefusal> {
  const withDesign = ports.filter((port) => port.design !== undefined).map(({ name }) => name);
  const port = ports.find(({ name }) => name === (portName ?? withDesign[0]));
  if (port?.design !== undefined) return done({ port, design: port.design });
  const help: Pick<Refusal, 'help'> = {
    help:
      withDesign.length === 0 ? 'give a port a "design" in the station file' : `choose ${listed(withDesign)}`,
  };
  if (portName === undefined) return refuse('no-design', 'station file', help.help);
  return port === undefined
    ? refuse('no-such-port', `port "${portName}"`, `the station has ${listed(ports.map(({ name }) => name))}`)
    : refuse('no-design', `port "${portName}" has no design`, help.help);
}

const listed = (names: readonly string[]): string =>
  names.length === 0 ? 'none' : names.map((name) => `"${name}"`).join(', ');
