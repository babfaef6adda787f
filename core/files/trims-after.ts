import type { Trim } from './station-notes.ts';

const thousandth = (db: number): number => Math.round(db * 1000) / 1000 + 0;

/**
 * What is left of the trims' ways once some were turned: a trim that went up has that much less left up, and more down.
 * @param trims  with `rangeDb` from where they stood
 * @param turns  by name, dB above 0 for up; a name that no trim has changes nothing
 * @returns  the same trims with their ranges from where they stand now; a hand that went past an end leaves 0 there
 * @source   definition of `rangeDb`: from where it stands
 */
export const trimsAfter = (
  trims: readonly Trim[],
  turns: readonly Readonly<{ name: string; byDb: number }>[],
): Trim[] =>
  trims.map((trim) => {
    const byDb = turns.reduce((sum, turn) => (turn.name === trim.name ? sum + turn.byDb : sum), 0);
    if (byDb === 0) return trim;
    const [downDb, upDb] = trim.rangeDb;
    return {
      ...trim,
      rangeDb: [
        Math.max(-60, Math.min(0, thousandth(downDb - byDb))),
        Math.min(60, Math.max(0, thousandth(upDb - byDb))),
      ],
    };
  });
