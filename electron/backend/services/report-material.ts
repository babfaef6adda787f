import { createHash } from 'node:crypto';
import { conditionsOf, meterSheet } from '../../../core/bridge/conditions.ts';
import { SetUpPlan, StepValues } from '../../../core/bridge/set-up-calls.ts';
import { installedOf } from '../../../core/files/station.ts';
import { rowsAtPort } from '../../../core/line/port-level.ts';
import type {
  Amended,
  ReportFitting,
  ReportFrame,
  ReportSetUp,
  ReportSweep,
  ReportVisit,
} from '../../../core/report/material.ts';
import { type SetUpStepId, setUpStepIds } from '../../../core/set-up/steps.ts';
import type { Archive } from '../archive/open.ts';
import { fromThousandths, momentOf } from '../archive/quantities.ts';
import type { SweepRow } from '../archive/sweeps.ts';
import type { VisitRow } from '../archive/visits.ts';
import { fittingOf, summaryOf, type Unended, visitOf } from './as-records.ts';
import type { Designs } from './designs.ts';
import { readingsOf } from './readings.ts';
import type { SettingsService } from './settings.ts';
import { sweepFile } from './sweep-file.ts';
import { trimTurnOf } from './trims.ts';

export type MaterialParts = Readonly<{
  archive: Archive;
  designs: Designs;
  settings: Pick<SettingsService, 'read' | 'readNotes' | 'readTruck'>;
  /** How a sweep stands that has no end yet. */
  unended: (sweepId: string) => Unended;
}>;

export const sha256 = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');

const amended = (reason: string | null, by: string | null, atMs: number | null): Amended | null =>
  reason === null || atMs === null ? null : { reason, by: by ?? '', at: momentOf(atMs) };

function sweepOf({ archive, designs, settings, unended }: MaterialParts, row: SweepRow): ReportSweep {
  const summary = summaryOf(row, unended(row.sweepId));
  const { settings: now } = settings.read();
  const { notes } = settings.readNotes(row.stationId);
  const why = amended(row.correctionReason, row.correctionOperator, row.correctedAtMs);
  return {
    sweepId: row.sweepId,
    station: designs.at(row.stationId, row.revision).station,
    portName: summary.portName,
    purpose: summary.purpose,
    state: summary.state,
    source: summary.source,
    sourceName: summary.sourceName,
    meter: summary.meter,
    startedAt: summary.startedAt,
    endReason: summary.endReason,
    pluggedIn: summary.pluggedIn,
    rows: rowsAtPort(readingsOf(archive, row), fromThousandths(row.testPointLossMdb)),
    conditions: conditionsOf(now, notes, summary),
    sheet: meterSheet(now, notes, summary.meter?.model ?? null).source,
    sha256: sha256(sweepFile(archive, designs, row, unended(row.sweepId)).text),
    voided: amended(row.voidReason, row.voidOperator, row.voidedAtMs),
    corrects: row.corrects === null || why === null ? null : { ...why, sweepId: row.corrects },
    correctedBy: row.correctedBy,
  };
}

const isStep = (step: string): step is SetUpStepId => setUpStepIds.some((one) => one === step);

function setUpsOf(parts: MaterialParts, visit: VisitRow, sweeps: readonly ReportSweep[]): ReportSetUp[] {
  const { archive, settings } = parts;
  const { settings: now } = settings.read();
  const { notes } = settings.readNotes(visit.stationId);
  const meter = sweeps.find((sweep) => sweep.meter !== null)?.meter ?? null;
  return archive.setUps
    .ofStation(visit.stationId)
    .filter(({ visitId }) => visitId === visit.visitId)
    .toReversed()
    .map((row) => {
      const plan = SetUpPlan.parse(JSON.parse(row.plan));
      return {
        startedAt: momentOf(row.startedAtMs),
        plan,
        abandoned: row.abandoned,
        conditions: conditionsOf(now, notes, { meter, ambientC: plan.ambientC }),
        events: archive.setUps.events(row.seq).flatMap((event) =>
          isStep(event.step)
            ? [
                {
                  step: event.step,
                  outcome: event.outcome,
                  by: event.by,
                  reason: event.reason,
                  values: StepValues.parse(JSON.parse(event.entered)),
                  at: momentOf(event.happenedAtMs),
                },
              ]
            : [],
        ),
      };
    });
}

