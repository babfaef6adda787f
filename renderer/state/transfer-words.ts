import type { Conflict, TakenFile } from '../../core/bridge/transfer-calls.ts';
import { clock, counted, mhz, oneDecimal, whole } from '../format.ts';
import { dayWords } from './quality-words.ts';
import type { TransferLook, TransferProgress } from './transfer-commands.ts';

/** The first letters of a laptop's name in its records: enough to tell a few from each other. */
export const laptopWords = (device: string): string => `laptop ${device.slice(0, 8)}`;

/** The finding of the page, in a sentence. */
export function lookWords({ files, conflicts }: TransferLook): string {
  if (conflicts.length > 0)
    return `${counted(conflicts.length, 'record says', 'records say')} otherwise than one of the same name here.`;
  const [newest] = files;
  if (newest === undefined) return 'Nothing has come from another laptop yet.';
  const laptops = new Set(files.map(({ device }) => device)).size;
  return `Records of ${counted(laptops, 'other laptop', 'other laptops')} are here, the last since ${dayWords(Date.parse(newest.takenAt))}.`;
}

/** How far it is, in a line. */
export function progressWords(at: 'giving' | 'taking', progress: TransferProgress | null): string {
  if (progress === null) return at === 'giving' ? 'Making the file' : 'Looking at what is there';
  if (progress.waits) return 'Everything is read. It is kept as soon as the running sweep has ended.';
  if (at === 'giving') return `${whole(progress.done)} records so far`;
  return progress.count === 1
    ? progress.fileName
    : `${progress.fileName}, ${progress.place} of ${progress.count}`;
}

const broughtWords = ({ added, sweeps, conflicts }: TakenFile): string =>
  [
    ...(added > 0
      ? [`${counted(added, 'record', 'records')}, ${counted(sweeps, 'sweep', 'sweeps')} among them`]
      : []),
    ...(conflicts > 0
      ? [`${counted(conflicts, 'record says', 'records say')} otherwise than here; both are kept`]
      : []),
  ].join('; ');

/** What became of a file: a word, and what else there is to say of it. */
export function becameWords(file: TakenFile): Readonly<{ word: string; more: string; isTrouble: boolean }> {
  switch (file.became) {
    case 'taken-in':
      return { word: 'Taken in', more: broughtWords(file), isTrouble: file.conflicts > 0 };
    case 'nothing-new':
      return { word: 'Nothing new', more: 'all of it is here already', isTrouble: false };
    case 'before':
      return { word: 'Here already', more: file.why ?? '', isTrouble: false };
    case 'own':
      return { word: "This laptop's own", more: 'nothing to take in', isTrouble: false };
    case 'incomplete':
      return { word: 'Not whole yet', more: file.why ?? '', isTrouble: true };
    case 'refused':
      return { word: 'Refused', more: file.why ?? '', isTrouble: true };
  }
}

/** "The sweep at 07 Mill Lane". */
export const conflictTitle = ({ kind, stationName }: Conflict): string =>
  `${kind.replaceAll('-', ' ').replace(/^./, (letter) => letter.toUpperCase())}${stationName === null ? '' : ` at ${stationName}`}`;

/** By the unit that a key's name ends with, how its number reads. */
const units: readonly (readonly [RegExp, (value: number) => string])[] = [
  [/Mdbmv$/, (value) => `${oneDecimal(value / 1000)}\u00a0dBmV`],
  [/Mdb$/, (value) => `${oneDecimal(value / 1000)}\u00a0dB`],
  [/Mc$/, (value) => `${oneDecimal(value / 1000)}\u00a0\u00b0C`],
  [/Hz$/, (value) => mhz(value / 1e6)],
  [/Ms$/, (value) => `${dayWords(value)} ${clock(new Date(value).toISOString())}`],
];

/** "Test point loss", and each side with its unit. */
export function differenceWords({ key, here, other }: Conflict['differences'][number]) {
  const name = key.split(' ')[0] ?? key;
  const unit = units.find(([ending]) => ending.test(name));
  const words = key
    .replace(/(Mdbmv|Mdb|Mc|Hz|Ms)(?= |$)/, '')
    .replace(/\./g, ', ')
    .replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
    .replace(/^./, (letter) => letter.toUpperCase());
  const valued = (text: string) =>
    unit === undefined ? text : text.replace(/^-?\d+(?=,|$)/, (number) => unit[1](Number(number)));
  return { words, here: valued(here), other: valued(other) };
}
