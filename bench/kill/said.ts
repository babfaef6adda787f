/** Kinds of work in which a kill can fall. Several may be under way at once, and a kill counts for each of them. */
export const places = [
  'opening the archive',
  'migrating an older archive',
  'linking the records of an older archive',
  'reading a sweep',
  'packing a sweep at its end',
  'importing a sweep from a file',
  'keeping another record',
  'a backup by hand',
  'the daily backup',
  'copying a backup',
  'looking a backup through',
  'naming a backup, letting older ones go',
  "reading another laptop's file",
  "keeping another laptop's file",
  'giving records',
  'restoring a backup',
] as const;
export type Place = (typeof places)[number];

/** What the program that is going to be killed is to do. */
export type Order = Readonly<{
  task: 'work' | 'restore';
  folder: string;
  /** A folder as on another drive: backups by hand and given records go there as well. */
  stick: string;
  seed: number;
  nowMs: number;
  /** What it does before everything else that it could do beside its sweeps. */
  first: Place | null;
  /** Files of other laptops that it may take in. */
  files: readonly Readonly<{ path: string; fileName: string }>[];
  /** The backup that is put back; of `restore` only. */
  from: string;
}>;

/** A level in thousandths of dBmV. */
export type Level = number | null;

/** A line of the program's output. All but the places are acknowledgements: said after the call returned. */
export type Said =
  | Readonly<{ say: 'in' | 'out'; place: Place; step?: number }>
  /** Before its import, so that a sweep from a file that nobody was told of can be held against it too. */
  | Readonly<{ say: 'importing'; fileName: string; levels: readonly Level[] }>
  | Readonly<{ say: 'head'; device: string; seq: number; hash: string }>
  | Readonly<{ say: 'station'; stationId: string; revision: number; name: string }>
  | Readonly<{ say: 'visit'; visitId: string; operator: string }>
  | Readonly<{ say: 'visit-ended'; visitId: string; note: string }>
  | Readonly<{ say: 'sweep'; sweepId: string; planned: number }>
  | Readonly<{ say: 'reading'; sweepId: string; index: number; level: Level }>
  | Readonly<{ say: 'swept'; sweepId: string; state: 'complete' | 'partial'; count: number }>
  | Readonly<{ say: 'imported'; sweepId: string; fileName: string }>
  | Readonly<{ say: 'settings'; revision: number; json: string }>
  | Readonly<{ say: 'notes'; stationId: string; revision: number; json: string }>
  | Readonly<{ say: 'truck'; revision: number; json: string }>
  | Readonly<{ say: 'fitted'; stationId: string; fittingId: string; toValue: number }>
  | Readonly<{ say: 'voided'; sweepId: string; reason: string }>
  | Readonly<{ say: 'corrected'; sweepId: string; correctedId: string; reason: string }>
  | Readonly<{ say: 'taken'; fileName: string }>
  | Readonly<{ say: 'given'; path: string }>
  | Readonly<{ say: 'backup'; path: string }>
  | Readonly<{ say: 'restored' }>;
