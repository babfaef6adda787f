import { createHash } from 'node:crypto';

export type SessionsOptions = Readonly<{
  nowMs(): number;
  /** A fresh secret each time, safe in an address: 128 bits or more. */
  newSecret(): string;
}>;

export type Sessions = Readonly<{
  /** A start code for one browser: works once, until `forMs` from now. A new one ends the one before. */
  newCode(forMs: number): string;
  /** Spends a code and gives the secret of a session, another than the code; null when the code is worth nothing. */
  spend(code: string): string | null;
  isOpen(secret: string | undefined): boolean;
}>;

// Looked up by digest: how long a look-up takes then tells nothing about the secrets that are kept.
const digest = (secret: string) => createHash('sha256').update(secret).digest('base64');

/** Who may use this host: a code from the terminal is changed once for a cookie, and the cookie lasts as long as we do. */
export function createSessions({ nowMs, newSecret }: SessionsOptions): Sessions {
  let waiting: Readonly<{ code: string; untilMs: number }> | null = null;
  const open = new Set<string>();
  return {
    newCode(forMs) {
      const code = newSecret();
      waiting = { code: digest(code), untilMs: nowMs() + forMs };
      return code;
    },
    spend(code) {
      if (waiting === null || waiting.code !== digest(code)) return null;
      const inTime = nowMs() < waiting.untilMs;
      waiting = null;
      if (!inTime) return null;
      const secret = newSecret();
      open.add(digest(secret));
      return secret;
    },
    isOpen: (secret) => secret !== undefined && open.has(digest(secret)),
  };
}
