import type { SweepSummary, TrimTurn, Turn } from '../../core/bridge/records.ts';

/** Trims that were turned between a sweep and the next one at the same port. */
export type TurnedSince = Readonly<{ sweepId: string; turns: readonly Turn[] }>;

/**
 * What was turned just before a sweep was read, if nothing else was read at its port in between: then that sweep shows
 * what the turns did, and nothing else.
 * @param turns   newest first
 * @param ofPort  the port's sweeps
 */
export function turnedJustBefore(
  turns: readonly TrimTurn[],
  shown: SweepSummary,
  ofPort: readonly SweepSummary[],
): TurnedSince | null {
  const mine = turns.filter(
    ({ visitId, portName, at }) =>
      visitId === shown.visitId && portName === shown.portName && at <= shown.startedAt,
  );
  const [last] = mine;
  if (last === undefined || last.sweepId === shown.sweepId) return null;
  const readBetween = ofPort.some(
    ({ sweepId, state, startedAt }) =>
      state === 'complete' &&
      sweepId !== shown.sweepId &&
      startedAt >= last.at &&
      startedAt <= shown.startedAt,
  );
  if (readBetween) return null;
  const together = mine.filter(({ sweepId }) => sweepId === last.sweepId);
  return { sweepId: last.sweepId, turns: together.toReversed().map(({ turn }) => turn) };
}

/** Turns that were noted together. */
export type TurnedTogether = Readonly<{ key: string; at: string; visitId: string; turns: readonly Turn[] }>;

export function turnedTogether(turns: readonly TrimTurn[], portName: string): readonly TurnedTogether[] {
  const groups = new Map<string, TrimTurn[]>();
  for (const one of turns.filter((turn) => turn.portName === portName).toReversed()) {
    const key = `${one.sweepId} ${one.at}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups].map(([key, together]) => ({
    key: `turned ${key}`,
    at: together[0]?.at ?? '',
    visitId: together[0]?.visitId ?? '',
    turns: together.map(({ turn }) => turn),
  }));
}
