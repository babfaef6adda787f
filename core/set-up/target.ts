import type { PluggedIn, Station } from '../files/station.ts';
import { DISAGREE_DB } from '../gain-control/advise.ts';
import { ambientOffsetAtC } from '../gain-control/ambient.ts';
import type { Basis } from '../gain-control/basis.ts';
import { reserveAt } from '../gain-control/reserve.ts';
import { PER_DEGREE_C, spanOffsetDb } from '../gain-control/span-offset.ts';
import { targetDbmv } from '../line/design-line.ts';
import { throughLossDb } from '../plug-ins/through.ts';
import {
  bareLevel,
  type LevelUnitWord,
  level,
  signedDecimal,
  type TemperatureUnit,
  temperature,
} from '../words/numbers.ts';
import type { SetUpPlan } from './plan.ts';
import { foundOut, type SetUpState } from './state.ts';
import type { SetUpStepId } from './steps.ts';

/** How near to a set level a hand can bring a control. Common practice, no published source. */
export const ON_TARGET_DB = 0.2;

/** What physics says beside the rule of the ambient compensation, dB at the top. */
export type PhysicsBeside = Readonly<{ ruleDb: number; spanDb: number; disagree: boolean }>;

/** The level that a step is to reach, dBmV at the port, and how near is near enough. */
export type StepTarget = Readonly<{
  levelDbmv: number;
  toleranceDb: number;
  /** What it rests on: the design, or a rule of thumb. */
  basis: 'design' | Basis;
  /** How it comes about, without a full stop. */
  words: string;
  physics: PhysicsBeside | null;
}>;

/** Of a step that has no target, or not yet. */
export type NoTarget = Readonly<{ why: string }>;

/** The units that a target is said in; its figures stay dBmV and degrees C. */
export type SaidIn = Readonly<{ levelUnit: LevelUnitWord; temperatureUnit: TemperatureUnit }>;
const IN_DBMV: SaidIn = { levelUnit: 'dBmV', temperatureUnit: 'C' };

const plain = (db: number): string => db.toFixed(1);

function inputTarget(
  station: Station,
  pluggedIn: PluggedIn,
  plan: SetUpPlan,
  { levelUnit }: SaidIn,
): StepTarget | NoTarget {
  const limit = station.stageInput;
  if (limit === undefined || plan.inputPort === null)
    return { why: 'the station file says no "stageInput": compare with the design on paper' };
  const lossDb = throughLossDb(station, limit.through, pluggedIn, limit.atMhz);
  const middleDbmv = (limit.minDbmv + limit.maxDbmv) / 2;
  return {
    levelDbmv: middleDbmv + lossDb,
    toleranceDb: (limit.maxDbmv - limit.minDbmv) / 2,
    basis: 'design',
    words: `the first stage may get ${bareLevel(limit.minDbmv, levelUnit)} to ${level(limit.maxDbmv, levelUnit)}, and ${plain(lossDb)} dB are plugged in before it`,
    physics: null,
  };
}

function backOffTarget(plan: SetUpPlan, state: SetUpState, { levelUnit }: SaidIn): StepTarget | NoTarget {
  const maxDbmv = foundOut(state, 'max-gain', 'maxDbmv');
  if (maxDbmv === null) return { why: 'the maximum gain was not recorded' };
  const { reserveDb, basis } = reserveAt(plan.topMhz);
  return {
    levelDbmv: maxDbmv - reserveDb,
    toleranceDb: ON_TARGET_DB,
    basis,
    words: `the maximum of ${level(maxDbmv, levelUnit)} less the reserve of ${plain(reserveDb)} dB`,
    physics: null,
  };
}

function ambientTarget(
  station: Station,
  plan: SetUpPlan,
  state: SetUpState,
  said: SaidIn,
): StepTarget | NoTarget {
  const backedOff = backOffTarget(plan, state, said);
  if ('why' in backedOff) return backedOff;
  if (plan.ambientC === null) return { why: "say today's temperature" };
  const { offsetDb, basis } = ambientOffsetAtC(plan.ambientC);
  const spanDb =
    plan.spanDb === null
      ? null
      : spanOffsetDb(plan.spanDb, plan.ambientC, station.span?.perDegreeC ?? PER_DEGREE_C);
  return {
    levelDbmv: backedOff.levelDbmv + offsetDb,
    toleranceDb: ON_TARGET_DB,
    basis,
    words: `${backedOff.words}, and ${signedDecimal(offsetDb)} dB for ${temperature(plan.ambientC, said.temperatureUnit)}`,
    physics:
      spanDb === null
        ? null
        : { ruleDb: offsetDb, spanDb, disagree: Math.abs(offsetDb - spanDb) > DISAGREE_DB },
  };
}

function pilotTarget(station: Station, plan: SetUpPlan): StepTarget | NoTarget {
  const design = station.ports.find((port) => port.name === plan.outputPort)?.design;
  if (design === undefined) return { why: 'the output has no design line' };
  if (plan.pilotMhz === null) return { why: 'no pilot was chosen' };
  return {
    levelDbmv: targetDbmv(design, plan.pilotMhz),
    toleranceDb: design.toleranceDb,
    basis: 'design',
    words: `the design line at ${plan.pilotMhz} MHz`,
    physics: null,
  };
}

/** Where the range test starts from and comes back to. */
function setLevelTarget(plan: SetUpPlan, state: SetUpState, said: SaidIn): StepTarget | NoTarget {
  const setDbmv = foundOut(state, 'back-off', 'setDbmv');
  if (setDbmv === null) return backOffTarget(plan, state, said);
  return {
    levelDbmv: setDbmv,
    toleranceDb: ON_TARGET_DB,
    basis: reserveAt(plan.topMhz).basis,
    words: 'the level that was set',
    physics: null,
  };
}

/**
 * The target of a step, from the design, the rules of the gain control and what earlier steps found out.
 * @param station    levels in dBmV, losses in dB
 * @param pluggedIn  position name to value in dB, as it is now
 * @param state      how the set-up stands
 * @param said       the units of its words; dBmV and degrees C when left out
 * @returns  dBmV at the step's port; or why there is none
 * @throws   RangeError when what is plugged in is not known: the archive knows it
 * @source   reserve and ambient compensation: common practice, no published source; the sign: a hot cable loses more,
 *           so part of the reserve is in use already and the level is set that much higher
 */
export function stepTarget(
  station: Station,
  pluggedIn: PluggedIn,
  plan: SetUpPlan,
  state: SetUpState,
  id: SetUpStepId,
  said: SaidIn = IN_DBMV,
): StepTarget | NoTarget {
  switch (id) {
    case 'input-level':
      return inputTarget(station, pluggedIn, plan, said);
    case 'back-off':
      return backOffTarget(plan, state, said);
    case 'range-test':
      return setLevelTarget(plan, state, said);
    case 'ambient':
      return ambientTarget(station, plan, state, said);
    case 'pilot':
      return pilotTarget(station, plan);
    case 'sweep-as-found':
    case 'pilot-as-found':
    case 'control-low':
    case 'manual':
    case 'exchange':
    case 'max-gain':
    case 'rebalance':
    case 'automatic':
    case 'settle':
    case 'sweep-as-left':
      return { why: 'this step has no level of its own' };
  }
}
