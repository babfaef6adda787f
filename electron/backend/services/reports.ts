import { setImmediate as turn } from 'node:timers/promises';
import type { Emit, Input, Output } from '../../../core/bridge/contract.ts';
import type { ReportOf } from '../../../core/bridge/report-calls.ts';
import type { PeriodBatch } from '../../../core/drift/period-batch.ts';
import type { Printable } from '../../../core/report/document.ts';
import { historyReport } from '../../../core/report/history.ts';
import { reportHtml } from '../../../core/report/html.ts';
import { identityText, labelDocument } from '../../../core/report/label.ts';
import type { ReportVisit } from '../../../core/report/material.ts';
import { periodReport } from '../../../core/report/period.ts';
import { visitReport } from '../../../core/report/visit.ts';
import { localTime } from '../../../core/words/local-time.ts';
import { msOf, orderedJson } from '../archive/quantities.ts';
import { codeOf } from '../report/code.ts';
import { reportPdf } from '../report/pdf.ts';
import { embeddedType } from '../report/type-files.ts';
import { fileNameOf } from './file-name.ts';
import { frameOf, type MaterialParts, sha256, visitMaterial } from './report-material.ts';
import { refused } from './service-parts.ts';

export type ReportParts = MaterialParts &
  Readonly<{
    emit: Emit;
    now: () => Date;
    version: string;
    /** The visits that began from a moment on and before another, milliseconds. */
    period: (fromMs: number, toMs: number) => PeriodBatch;
  }>;
export type Reports = Readonly<{
  make(input: Input<'reports.make'>, signal: AbortSignal): Promise<Output<'reports.make'>>;
}>;

type Made = Readonly<{ printable: Printable; words: readonly string[] }>;

/** Reports from the archive's records: gathered here, put into words by core, drawn as PDF or HTML. */
export function createReports(parts: ReportParts): Reports {
  const { archive, designs, emit, now, version } = parts;

  const known = (visitId: string) => {
    const row = archive.visits.byId(visitId);
    if (row === undefined)
      throw refused('no-such-visit', `visit ${visitId}`, 'it is not in this archive; name one that is');
    return row;
  };
  const oneVisit = (visitId: string) => {
    const row = known(visitId);
    const visit = visitMaterial(parts, row);
    const frame = frameOf(parts, row.stationId, [visit], { program: version, at: now() });
    return { visit, frame, day: localTime(visit.startedAt, visit.place).day };
  };

  async function history(of: Extract<ReportOf, { kind: 'history' }>, signal: AbortSignal): Promise<Made> {
    const { station } = designs.newest(of.stationId);
    const rows = archive.visits.ofStation(of.stationId).toReversed();
    const visits: ReportVisit[] = [];
    for (const [i, row] of rows.entries()) {
      visits.push(visitMaterial(parts, row));
      emit('reports.progress', { of, done: i + 1, total: rows.length });
      await turn();
      signal.throwIfAborted();
    }
    const frame = frameOf(parts, of.stationId, visits, { program: version, at: now() });
    return { printable: historyReport(visits, frame), words: [station.name, 'history'] };
  }

  function made(of: ReportOf, signal: AbortSignal): Made | Promise<Made> {
    switch (of.kind) {
      case 'visit': {
        const { visit, frame, day } = oneVisit(of.visitId);
        return { printable: visitReport(visit, frame), words: [frame.station.name, 'visit', day] };
      }
      case 'history':
        return history(of, signal);
      case 'period': {
        const batch = parts.period(msOf(of.from), msOf(of.to));
        const place = { timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone, utcOffsetMin: 0 };
        const head = archive.head();
        const printable = periodReport(batch, {
          place,
          program: version,
          madeAt: now().toISOString(),
          head: head.seq === 0 ? null : head,
          dataSha256: sha256(orderedJson(batch)),
        });
        return { printable, words: ['visits', localTime(of.from, place).day] };
      }
      case 'label': {
        const { visit, frame, day } = oneVisit(of.visitId);
        const code = codeOf(identityText(visit, frame));
        return {
          printable: labelDocument(visit, frame, code, of.count),
          words: [frame.station.name, 'label', day],
        };
      }
    }
  }

  return {
    async make({ of, form, paper }, signal) {
      const { printable, words } = await made(of, signal);
      const fileName = fileNameOf(words, form);
      switch (form) {
        case 'pdf': {
          const bytes = await reportPdf(printable, paper, signal);
          return { fileName, mediaType: 'application/pdf', base64: Buffer.from(bytes).toString('base64') };
        }
        case 'html': {
          const text = reportHtml(printable, paper, embeddedType());
          return { fileName, mediaType: 'text/html', base64: Buffer.from(text, 'utf8').toString('base64') };
        }
      }
    },
  };
}
