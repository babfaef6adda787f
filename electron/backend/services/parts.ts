import type { Input, Output } from '../../../core/bridge/contract.ts';
import type { Change } from '../../../core/bridge/records.ts';
import type { PluggedIn, Station } from '../../../core/files/station.ts';
import { orderedJson, thousandthsOf } from '../archive/quantities.ts';
import { fittingOf } from './as-records.ts';
import type { Designs } from './designs.ts';
import { pluggedInNow } from './plugged-in.ts';
import { refused, type ServiceParts } from './service-parts.ts';
import type { SettingsService } from './settings.ts';
import type { Visits } from './visits.ts';

export type Parts = Readonly<{ fit(input: Input<'parts.fit'>): Output<'parts.fit'> }>;

const asList = (values: readonly number[]): string => values.join(', ');

/** Refuses a change that can't have happened at this station as it stands. */
function checkChange(station: Station, pluggedIn: PluggedIn, { position, from, to }: Change): void {
  const at = station.positions.find(({ name }) => name === position);
  const inNow = pluggedIn[position];
  if (at === undefined || inNow === undefined)
    throw refused(
      'no-such-position',
      `position "${position}"`,
      `${station.name} has ${station.positions.map(({ name }) => `"${name}"`).join(', ')}`,
    );
  if (from !== inNow)
    throw refused(
      'not-what-is-in',
      position,
      `${inNow} is plugged in here, not ${from}; open the station again and check`,
    );
  if (to === from)
    throw refused('no-change', position, `${to} is plugged in already; leave this position out`);
  // What the design found installed was pulled out at some time and lies in the truck.
  if (!at.values.includes(to) && to !== at.installed)
    throw refused('not-in-the-kit', position, `the kit holds ${asList(at.values)}, not ${to}`);
}

/**
 * What the technician plugged in, with the proposal that asked for it. Where a truck is kept, the same transaction takes
 * the parts out of it and puts those that were pulled back in.
 */
export function createParts(
  { archive, now, newId }: ServiceParts,
  designs: Designs,
  visits: Visits,
  runs: Readonly<{ runningAt(stationId: string): boolean }>,
  truck: Pick<SettingsService, 'moveParts'>,
): Parts {
  const addProposal = (
    note: NonNullable<Input<'parts.fit'>['proposal']>,
    station: Station,
    visit: number,
    atMs: number,
  ): number => {
    const sweep = archive.sweeps.byId(note.sweepId);
    if (sweep === undefined || sweep.stationId !== station.id)
      throw refused('no-such-sweep', `sweep ${note.sweepId}`, `it is no sweep of ${station.name}`);
    const stranger = Object.keys(note.values).find(
      (position) => !station.positions.some(({ name }) => name === position),
    );
    if (stranger !== undefined)
      throw refused(
        'no-such-position',
        `proposal, position "${stranger}"`,
        `${station.name} has none of that name`,
      );
    return archive.parts.addProposal({
      proposalId: newId(),
      visit,
      sweep: sweep.seq,
      stationId: station.id,
      plugIns: orderedJson(note.values),
      worstBeforeMdb: thousandthsOf(note.worstBeforeDb),
      worstPredictedMdb: thousandthsOf(note.worstPredictedDb),
      proposedAtMs: atMs,
    });
  };
  return {
    fit({ visitId, changes, proposal }) {
      const twice = changes.find(
        ({ position }, i) => changes.findIndex((c) => c.position === position) !== i,
      );
      if (twice !== undefined)
        throw refused(
          'twice',
          twice.position,
          'this position is named twice; say it once, with what is in now',
        );
      const { fittingIds, tell } = archive.write(() => {
        const visit = visits.openVisit(visitId);
        const design = designs.newest(visit.stationId);
        if (runs.runningAt(visit.stationId))
          throw refused(
            'sweep-running',
            design.station.name,
            'a sweep is running; let it end or stop it, then say what was fitted',
          );
        const pluggedIn = pluggedInNow(archive, design);
        for (const change of changes) checkChange(design.station, pluggedIn, change);
        const fittedAtMs = now().getTime();
        const proposalSeq =
          proposal === null ? null : addProposal(proposal, design.station, visit.seq, fittedAtMs);
        const fittingIds = changes.map((change) => {
          const fittingId = newId();
          archive.parts.addFitting({
            fittingId,
            visit: visit.seq,
            stationId: visit.stationId,
            revision: design.revision,
            position: change.position,
            fromValue: change.from,
            toValue: change.to,
            proposal: proposalSeq,
            fittedAtMs,
          });
          return fittingId;
        });
        const moves = changes.flatMap(({ position: name, from, to }) =>
          design.station.positions
            .filter((position) => position.name === name)
            .map((position) => ({ position, from, to })),
        );
        return { fittingIds, tell: truck.moveParts(moves, visit.seq, fittedAtMs) };
      });
      tell();
      const { stationId } = visits.openVisit(visitId);
      const made = archive.parts
        .fittingsOf(stationId)
        .filter(({ fittingId }) => fittingIds.includes(fittingId));
      return { fittings: made.toReversed().map(fittingOf) };
    },
  };
}
