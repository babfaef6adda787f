import type { Output } from '../../../core/bridge/contract.ts';
import type { Archive } from '../archive/open.ts';
import type { SweepRow } from '../archive/sweeps.ts';
import { rereadTape, TapeMismatch } from '../meters/reread-tape.ts';
import { joinPortions, type Tape, unpackTape } from '../meters/tape.ts';
import { readingOf, readingRowOf } from './as-records.ts';
import { refused } from './service-parts.ts';

/** What of a reading its bytes can prove: the place in the sweep, the frequency and the level. */
const provable = ({
  frequencyHz,
  meterMdbmv,
}: Readonly<{ frequencyHz: number; meterMdbmv: number | null }>) => `${frequencyHz} ${meterMdbmv}`;

/**
 * Reads a sweep again from the bytes that are kept with it, by the profile that is kept with them.
 * @throws  Refused when the bytes are damaged, or are not those of this sweep
 */
export async function rereadSweep(
  { archive }: Readonly<{ archive: Pick<Archive, 'sweeps' | 'meterLinks'> }>,
  sweep: SweepRow,
): Promise<Output<'sweeps.reread'>> {
  const whole = archive.meterLinks.bytes(sweep.seq);
  const portions = whole === undefined ? archive.meterLinks.portions(sweep.seq) : [whole];
  if (portions.length === 0) return { kept: false, byteCount: 0, readings: [], same: false };
  const where = `sweep ${sweep.sweepId}`;
  let tape: Tape;
  try {
    tape = whole === undefined ? joinPortions(portions) : unpackTape(whole);
  } catch {
    throw refused(
      'bytes-damaged',
      where,
      'the bytes that are kept with it are damaged; its readings stand alone',
    );
  }
  try {
    const rows = (await rereadTape(tape)).map(readingRowOf);
    const kept = archive.sweeps.readings(sweep.seq);
    // A sweep that was stopped may have kept fewer readings than its last answers would give.
    const same =
      rows.length >= kept.length && kept.every((row, i) => provable(row) === provable(rows[i] ?? row));
    return {
      kept: true,
      byteCount: portions.reduce((sum, { length }) => sum + length, 0),
      readings: rows.map(readingOf),
      same,
    };
  } catch (fault) {
    if (!(fault instanceof TapeMismatch)) throw fault;
    throw refused(
      'other-questions',
      where,
      `this program reads such a meter in another way now (${fault.message})`,
    );
  }
}
