import type { Input, Output } from '../../../core/bridge/contract.ts';
import { Refused } from '../../../core/bridge/refused.ts';
import {
  type SetUpEvent,
  SetUpPlan,
  type SetUpRecord,
  StepValues,
} from '../../../core/bridge/set-up-calls.ts';
import { refusedEvent } from '../../../core/set-up/accept.ts';
import { setUpPlan } from '../../../core/set-up/plan.ts';
import { setUpState } from '../../../core/set-up/state.ts';
import { type SetUpStepId, setUpStepIds } from '../../../core/set-up/steps.ts';
import { fromThousandths, maybe, momentOf, orderedJson } from '../archive/quantities.ts';
import type { SetUpEventRow, SetUpRow } from '../archive/set-ups.ts';
import type { Designs } from './designs.ts';
import { refused, type ServiceParts } from './service-parts.ts';
import type { Visits } from './visits.ts';

export type SetUps = Readonly<{
  begin(input: Input<'set-up.begin'>): SetUpRecord;
  open(input: Input<'set-up.open'>): Output<'set-up.open'>;
  record(input: Input<'set-up.record'>): SetUpRecord;
  abandon(input: Input<'set-up.abandon'>): SetUpRecord;
  list(input: Input<'set-up.list'>): Output<'set-up.list'>;
}>;

/** A step that this program doesn't know was recorded by a newer one, whose archive it would not have opened. */
function stepOf(text: string): SetUpStepId {
  const step = setUpStepIds.find((id) => id === text);
  if (step === undefined) throw new Error(`the archive names a step "${text}" that does not exist`);
  return step;
}

const eventOf = (row: SetUpEventRow): SetUpEvent => ({
  seq: row.place,
  at: momentOf(row.happenedAtMs),
  step: stepOf(row.step),
  outcome: row.outcome,
  by: row.by,
  reason: row.reason,
  values: StepValues.parse(JSON.parse(row.entered)),
  liveId: row.liveId,
});

/** Guided set-ups: what happened is kept; how one stands is core's to say, from that alone. */
export function createSetUps(
  { archive, now, newId }: ServiceParts,
  designs: Designs,
  visits: Visits,
): SetUps {
  const recordOf = (row: SetUpRow): SetUpRecord => ({
    setUpId: row.setUpId,
    visitId: row.visitId,
    stationId: row.stationId,
    revision: row.revision,
    startedAt: momentOf(row.startedAtMs),
    plan: SetUpPlan.parse(JSON.parse(row.plan)),
    events: archive.setUps.events(row.seq).map(eventOf),
    abandoned: row.abandoned,
  });
  const byId = (setUpId: string): SetUpRecord => {
    const row = archive.setUps.byId(setUpId);
    if (row === undefined) throw new Error(`set-up ${setUpId} is gone`);
    return recordOf(row);
  };
  const running = (visitId: string): SetUpRow => {
    visits.openVisit(visitId);
    const row = archive.setUps.openIn(visitId);
    if (row === undefined)
      throw refused('no-set-up', `visit ${visitId}`, 'no set-up was begun in this visit; begin one');
    return row;
  };

  /** A sweep that a step names has to be one of this visit at the output. */
  const checkSweep = (
    plan: SetUpRecord['plan'],
    visitId: string,
    values: Input<'set-up.record'>['values'],
  ) => {
    const { sweepId } = values;
    if (sweepId === undefined) return;
    const sweep = archive.sweeps.byId(String(sweepId));
    if (sweep?.visitId !== visitId)
      throw refused('no-such-sweep', `sweep ${sweepId}`, 'it is no sweep of this visit');
    if (sweep.portName !== plan.outputPort)
      throw refused(
        'other-port',
        `sweep ${sweepId}`,
        `it was read at ${sweep.portName}; sweep at ${plan.outputPort}`,
      );
  };
  const liveSeq = (liveId: string | null, stationId: string): number | null => {
    if (liveId === null) return null;
    const row = archive.lives.byId(liveId);
    if (row?.stationId !== stationId)
      throw refused('no-such-live', `live reading ${liveId}`, 'it is no live reading of this station');
    return row.seq;
  };

  return {
    begin({ visitId, ...asked }) {
      const setUpId = newId();
      archive.write(() => {
        const visit = visits.openVisit(visitId);
        const design = designs.newest(visit.stationId);
        if (archive.setUps.openIn(visitId) !== undefined)
          throw refused(
            'set-up-begun',
            design.station.name,
            'this visit has a set-up; go on with it, or give it up first',
          );
        const plan = setUpPlan(design.station, {
          ...asked,
          ambientC: asked.ambientC ?? maybe(visit.ambientMc, fromThousandths),
        });
        if (!plan.ok) throw new Refused(plan);
        archive.setUps.add({
          setUpId,
          visit: visit.seq,
          stationId: visit.stationId,
          revision: design.revision,
          plan: orderedJson(plan.value),
          startedAtMs: now().getTime(),
        });
      });
      return byId(setUpId);
    },
    open({ visitId }) {
      const row = archive.setUps.openIn(visitId);
      return { setUp: row === undefined ? null : recordOf(row) };
    },
    record({ visitId, step, outcome, by, reason, values, liveId }) {
      const setUpId = archive.write(() => {
        const row = running(visitId);
        const { plan, events, stationId } = recordOf(row);
        const why = reason === null || reason === '' ? null : reason;
        const event = { step, outcome, by, reason: why, values };
        const refusal = refusedEvent(setUpState(plan.kind, events), event);
        if (refusal !== null) throw new Refused(refusal);
        checkSweep(plan, visitId, values);
        archive.setUps.addEvent(row.seq, {
          place: events.length,
          step,
          outcome,
          by,
          reason: why,
          entered: orderedJson(values),
          live: liveSeq(liveId, stationId),
          happenedAtMs: now().getTime(),
        });
        return row.setUpId;
      });
      return byId(setUpId);
    },
    abandon({ visitId, reason }) {
      const setUpId = archive.write(() => {
        const row = running(visitId);
        archive.setUps.abandon(row.seq, reason, now().getTime());
        return row.setUpId;
      });
      return byId(setUpId);
    },
    list: ({ stationId }) => ({ setUps: archive.setUps.ofStation(stationId).map(recordOf) }),
  };
}
