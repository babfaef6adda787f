import { z } from 'zod';
import { setUpKinds, setUpStepIds } from '../set-up/steps.ts';
import { Id, Moment } from './records.ts';

const text = z.string().trim().min(1).max(400);
const mhz = z.number().positive().max(3000);

/** What a set-up is planned with; core/set-up/plan.ts makes it from the station and what the technician said. */
export const SetUpPlan = z.strictObject({
  kind: z.enum(setUpKinds),
  outputPort: text,
  inputPort: text.nullable(),
  /** The plant's highest frequency: the reserve's. */
  topMhz: mhz,
  /** The carrier at which the levels at the top are read. */
  topCarrierMhz: mhz,
  pilotMhz: mhz.nullable(),
  spanDb: z.number().min(0).max(200).nullable(),
  ambientC: z.number().min(-90).max(90).nullable(),
});
export type SetUpPlan = z.infer<typeof SetUpPlan>;

/** What was found out in a step, by name: a level in dBmV, a range in dB, the id of a sweep. */
export const StepValues = z.record(z.string().min(1).max(40), z.union([z.number(), z.string().max(400)]));
export type StepValues = z.infer<typeof StepValues>;

/** One thing that happened to a step; never changed afterwards. `seq` counts from 0 within the set-up. */
export const SetUpEvent = z.strictObject({
  seq: z.number().int().min(0),
  at: Moment,
  step: z.enum(setUpStepIds),
  outcome: z.enum(['done', 'skipped', 'redo']),
  by: z.enum(['reading', 'hand']),
  /** Why it was skipped, or is done again. */
  reason: z.string().nullable(),
  values: StepValues,
  /** The live run whose readings proved it. */
  liveId: Id.nullable(),
});
export type SetUpEvent = z.infer<typeof SetUpEvent>;

/** A set-up as it is kept: how it was planned, and what happened. core/set-up/state.ts tells from it how it stands. */
export const SetUpRecord = z.strictObject({
  setUpId: Id,
  visitId: Id,
  stationId: text,
  revision: z.number().int().positive(),
  startedAt: Moment,
  plan: SetUpPlan,
  events: z.array(SetUpEvent),
  /** Why it was given up, or null. */
  abandoned: z.string().nullable(),
});
export type SetUpRecord = z.infer<typeof SetUpRecord>;

export const setUpCalls = {
  /** One at a time in a visit. What is null is taken from the station and the visit. */
  'set-up.begin': {
    in: z.strictObject({
      visitId: Id,
      kind: z.enum(setUpKinds),
      topMhz: mhz.nullable(),
      topCarrierMhz: mhz.nullable(),
      pilotMhz: mhz.nullable(),
      spanDb: z.number().min(0).max(200).nullable(),
      ambientC: z.number().min(-90).max(90).nullable(),
    }),
    out: SetUpRecord,
  },
  /** The set-up of a visit that was not given up, exactly as it stands, also after a crash. */
  'set-up.open': {
    in: z.strictObject({ visitId: Id }),
    out: z.strictObject({ setUp: SetUpRecord.nullable() }),
  },
  /**
   * One thing that happened. `done` and `skipped` are taken for the step that is next, `redo` for one that is over; it
   * opens those again that rest on it. A skipped step has a reason. Answers with the record including it.
   */
  'set-up.record': {
    in: z.strictObject({
      visitId: Id,
      step: z.enum(setUpStepIds),
      outcome: z.enum(['done', 'skipped', 'redo']),
      by: z.enum(['reading', 'hand']),
      reason: z.string().trim().max(400).nullable(),
      values: StepValues,
      liveId: Id.nullable(),
    }),
    out: SetUpRecord,
  },
  /** Gives it up, for a reason; what was recorded stays. Another may be begun. */
  'set-up.abandon': { in: z.strictObject({ visitId: Id, reason: text }), out: SetUpRecord },
  /** Every set-up of a station, newest first, those given up too. */
  'set-up.list': {
    in: z.strictObject({ stationId: text }),
    out: z.strictObject({ setUps: z.array(SetUpRecord) }),
  },
} as const;
