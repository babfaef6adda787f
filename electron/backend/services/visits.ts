import type { Input, Output } from '../../../core/bridge/contract.ts';
import { maybe, thousandthsOf } from '../archive/quantities.ts';
import type { VisitRow } from '../archive/visits.ts';
import { visitOf } from './as-records.ts';
import type { Designs } from './designs.ts';
import { refused, type ServiceParts } from './service-parts.ts';

export type Visits = Readonly<{
  begin(input: Input<'visits.begin'>): Output<'visits.begin'>;
  end(input: Input<'visits.end'>): Output<'visits.end'>;
  /** @throws Refused unless the visit is there and open */
  openVisit(visitId: string): VisitRow;
}>;

/** A visit: one open at a station, begun after the cautions were read. */
export function createVisits(
  { archive, now, newId }: ServiceParts,
  designs: Designs,
  runs: Readonly<{ runningIn(visitId: string): boolean }>,
): Visits {
  const known = (visitId: string): VisitRow => {
    const visit = archive.visits.byId(visitId);
    if (visit === undefined)
      throw refused(
        'no-such-visit',
        `visit ${visitId}`,
        'it is not in this archive; begin one at the station',
      );
    return visit;
  };
  const openVisit = (visitId: string): VisitRow => {
    const visit = known(visitId);
    if (visit.endedAtMs !== null)
      throw refused(
        'visit-ended',
        `visit ${visitId}`,
        'this visit has ended; begin a new one at the station',
      );
    if (visit.own === 0)
      throw refused(
        'visit-elsewhere',
        `visit ${visitId}`,
        'this visit was begun on another laptop, which ends it; begin a new one at the station',
      );
    return visit;
  };
  return {
    openVisit,
    begin({ stationId, operator, ambientC, cautionsRead }) {
      const { station } = designs.newest(stationId);
      if (cautionsRead !== true)
        throw refused('cautions-unread', station.name, 'read the cautions first, once a visit');
      const visitId = newId();
      archive.write(() => {
        const open = archive.visits.openOf(stationId);
        if (open !== undefined)
          throw refused(
            'visit-open',
            station.name,
            `a visit begun ${visitOf(open).startedAt}${open.operator === '' ? '' : ` by ${open.operator}`} is still open; go on with it, or end it first`,
          );
        const atMs = now().getTime();
        archive.visits.add({
          visitId,
          stationId,
          operator,
          ambientMc: maybe(ambientC, thousandthsOf),
          cautionsReadAtMs: atMs,
          startedAtMs: atMs,
        });
      });
      return visitOf(known(visitId));
    },
    end({ visitId, note }) {
      if (runs.runningIn(visitId))
        throw refused('sweep-running', `visit ${visitId}`, 'a sweep is running; let it end or stop it first');
      archive.write(() => archive.visits.end(openVisit(visitId).seq, note, now().getTime()));
      return visitOf(known(visitId));
    },
  };
}
