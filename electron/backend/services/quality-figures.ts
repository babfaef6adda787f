import { z } from 'zod';
import type { SweepFigures } from '../../../core/drift/figures.ts';
import type { StationNotes } from '../../../core/files/station-notes.ts';
import { refusalLine } from '../../../core/result.ts';
import { sha256Hex } from '../archive/chain.ts';
import { type JudgedColumns, verdictCodes } from '../archive/judged-sweeps.ts';
import type { Archive } from '../archive/open.ts';
import type { QualitySweepRow } from '../archive/quality-queries.ts';
import { fromThousandths, maybe, orderedJson } from '../archive/quantities.ts';
import { remembered } from '../archive/remembered.ts';
import type { Designs } from './designs.ts';
import { type JudgedBy, judgeSweep } from './judge-sweep.ts';
import { type KeepsToo, keepIfRoom } from './portions.ts';
import type { SettingsService } from './settings.ts';

type Figures = Pick<SweepFigures, 'verdict' | 'levelDb' | 'tiltDb' | 'flatnessDb' | 'worstDb' | 'worstMhz'>;
/** What a sweep came to, or why it came to nothing. */
export type FiguresOf = Readonly<{ ok: true; figures: Figures }> | Readonly<{ ok: false; why: string }>;

/** One look at many sweeps: settings are read once, notes once a station. */
export type Look = KeepsToo &
  Readonly<{
    of(row: QualitySweepRow): FiguresOf;
    /** The finding in words, or why there is none. */
    words(row: QualitySweepRow): string;
    /** Puts what was judged anew into the archive. */
    keep(): void;
  }>;

export type FigureBook = Readonly<{
  at(): Look;
  /** What every sweep is judged by beside itself and its station's notes: this program and the settings that count. */
  basis(): string;
}>;

type Judged = Omit<JudgedColumns, 'basis'>;
const NO_FIGURES = {
  verdict: null,
  levelDb: null,
  tiltDb: null,
  flatnessDb: null,
  worstDb: null,
  worstMhz: null,
} as const;

const verdictOf = (code: number) => {
  const verdict = verdictCodes[code];
  if (verdict === undefined) throw new RangeError(`no verdict has code ${code}`);
  return verdict;
};

function foundOf({ verdict, words, levelDb, tiltDb, flatnessDb, worstDb, worstMhz }: Judged): FiguresOf {
  // The table holds all of them or none.
  if (
    verdict === null ||
    levelDb === null ||
    tiltDb === null ||
    flatnessDb === null ||
    worstDb === null ||
    worstMhz === null
  )
    return { ok: false, why: words ?? '' };
  return {
    ok: true,
    figures: { verdict: verdictOf(verdict), levelDb, tiltDb, flatnessDb, worstDb, worstMhz },
  };
}

/**
 * What each sweep came to, judged once for each revision of what it is judged by: its readings and its design never change, the
 * settings and the station's notes may. It is kept in the archive, so that a later start need not judge either.
 */
export function createFigureBook(
  archive: Archive,
  designs: Designs,
  settings: Pick<SettingsService, 'read' | 'readNotes'>,
): FigureBook {
  const { quality } = archive;
  const digestOf = ({ settings: { meter, sheets }, notes }: JudgedBy): string =>
    sha256Hex(
      `${archive.program}\n${orderedJson({ meter, sheets, own: notes?.meter ?? null, lineUp: notes?.lineUp ?? null })}`,
    ).slice(0, 32);

  const judge = (row: QualitySweepRow, by: JudgedBy): Judged => {
    const result = judgeSweep(archive, designs, row, by);
    if (result === null) return { ...NO_FIGURES, words: 'its port had no design then' };
    if (!result.ok) return { ...NO_FIGURES, words: refusalLine(result) };
    const { verdict, levelHigh, tilt, flatness, worst, headline } = result.value;
    return {
      verdict: verdictCodes.indexOf(verdict),
      levelDb: levelHigh.deviationDb,
      tiltDb: tilt.deviationDb,
      flatnessDb: flatness.valueDb,
      worstDb: worst.deviationDb,
      worstMhz: worst.frequencyMhz,
      words: headline,
    };
  };

  function look(): Look {
    const now = settings.read().settings;
    const noted = quality.notedStations();
    const bases = new Map<string, number | undefined>();
    const judged = new Map<number, Judged>();
    const bare = { settings: now, notes: null };
    const bareDigest = digestOf(bare);
    let pending: Readonly<{ seq: number; digest: string; columns: Judged }>[] = [];
    let about: Readonly<{ stationId: string; by: JudgedBy; digest: string }> | null = null;

    const aboutOf = (stationId: string) => {
      if (about?.stationId === stationId) return about;
      const notes: StationNotes | null = noted.has(stationId) ? settings.readNotes(stationId).notes : null;
      const by = notes === null ? bare : { settings: now, notes };
      about = { stationId, by, digest: notes === null ? bareDigest : digestOf(by) };
      if (!bases.has(about.digest)) bases.set(about.digest, quality.judgedBasis(about.digest));
      return about;
    };
    const columnsOf = (row: QualitySweepRow, withWords: boolean): Judged => {
      const { by, digest } = aboutOf(row.stationId);
      const before =
        judged.get(row.seq) ?? (row.basis !== null && row.basis === bases.get(digest) ? row : null);
      if (before !== null && (!withWords || before.words !== null)) return before;
      const found = judge(row, by);
      judged.set(row.seq, found);
      // A hundred thousand sentences are never read: only the asked-for are kept.
      const words = withWords || found.verdict === null ? found.words : null;
      pending.push({ seq: row.seq, digest, columns: { ...found, words } });
      return found;
    };
    const put = (): void => {
      const rows = pending;
      pending = [];
      for (const { seq, digest, columns } of rows) quality.keepJudged(seq, digest, columns);
    };
    return {
      of: (row) => foundOf(columnsOf(row, false)),
      words: (row) => columnsOf(row, true).words ?? '',
      waiting: () => pending.length,
      put,
      keep: () => keepIfRoom(archive, pending.length, put),
    };
  }

  return { at: look, basis: () => digestOf({ settings: settings.read().settings, notes: null }) };
}

/** A judged sweep as core follows it; null where it was cut short, came to nothing, or was read for something else. */
export const sweepFigures = (row: QualitySweepRow, found: FiguresOf): SweepFigures | null =>
  found.ok && row.state === 'complete' && row.purpose !== 'check'
    ? {
        sweepId: row.sweepId,
        visitId: row.visitId,
        atMs: row.startedAtMs,
        purpose: row.purpose,
        ambientC: maybe(row.ambientMc, fromThousandths),
        revision: row.revision,
        pluggedIn: pluggedInOf(row),
        ...found.figures,
      }
    : null;

const Values = z.record(z.string(), z.number());
/** Many sweeps share one text. */
const valuesOf = remembered((json) => Values.parse(JSON.parse(json)));

/** Position to value. */
export const pluggedInOf = (row: Pick<QualitySweepRow, 'pluggedIn'>): Readonly<Record<string, number>> =>
  valuesOf(row.pluggedIn);
