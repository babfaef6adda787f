import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';
import type { LineLink } from './line-link.ts';
import { createLineLink } from './lines-over-bytes.ts';
import { MeterFault } from './meter-shop.ts';
import type { Profile } from './profile.ts';
import { LineInstrument } from './simulated/line-instrument.ts';
import { wireToInstrument } from './simulated/link.ts';

/** A recorded frequency this near to the one asked for is the same channel. */
const SAME_CHANNEL_MHZ = 0.05;
const PACE = { messageMs: 0, readingMs: 5 };

/**
 * A recorded sweep that answers like a meter, in the plain line protocol.
 * Throws `MeterFault` when there is no such file, or it holds no sweep.
 */
export async function openReplayLink(path: string, profile: Profile): Promise<LineLink> {
  const read = readSweepCsv(await textOf(path), path);
  if (!read.ok) throw new MeterFault('no-such-port', read.where, read.help);
  const rows = read.value.rows.flatMap(({ frequencyMhz, levelDbmv, unlocked }) =>
    frequencyMhz === null ? [] : [{ frequencyMhz, levelDbmv: unlocked ? null : levelDbmv }],
  );
  const nearest = (askedMhz: number) => {
    let found: (typeof rows)[number] | undefined;
    for (const row of rows) {
      const awayMhz = Math.abs(row.frequencyMhz - askedMhz);
      if (awayMhz > SAME_CHANNEL_MHZ) continue;
      if (found === undefined || awayMhz < Math.abs(found.frequencyMhz - askedMhz)) found = row;
    }
    return found;
  };
  const instrument = new LineInstrument({
    source: (frequencyMhz) => nearest(frequencyMhz)?.levelDbmv ?? null,
    lacks: (frequencyMhz) => nearest(frequencyMhz) === undefined,
    identity: ['Tiltwright', 'Replay', plain(basename(path)), '1'],
    highestMhz: 3000,
  });
  return createLineLink(path, profile.lines, wireToInstrument(instrument, PACE));
}

/** A file's name as a field of an identity: what would end the field is left out. */
const plain = (name: string) => name.replace(/[^\x20-\x7e]|[,*]/g, '_').slice(0, 80);

async function textOf(path: string): Promise<string> {
  try {
    return await readFile(path, 'utf8');
  } catch (fault) {
    const why = fault instanceof Error && 'code' in fault ? String(fault.code) : String(fault);
    throw new MeterFault('no-such-port', path, `the recorded sweep can not be read (${why})`);
  }
}
