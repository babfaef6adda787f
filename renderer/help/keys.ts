/** What the keyboard does, as the help shows it. `Ctrl` is Command on a Mac. */
export type KeyRow = Readonly<{ keys: readonly string[]; does: string }>;
export type KeyGroup = Readonly<{ name: string; rows: readonly KeyRow[] }>;

export const keyGroups: readonly KeyGroup[] = [
  {
    name: 'Everywhere',
    rows: [
      { keys: ['Ctrl K', '/'], does: 'search everything' },
      { keys: ['?'], does: 'this help' },
      { keys: ['Ctrl Z'], does: 'undo, in a draft or what was just kept' },
      { keys: ['Ctrl Shift Z'], does: 'redo' },
      { keys: ['Tab'], does: 'to the next control; the first one leads past the bar' },
      { keys: ['Enter'], does: 'the one thing to do, which waits with the keyboard on it' },
      { keys: ['Esc'], does: 'closes what is open; unsaved edits are asked about' },
    ],
  },
  {
    name: 'Lists, tables and choices',
    rows: [
      { keys: ['\u2191', '\u2193'], does: 'from row to row' },
      { keys: ['\u2190', '\u2192'], does: 'from choice to choice side by side' },
      { keys: ['Space'], does: 'takes a row or a choice' },
      { keys: ['Shift \u2193'], does: 'takes a stretch of rows' },
      { keys: ['Home', 'End'], does: 'to the first and the last' },
    ],
  },
  {
    name: 'Numbers',
    rows: [
      { keys: ['\u2191', '\u2193'], does: 'one step up or down' },
      { keys: [','], does: 'comma and point are taken alike' },
    ],
  },
];
