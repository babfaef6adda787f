import type { StationSheet, Sweep, SweepSummary } from '../../core/bridge/records.ts';
import type { SetUpRecord } from '../../core/bridge/set-up-calls.ts';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { type SetUpState, setUpState } from '../../core/set-up/state.ts';
import type { SetUpStep, SetUpStepId } from '../../core/set-up/steps.ts';
import { type NoTarget, type SaidIn, type StepTarget, stepTarget } from '../../core/set-up/target.ts';
import { bareLevel, signedDecimal } from '../format.ts';
import type { LevelGoal } from './level-moment.ts';
import type { LivePlan } from './live-slice.ts';

export type SetUpView = Readonly<{
  record: SetUpRecord;
  state: SetUpState;
  /** The step in hand; null when every one is over. */
  step: SetUpStep | null;
  stepNumber: number;
  stepCount: number;
  target: StepTarget | NoTarget;
  goal: LevelGoal;
  /** Where the meter has to listen; null where the step reads nothing. */
  listen: LivePlan | null;
}>;

function goalOf(step: SetUpStep, target: StepTarget | NoTarget): LevelGoal {
  switch (step.proof) {
    case 'low-end':
      return { kind: 'end', end: 'low' };
    case 'high-end':
      return { kind: 'end', end: 'high' };
    case 'on-target':
      return 'why' in target
        ? { kind: 'none' }
        : { kind: 'target', levelDbmv: target.levelDbmv, toleranceDb: target.toleranceDb };
    case 'range':
    case 'steady':
    case 'hand':
    case 'sweep':
      return { kind: 'none' };
  }
}

function listenOf(sheet: StationSheet, { plan }: SetUpRecord, step: SetUpStep): LivePlan | null {
  if (step.reading === null) return null;
  const portName = step.reading.at === 'input' ? plan.inputPort : plan.outputPort;
  if (portName === null) return null;
  const frequencyMhz =
    step.reading.frequency === 'pilot' ? (plan.pilotMhz ?? plan.topCarrierMhz) : plan.topCarrierMhz;
  return { stationId: sheet.station.id, portName, frequencyMhz };
}

/** How a set-up stands and what its step in hand needs, from the record alone, said in the units of the settings. */
export function viewSetUp(sheet: StationSheet, record: SetUpRecord, said?: SaidIn): SetUpView {
  const state = setUpState(record.plan.kind, record.events);
  const place = state.steps.findIndex(({ step }) => step.id === state.next);
  const step = state.steps[place]?.step ?? null;
  const target: StepTarget | NoTarget =
    step === null
      ? { why: 'every step is over' }
      : stepTarget(sheet.station, sheet.pluggedIn, record.plan, state, step.id, said);
  return {
    record,
    state,
    step,
    stepNumber: place + 1,
    stepCount: state.steps.length,
    target,
    goal: step === null ? { kind: 'none' } : goalOf(step, target),
    listen: step === null ? null : listenOf(sheet, record, step),
  };
}

/** When what a step rests on was last settled: a sweep before that proves nothing for it. */
function settledAt(record: SetUpRecord, step: SetUpStep): string {
  const under: readonly SetUpStepId[] = [step.id, ...step.restsOn];
  const last = record.events.findLast((event) => under.includes(event.step));
  return last?.at ?? (step.id === 'sweep-as-found' ? '' : record.startedAt);
}

/** The newest whole sweep of this visit that the step can stand on; its readings may still be on their way. */
export function sweepFor(sheet: StationSheet, record: SetUpRecord, step: SetUpStep): SweepSummary | null {
  const since = settledAt(record, step);
  return (
    sheet.sweeps.find(
      (sweep) =>
        sweep.visitId === record.visitId &&
        sweep.portName === record.plan.outputPort &&
        sweep.state === 'complete' &&
        sweep.startedAt > since &&
        (step.id !== 'sweep-as-found' || sweep.purpose === 'as-found') &&
        (step.id !== 'sweep-as-left' || sweep.purpose === 'as-left'),
    ) ?? null
  );
}

export const hasSweep = (sweeps: Readonly<Record<string, Sweep>>, sweepId: string): boolean =>
  sweeps[sweepId] !== undefined;

const valueNames: Readonly<Record<string, (value: number, unit: LevelUnitName) => string>> = {
  levelDbmv: bareLevel,
  lowDbmv: bareLevel,
  maxDbmv: bareLevel,
  setDbmv: bareLevel,
  upDb: (value) => signedDecimal(value),
  downDb: (value) => signedDecimal(-value),
};

/** What a step that is over found out, as short as the list of steps has room for. */
export const foundWords = (
  step: SetUpStep,
  values: Readonly<Record<string, number | string>>,
  unit: LevelUnitName = 'dBmV',
): string =>
  step.values
    .flatMap(({ name }) => {
      const words = valueNames[name];
      const value = values[name];
      return words === undefined || typeof value !== 'number' || name === 'returnedDbmv'
        ? []
        : [words(value, unit)];
    })
    .join(' ');
