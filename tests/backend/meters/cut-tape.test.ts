import { expect, it } from 'vitest';
import { knownProfiles } from '../../../electron/backend/meters/known-profiles.ts';
import { rereadTape } from '../../../electron/backend/meters/reread-tape.ts';
import { levelsOf, recordedPlan, recordedSweep, well } from '../../support/recorded-sweep.ts';

/** Every cut reads the sweep from its beginning, so its cost grows with the square of the channels. */
const plan = recordedPlan.slice(0, 30);

it.each(knownProfiles.map(({ name }) => name))(
  'a whole sweep cut at every byte gives no reading that was not sent, and every one that was: %s',
  async (name) => {
    const manner = { repeats: 1, recheck: false };
    const { readings, tape } = await recordedSweep(name, well, manner, plan);
    const whole = levelsOf(readings);
    const [session] = tape.sessions;
    if (session === undefined) throw new Error('no session');
    /** How many readings each place of the tape must give: it only ever grows. */
    let before = 0;
    let cuts = 0;
    for (const [at, entry] of session.entries.entries()) {
      if (entry[0] !== 'heard') continue;
      for (let length = 1; length <= entry[2].length; length += 1) {
        const cut = [entry[0], entry[1], entry[2].slice(0, length)] satisfies typeof entry;
        const entries = [...session.entries.slice(0, at), cut];
        const found = levelsOf(await rereadTape({ ...tape, sessions: [{ ...session, entries }] }));
        expect(found, `${JSON.stringify(cut[2].slice(-60))}`).toEqual(whole.slice(0, found.length));
        expect(found.length).toBeGreaterThanOrEqual(before);
        before = found.length;
        cuts += 1;
      }
    }
    const heard = session.entries.reduce(
      (sum, [what, , text]) => sum + (what === 'heard' ? text.length : 0),
      0,
    );
    expect({ cuts, last: before }).toEqual({ cuts: heard, last: whole.length });
  },
);
