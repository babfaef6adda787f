import type { StationSheet, SweepSummary } from '../../core/bridge/records.ts';

const byTime = (a: SweepSummary, b: SweepSummary) => (a.startedAt < b.startedAt ? 1 : -1);

/** Sweeps of a port that have readings to look at, newest first. */
export const sweepsOf = (sheet: StationSheet, portName: string): readonly SweepSummary[] =>
  sheet.sweeps
    .filter((sweep) => sweep.portName === portName && sweep.state !== 'recording' && sweep.readingCount > 0)
    .sort(byTime);

/** Void ones and those that a later record says right are shown, and nothing is judged by them. */
export const counts = ({ voided, correctedBy }: SweepSummary): boolean =>
  voided === null && correctedBy === null;

/** The newest complete sweep of the stage input's port in a visit: what went in before what a later port shows. */
export function inputSummary(sheet: StationSheet, visitId: string | null): SweepSummary | null {
  const { stageInput } = sheet.station;
  if (stageInput === undefined || visitId === null) return null;
  return (
    sweepsOf(sheet, stageInput.port).find(
      (sweep) => counts(sweep) && sweep.state === 'complete' && sweep.visitId === visitId,
    ) ?? null
  );
}
