import { type PeriodBatch, type PeriodStanding, periodBatch } from '../../../core/drift/period-batch.ts';
import type { Archive } from '../archive/open.ts';
import type { QualitySweepRow } from '../archive/quality-queries.ts';
import { fromThousandths, maybe } from '../archive/quantities.ts';
import type { FigureBook } from './quality-figures.ts';
import { refused } from './service-parts.ts';

export type Periods = Readonly<{
  /** The visits that began from a moment on and before another, milliseconds. */
  period(fromMs: number, toMs: number): PeriodBatch;
}>;

/** What a period's visits came to: what a batch report prints. */
export function createPeriods(archive: Archive, book: FigureBook): Periods {
  return {
    period(fromMs, toMs) {
      if (!(fromMs <= toMs))
        throw refused('bad-period', 'the period', 'its first day must not be after its last');
      const look = book.at();
      const standing = (row: QualitySweepRow): PeriodStanding => {
        const found = look.of(row);
        return {
          sweepId: row.sweepId,
          portName: row.portName,
          atMs: row.startedAtMs,
          verdict: found.ok ? found.figures.verdict : null,
          headline: look.words(row),
          worstDb: found.ok ? found.figures.worstDb : null,
          worstMhz: found.ok ? found.figures.worstMhz : null,
        };
      };
      const visits = archive.quality.visitsBetween(fromMs, toMs).map((visit) => {
        const rows = archive.quality.sweepsOfVisit(visit.seq);
        const left = rows.findLast(({ purpose }) => purpose === 'as-left');
        const portName = left?.portName ?? rows[0]?.portName;
        const found = rows.find((row) => row.purpose === 'as-found' && row.portName === portName);
        const { seq: _seq, ambientMc, startedAtMs, endedAtMs, ...facts } = visit;
        return {
          ...facts,
          note: visit.note ?? '',
          ambientC: maybe(ambientMc, fromThousandths),
          startedMs: startedAtMs,
          endedMs: endedAtMs,
          before: found === undefined ? null : standing(found),
          after: left === undefined ? null : standing(left),
          changes: archive.quality
            .changesIn(visit.seq)
            .map(({ position, fromValue, toValue }) => ({ position, fromDb: fromValue, toDb: toValue })),
        };
      });
      look.keep();
      return periodBatch(visits, fromMs, toMs);
    },
  };
}
