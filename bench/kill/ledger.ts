import type { Level, Said } from './said.ts';

/** A sweep as far as somebody was told of it. */
export type KnownSweep = {
  levels: Level[];
  /** Null where it came from a file. */
  planned: number | null;
  end: Readonly<{ state: 'complete' | 'partial'; count: number }> | null;
};

/** A file of another laptop, and what it holds. */
export type OtherFile = Readonly<{
  path: string;
  fileName: string;
  sweeps: ReadonlyMap<string, readonly Level[]>;
}>;

/** Everything that was acknowledged of one archive, whichever of its programs did. */
export type Ledger = ReturnType<typeof createLedger>;

export function createLedger() {
  /** Device and place in its chain to the hash of the record there. */
  const heads = new Map<string, Readonly<{ device: string; seq: number; hash: string }>>();
  const sweeps = new Map<string, KnownSweep>();
  const announced = new Map<string, readonly Level[]>();
  const stations = new Map<string, string>();
  const visits = new Map<string, string>();
  const visitEnds = new Map<string, string>();
  const settings = new Map<number, string>();
  const notes = new Map<string, string>();
  const trucks = new Map<number, string>();
  const fittings = new Map<string, Readonly<{ stationId: string; toValue: number }>>();
  const voids = new Map<string, string>();
  const corrections = new Map<string, Readonly<{ sweepId: string; reason: string }>>();
  const taken = new Set<string>();
  const given = new Set<string>();
  const backups: string[] = [];
  /** Sweeps whose bytes were read again already. */
  const reread = new Set<string>();

  const known = (sweepId: string): KnownSweep => {
    const sweep = sweeps.get(sweepId);
    if (sweep === undefined) throw new Error(`sweep ${sweepId} was told of before it was begun`);
    return sweep;
  };

  const hear = (said: Said): void => {
    switch (said.say) {
      case 'in':
      case 'out':
      case 'restored':
        return;
      case 'importing':
        announced.set(said.fileName, said.levels);
        return;
      case 'head':
        heads.set(`${said.device} ${said.seq}`, said);
        return;
      case 'station':
        stations.set(`${said.stationId} ${said.revision}`, said.name);
        return;
      case 'visit':
        visits.set(said.visitId, said.operator);
        return;
      case 'visit-ended':
        visitEnds.set(said.visitId, said.note);
        return;
      case 'sweep':
        sweeps.set(said.sweepId, { levels: [], planned: said.planned, end: null });
        return;
      case 'reading': {
        const { levels } = known(said.sweepId);
        if (said.index !== levels.length)
          throw new Error(`reading ${said.index} of sweep ${said.sweepId} was told after ${levels.length}`);
        levels.push(said.level);
        return;
      }
      case 'swept':
        known(said.sweepId).end = { state: said.state, count: said.count };
        return;
      case 'imported': {
        const levels = [...(announced.get(said.fileName) ?? [])];
        sweeps.set(said.sweepId, { levels, planned: null, end: { state: 'complete', count: levels.length } });
        return;
      }
      case 'settings':
        settings.set(said.revision, said.json);
        return;
      case 'notes':
        notes.set(`${said.stationId} ${said.revision}`, said.json);
        return;
      case 'truck':
        trucks.set(said.revision, said.json);
        return;
      case 'fitted':
        fittings.set(said.fittingId, { stationId: said.stationId, toValue: said.toValue });
        return;
      case 'voided':
        voids.set(said.sweepId, said.reason);
        return;
      case 'corrected':
        corrections.set(said.correctedId, { sweepId: said.sweepId, reason: said.reason });
        return;
      case 'taken':
        taken.add(said.fileName);
        return;
      case 'given':
        given.add(said.path);
        return;
      case 'backup':
        backups.push(said.path);
        return;
    }
  };

  return {
    ...{ heads, sweeps, announced, stations, visits, visitEnds, settings, notes, trucks, fittings },
    ...{ voids, corrections, taken, given, backups, reread, hear },
  };
}
