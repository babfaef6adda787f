/** News of the link for whoever shows it. */
export type LinkNews =
  /** In the middle of a sweep it broke off, and the meter is looked for. */
  | Readonly<{ link: 'looking'; why: string }>
  /** It is back. */
  | Readonly<{ link: 'back'; afterMs: number }>
  /** A port that was plugged in just now is not ready; it is tried again for so long. */
  | Readonly<{ link: 'waiting'; why: string; leftMs: number }>;
