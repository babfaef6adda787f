import type { Fitting } from '../../core/bridge/records.ts';

/** Fittings that were noted together: those of one proposal, or one by hand. */
export type FittedTogether = Readonly<{
  key: string;
  at: string;
  visitId: string;
  fittings: readonly Fitting[];
}>;

export function fittedTogether(fittings: readonly Fitting[]): readonly FittedTogether[] {
  const groups = new Map<string, Fitting[]>();
  for (const fitting of fittings) {
    const key = fitting.proposalId ?? fitting.fittingId;
    groups.set(key, [...(groups.get(key) ?? []), fitting]);
  }
  return [...groups].map(([key, together]) => ({
    key,
    at: together[0]?.at ?? '',
    visitId: together[0]?.visitId ?? '',
    fittings: together,
  }));
}
