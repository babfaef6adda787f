/** The pitch beside the target, and how far a decibel moves it: an octave for three. A choice of this program's own. */
const BESIDE_TARGET_HZ = 600;
const DB_AN_OCTAVE = 3;
const FARTHEST_DB = 6;

/**
 * The tone for a distance: high above the target, low under it, nearer the closer it is, and silent inside the tolerance.
 * @returns  Hz, or null for silence; without a distance there is silence too, so that an old level makes no sound
 */
export function pitchHz(offDb: number | null, toleranceDb: number): number | null {
  if (offDb === null || Math.abs(offDb) <= toleranceDb) return null;
  const heldDb = Math.max(-FARTHEST_DB, Math.min(FARTHEST_DB, offDb));
  return BESIDE_TARGET_HZ * 2 ** (heldDb / DB_AN_OCTAVE);
}