/** What was in at the visit's end: what its last sweep was read with, and what was fitted after that. */
function pluggedInAfter(
  parts: MaterialParts,
  visit: VisitRow,
  sweeps: readonly ReportSweep[],
  fittings: readonly ReportFitting[],
): Readonly<Record<string, number>> {
  const last = sweeps.at(-1);
  const station = last?.station ?? parts.designs.newest(visit.stationId).station;
  const values = new Map(Object.entries({ ...installedOf(station), ...last?.pluggedIn }));
  for (const { at, position, to } of fittings)
    if (last === undefined || at >= last.startedAt) values.set(position, to);
  return Object.fromEntries(values);
}

/** A visit with all that a report prints of it. */
export function visitMaterial(parts: MaterialParts, row: VisitRow): ReportVisit {
  const { archive } = parts;
  const visit = visitOf(row);
  const sweeps = archive.sweeps
    .ofStation(row.stationId)
    .filter(({ visitId }) => visitId === row.visitId)
    .toReversed()
    .map((sweep) => sweepOf(parts, sweep));
  const fittings = archive.parts
    .fittingsOf(row.stationId)
    .filter(({ visitId }) => visitId === row.visitId)
    .toReversed()
    .map(fittingOf)
    .map(({ at, change }) => ({ at, ...change }));
  const turns = archive.turns
    .ofStation(row.stationId)
    .filter(({ visitId }) => visitId === row.visitId)
    .toReversed()
    .map(trimTurnOf)
    .map(({ at, portName, turn: { name, ...turned } }) => ({ at, portName, trim: name, ...turned }));
  const made = archive.visits.madeIn(row.visitId);
  return {
    visitId: visit.visitId,
    operator: visit.operator,
    ambientC: visit.ambientC,
    startedAt: visit.startedAt,
    endedAt: visit.endedAt,
    cautionsReadAt: visit.cautionsReadAt,
    note: visit.note,
    place: { timeZone: made?.timeZone ?? 'UTC', utcOffsetMin: made?.utcOffsetMin ?? 0 },
    program: made?.program ?? 'unknown',
    sweeps,
    fittings,
    turns,
    setUps: setUpsOf(parts, row, sweeps),
    pluggedIn: pluggedInAfter(parts, row, sweeps, fittings),
  };
}

/** What holds for the whole report of these visits to one station; of the design that the last of them was read under. */
export function frameOf(
  parts: MaterialParts,
  stationId: string,
  visits: readonly ReportVisit[],
  made: Readonly<{ program: string; at: Date }>,
): ReportFrame {
  const { archive, designs, settings } = parts;
  const { levelUnit, temperatureUnit, lengthUnit } = settings.read().settings;
  const { notes } = settings.readNotes(stationId);
  const sweeps = visits.flatMap((visit) => visit.sweeps);
  const newest = designs.newest(stationId);
  const lastId = sweeps.at(-1)?.sweepId;
  const lastRow = lastId === undefined ? undefined : archive.sweeps.byId(lastId);
  const design = lastRow === undefined ? newest : designs.at(stationId, lastRow.revision);
  const head = archive.head();
  return {
    station: design.station,
    revision: design.revision,
    lineUp: notes?.lineUp ?? null,
    trims: notes?.trims ?? [],
    truck: settings.readTruck().truck,
    units: { levelUnit, temperatureUnit, lengthUnit },
    head: head.seq === 0 ? null : head,
    program: made.program,
    madeAt: made.at.toISOString(),
    dataSha256: sha256(sweeps.map((sweep) => `${sweep.sha256}  ${sweep.sweepId}\n`).join('')),
  };
}
