import type { Input, Output } from '../../../core/bridge/contract.ts';
import { fromThousandths, hzOf, mhzOf, momentOf, thousandthsOf } from '../archive/quantities.ts';
import type { TurnRow } from '../archive/turns.ts';
import type { Designs } from './designs.ts';
import { refused, type ServiceParts } from './service-parts.ts';
import type { SettingsService } from './settings.ts';
import type { Visits } from './visits.ts';

export type Trims = Readonly<{ turn(input: Input<'trims.turn'>): Output<'trims.turn'> }>;

export const trimTurnOf = (row: TurnRow): Output<'trims.turn'>['turns'][number] => ({
  turnId: row.turnId,
  visitId: row.visitId,
  sweepId: row.sweepId,
  portName: row.portName,
  at: momentOf(row.turnedAtMs),
  turn: {
    name: row.trim,
    kind: row.trimKind,
    atMhz: mhzOf(row.frequencyHz),
    byDb: fromThousandths(row.byMdb),
  },
});

/** What the technician turned, with the sweep that it was reckoned from; the same transaction moves the trims' ranges. */
export function createTrims(
  { archive, now, newId }: ServiceParts,
  designs: Designs,
  visits: Visits,
  runs: Readonly<{ runningAt(stationId: string): boolean }>,
  settings: Pick<SettingsService, 'moveTrims'>,
): Trims {
  return {
    turn({ visitId, sweepId, turns }) {
      const twice = turns.find(({ name }, i) => turns.findIndex((one) => one.name === name) !== i);
      if (twice !== undefined)
        throw refused(
          'twice',
          twice.name,
          'this trim is named twice; say it once, with all that it was turned',
        );
      const { turnIds, stationId, tell } = archive.write(() => {
        const visit = visits.openVisit(visitId);
        const { station } = designs.newest(visit.stationId);
        if (runs.runningAt(visit.stationId))
          throw refused(
            'sweep-running',
            station.name,
            'a sweep is running; let it end or stop it, then say what was turned',
          );
        const sweep = archive.sweeps.byId(sweepId);
        if (sweep === undefined || sweep.visitId !== visitId)
          throw refused('no-such-sweep', `sweep ${sweepId}`, 'it is no sweep of this visit');
        const turnedAtMs = now().getTime();
        const turnIds = turns.map(({ name, kind, atMhz, byDb }) => {
          const turnId = newId();
          archive.turns.add({
            turnId,
            visit: visit.seq,
            sweep: sweep.seq,
            stationId: visit.stationId,
            portName: sweep.portName,
            trim: name,
            trimKind: kind,
            frequencyHz: hzOf(atMhz),
            byMdb: thousandthsOf(byDb),
            turnedAtMs,
          });
          return turnId;
        });
        const tell = settings.moveTrims(visit.stationId, turns, turnedAtMs);
        return { turnIds, stationId: visit.stationId, tell };
      });
      tell();
      const made = archive.turns.ofStation(stationId).filter(({ turnId }) => turnIds.includes(turnId));
      return { turns: made.toReversed().map(trimTurnOf) };
    },
  };
}
