import { BENCH_METER } from '../../../core/simulate/bench-meter.ts';
import { quillmerePast } from '../../../core/simulate/quillmere-history.ts';
import { orderedJson, thousandthsOf } from '../archive/quantities.ts';
import { readingRowOf } from './as-records.ts';
import type { Designs } from './designs.ts';
import type { ServiceParts } from './service-parts.ts';

const DAY_MS = 86_400_000;
const READING_MS = 400;
/** The invented bench of the demo read it. */
const METER = {
  maker: 'Quillmere Instrument Works',
  model: BENCH_METER.model,
  serialNumber: 'QIW-0042',
  firmware: '1.0',
};

/**
 * Puts the past of one station of the demo into the archive, all of it or nothing. A station where somebody was already keeps
 * what it has.
 */
export function keepQuillmerePast(
  { archive, now, newId }: Pick<ServiceParts, 'archive' | 'now' | 'newId'>,
  designs: Designs,
): void {
  const { station, portName, pluggedIn, visits } = quillmerePast();
  if (archive.visits.ofStation(station.id).length > 0) return;
  const { revision, station: kept } = designs.newest(station.id);
  const port = kept.ports.find(({ name }) => name === portName);
  if (port?.design === undefined) return;
  const nowMs = now().getTime();
  archive.write(() => {
    for (const { daysAgo, purpose, ambientC, note, readings } of visits) {
      const atMs = nowMs - daysAgo * DAY_MS;
      const ambientMc = thousandthsOf(ambientC);
      const visitId = newId();
      archive.visits.add({
        visitId,
        stationId: station.id,
        operator: 'Quillmere',
        ambientMc,
        cautionsReadAtMs: atMs,
        startedAtMs: atMs,
      });
      const visit = archive.visits.byId(visitId)?.seq;
      if (visit === undefined) throw new Error(`visit ${visitId} is gone`);
      const seq = archive.sweeps.add({
        sweepId: newId(),
        visit,
        stationId: station.id,
        revision,
        portName,
        hasDesign: true,
        purpose,
        source: 'meter',
        sourceName: 'simulated',
        meter: orderedJson(METER),
        testPointLossMdb: thousandthsOf(port.testPointLossDb),
        ambientMc,
        plannedCount: readings.length,
        pluggedIn: orderedJson(pluggedIn),
        startedAtMs: atMs,
      });
      readings.forEach((reading, place) => {
        const takenAt = new Date(atMs + (place + 1) * READING_MS).toISOString();
        archive.sweeps.addReading(seq, place, readingRowOf({ ...reading, takenAt }));
      });
      const endedAtMs = atMs + (readings.length + 1) * READING_MS;
      archive.sweeps.end(seq, {
        state: 'complete',
        reason: null,
        recovered: false,
        readingCount: readings.length,
        endedAtMs,
      });
      archive.visits.end(visit, note, endedAtMs);
    }
  });
}
