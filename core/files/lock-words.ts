const listed = (...words: string[]): ReadonlySet<string> =>
  new Set(words.flatMap((some) => some.split(', ')));

/** In the languages in which modems and meters print them. */
const unlockedWords = listed(
  'not locked, notlocked, unlocked, un locked, no lock, not acquired, not synced, no sync, unsynced, not connected, disconnected',
  'not bonded, unbonded, no signal, no carrier, out of lock, out of sync, inactive, idle, disabled, down, off, lost',
  'failed, no, not, false, 0, n, \u2717, \u2718',
  'nicht verbunden, nicht gesperrt, nicht gelockt, nicht verriegelt, nicht synchron, nicht synchronisiert, nicht aktiv',
  'getrennt, inaktiv, kein signal, nein, aus',
  'non verrouill\u00E9, non connect\u00E9, non synchronis\u00E9, d\u00E9connect\u00E9, d\u00E9verrouill\u00E9, pas de signal, non',
  'no bloqueado, no conectado, no enganchado, no sincronizado, desconectado, sin se\u00F1al',
  'non bloccato, non agganciato, non connesso, disconnesso',
  'niet vergrendeld, niet gelockt, niet gelocked, niet verbonden, niet gesynchroniseerd, geen signaal, nee',
  'niezablokowany, nie zablokowany, niepo\u0142\u0105czony, nie po\u0142\u0105czony, brak sygna\u0142u, nie',
);
const lockedWords = listed(
  'locked, acquired, synced, in sync, connected, bonded, operational, active, up, on, yes, true, 1, y, ok, success',
  'successful, \u2713, \u2714',
  'verbunden, gesperrt, gelockt, verriegelt, synchron, synchronisiert, aktiv, ja',
  'verrouill\u00E9, connect\u00E9, synchronis\u00E9, oui',
  'bloqueado, conectado, enganchado, sincronizado, s\u00ED',
  'bloccato, agganciato, connesso, s\u00EC',
  'vergrendeld, gelocked, gesynchroniseerd',
  'zablokowany, po\u0142\u0105czony, tak',
);

/** What is said of other things than a signal as well: an alarm, a bond, a limit. */
const ambiguous = listed(
  'down, off, lost, failed, no, not, false, 0, n, idle, disabled, inactive, \u2717, \u2718, nein, aus, non, nee, nie',
);

/** No word of either list is as long; what is longer is not looked at. */
const LONGEST = 30;
const plainWord = (text: string): string => text.toLowerCase().replace(/[\s_-]+/g, ' ');
const isIn = (words: ReadonlySet<string>, text: string): boolean =>
  text.length <= LONGEST && (words.has(text) || words.has(plainWord(text)));

/**
 * Whether a cell says that the source had no signal there.
 * @param text  trimmed
 * @returns  true for "Not Locked" and its like
 * @source   common practice, no published source
 */
export const saysNotLocked = (text: string): boolean => isIn(unlockedWords, text);

/**
 * Whether a cell says that the source had its signal.
 * @param text  trimmed
 * @returns  true for "Locked" and its like, and for an empty cell, which says nothing against it
 * @source   common practice, no published source
 */
export const saysLocked = (text: string): boolean => text === '' || isIn(lockedWords, text);

/**
 * Whether a cell can speak of nothing but the signal, whatever the heading above it says.
 * @param text  trimmed
 * @returns  true for "not locked"; false for "no", which may answer any question
 * @source   common practice, no published source
 */
export const saysPlainlyNotLocked = (text: string): boolean => saysNotLocked(text) && !isIn(ambiguous, text);
