import { type FrequencyUnit, frequencyUnitOf } from './frequency-unit.ts';
import { isVoltage, type LevelUnit, levelUnitOf } from './level-unit.ts';

export type Role = 'frequency' | 'level' | 'kind' | 'modulation' | 'type' | 'mer' | 'label' | 'lock';

/** How many of a column's numbers make one of its unit: 10 where it counts tenths. */
export type Parts = 1 | 10 | 100;

/** What a header cell says by itself. `unit` as written in it; `impedanceOhm` where it names one. */
export type HeaderWord = Readonly<{
  role: Role | null;
  frequencyUnit: FrequencyUnit | null;
  /** Null also where the header names two. */
  levelUnit: LevelUnit | null;
  /** A bare dB: a gain or a loss, never a level. */
  bareDb: boolean;
  impedanceOhm: number | null;
  parts: Parts;
  /** What its unit says of a heading whose words say nothing: for a table in which no other column is that. */
  byUnit: 'frequency' | 'level' | null;
  /** Its words or its unit may well mean a level, and none of them means anything else. */
  mayBeLevel: boolean;
}>;

const setOf = (words: string) => new Set(words.split(' '));
/** Words that say nothing about which column it is. */
const fillers = setOf(
  'in at of the a center centre central centrale mid middle nominal tuned carrier signal measured value ohm ohms 75 50 ' +
    'downstream ds upstream us rx tx receive received transmit transmitted input output forward return port ' +
    'avg average mean rms db decibel current actual absolute plc de du della del la le',
);

const roles: readonly (readonly [Role, RegExp])[] = [
  [
    'frequency',
    /^(?:(?:ch|chan|channel|kanal|canal) )?(?:f|freq|frq|frequency|frequencies|frequenz|frequence|frecuencia|frequencia|frequenza|frequentie|frekvens|frekvence|frekvencia|frecventa|czestotliwosc|kmitocet|taajuus|mittenfrequenz|centerfrequency|centrefrequency)$/,
  ],
  [
    'level',
    /^(?:(?:ch|chan|channel|kanal|canal) )?(?:levels?|lvl|power|pow|pwr|power levels?|powerlevel|level power|amplitude|ampl|power amplitude|strength|pegel|leistung|empfangspegel|signalpegel|niveau|nivel|nivel (?:potencia|senal|sinal)|livello|livello (?:potenza|segnale)|potencia|potencia recibida|puissance|niveau puissance|puissance recue|potenza|vermogen|vermogensniveau|ontvangstniveau|signaalsterkte|signaalniveau|signalstarke|leistungspegel|empfangsleistung|poziom|poziom (?:mocy|sygnalu)|moc|moc sygnalu|uroven|vykon|niva|styrka|szint|jelszint|taso|nivel putere|putere)$/,
  ],
  ['kind', /^kind$/],
  [
    'modulation',
    /^(mod|modulation|modulacion|modulacao|modulazione|modulatie|modulacja|qam)( (type|order|format|scheme|profile( id)?))?$/,
  ],
  ['type', /^((ch|chan|channel) )?type$/],
  [
    'mer',
    /^(mer|snr|rxmer|msnr|snr mer|mer snr|snr rxmer|(to )?noise ratio|snr margin ratio|modulation error ratio)( (level|value|ratio))?$/,
  ],
  [
    'label',
    /^(label|name|channel|ch|chan|kanal|canal|id|no|nr|number|index|cid|chid|dcid|ucid|channelid|(channel|ch|chan|kanal|canal) (id|name|number|no|nr|index))$/,
  ],
  [
    'lock',
    /^(lock|locked|is locked|qam lock|lock status|locked status|lock state|lockstatus|sperrstatus|verbindungsstatus|zustand|verriegelt|gelockt|statut|etat|verrouillage|verrouille|etat verrouillage|statut verrouillage|estado|bloqueo|bloqueado|estado bloqueo|stato|bloccato|aggancio|vergrendeld|vergrendeling|zablokowany|blokada|status|state)$/,
  ],
];

/** Words of a quantity that has the unit of a frequency or of a level, and is neither. */
const otherwise =
  /rate|baud|width|start|stop|begin|end|low|high|from|to|span|step|offset|spacing|range|noise|limit|target|design|tolerance|threshold|min|max|found|left|before|after|loss|gain|tilt|delta|diff|change|deviation|error|sent|transmit|expected|nominal|reference|spec|goal|ideal|previous|last|old|alarm|warn|floor|spur|adjacent|hum|margin|total|sum/;

/**
 * Whether a word says that a number beside it is no level of a signal: a limit, a loss, a spur.
 * @param word  in small letters
 * @returns  true also for longer words that hold one
 * @source   common practice, no published source
 */
export const saysOtherwise = (word: string): boolean => otherwise.test(word);

/** The power that a unit is fed with. */
const ofMains = /\b(?:v|vac|vdc|volts?|w|watts?|ma|supply|mode|saving)\b/i;
/** Words of a level among others that nobody foresaw. */
const ofLevel =
  /\b(?:levels?|lvl|power|pwr|pegel|leistung|niveau|nivel|livello|potencia|puissance|potenza)\b/;

/** A field strength or a density has the letters of a level, and is none. */
const perSomething =
  /(?:\bdb(?:m|[mu\u00B5\u03BC]v)|[mu\u00B5\u03BC]v|volts?)\s*(?:\/|\bper\b)\s*[(\u221A]*\s*(?:m(?:et(?:er|re)s?)?|[kmg]?hz)\b/i;
/** What a heading of a voltage may say besides its unit. */
const ofVoltage = /^(?:rf )?(?:voltage|spannung|tension|tensione|spanning)$/;
/** Where the other impedance is said of dBm for certain; a bare 50 elsewhere may number a channel. */
const in50Ohm =
  /(?<![\d.,])50[\s_-]*(?:ohms?\b|\u03A9|\u2126)|dbm[\s,(@[/_]*(?:(?:at|in|into)\s+)?50\s*[)\]]?\s*$/i;
/** Megavolt, and what is written like it: never to be taken for mV or uV in small letters. */
const inCapitals = /(?<![A-Za-z])[MU][Vv](?![A-Za-z])/g;
const decibels = /^(?:db|dec\w*|dez\w*)$/;

const glued = /([a-z]{3})(dbmv|dbuv|dbm|[kmg]?hz)\b/gi;

/** Header text as plain small words: accents, camel case, and units that are glued or torn apart. */
function wordsOf(header: string): string[] {
  const plain = header
    .replace(/[\u00B5\u03BC]/g, 'u')
    .replace(/\bdb[\s(/]*([mu]v)\b/gi, 'db$1')
    .replace(inCapitals, 'capitals')
    .replace(glued, '$1 $2')
    .replace(/dbm(50|75)(?!\d)/gi, 'dbm $1')
    .replace(/(?<!\d)(50|75)(?=ohms?\b)/gi, '$1 ')
    .replace(/([a-z]{2})([A-Z][a-z])/g, '$1 $2')
    .replace(/\u00D7/g, 'x')
    .replace(/[\u0141\u0142]/g, 'l')
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase();
  return plain.split(/[^a-z0-9]+/).filter((word) => word !== '');
}

const mayCount = /th|0|centi|deci/i;
const tenths =
  /tenths?|\b1\/10\b|\b0\.1\s*(?:of\s+(?:a\s+)?)?(?:db|decibel)|[x*]\s*10\b|\bdb\w*\s*\/\s*10\b|\bdecidb/;
const hundredths =
  /hundredths?|\b1\/100\b|\b0\.01\s*(?:of\s+(?:a\s+)?)?(?:db|decibel)|[x*]\s*100\b|\bdb\w*\s*\/\s*100\b|\bcentidb/;

/**
 * Whether words say that numbers are counted in tenths or hundredths of a unit.
 * @param text  a heading, a unit or a title
 * @returns  10, 100, or 1 where it says nothing of the kind
 * @source   common practice, no published source; TenthdBmV: RFC 4546, textual convention of the cable modem MIB
 */
export function partsIn(text: string): Parts {
  if (!mayCount.test(text)) return 1;
  const plain = text
    .toLowerCase()
    .replace(/\u00D7/g, 'x')
    .replace(/,/g, '.');
  return hundredths.test(plain) ? 100 : tenths.test(plain) ? 10 : 1;
}

function readHeaderWord(header: string): HeaderWord {
  // A heading is short; a long cell is prose, and its words are not worth the time.
  const words = wordsOf(header.slice(0, 120));
  const frequencyUnit = words.map(frequencyUnitOf).find((unit) => unit !== null) ?? null;
  // Beside the word decibel, millivolt is what the decibels refer to.
  const isOfDecibels = words.some((word) => decibels.test(word));
  const ohm = ['50', '75'].find((word) => words.includes(word));
  const isIn50 = in50Ohm.test(header) && !words.includes('75');
  const unitIn = (word: string): LevelUnit | null => {
    const unit = levelUnitOf(word);
    if (isVoltage(unit) && isOfDecibels) return null;
    return unit === 'dBm' && isIn50 ? 'dBm50' : unit;
  };
  const levelUnits = new Set(words.map(unitIn).filter((unit) => unit !== null));
  const parts = partsIn(header.slice(0, 120));
  const counting =
    parts === 1 ? new Set<string>() : setOf('x 1 0 01 10 100 tenth tenths hundredth hundredths of');
  const telling = words
    .filter(
      (word) =>
        frequencyUnitOf(word) === null &&
        levelUnitOf(word) === null &&
        !fillers.has(word) &&
        !counting.has(word),
    )
    .join(' ');
  const byName = roles.find(([, pattern]) => pattern.test(telling))?.[0] ?? null;
  // A column that is headed by its unit alone is named by it.
  const byUnit = frequencyUnit !== null ? 'frequency' : levelUnits.size > 0 ? 'level' : null;
  const isPer = perSomething.test(header);
  // One that another separator parts is several headings.
  const isOneUnit =
    (frequencyUnit === null) !== (levelUnits.size === 0) && levelUnits.size < 2 && !/[;,|\t]/.test(header);
  const isUnnamed = !isPer && byName === null && !otherwise.test(telling);
  // A voltage may be anything's: that of the mains, of a hum. Only words of a level make it one.
  const isInVolt = [...levelUnits].some(isVoltage);
  return {
    role: isPer ? null : telling === '' ? byUnit : byName,
    frequencyUnit,
    levelUnit: levelUnits.size === 1 ? ([...levelUnits][0] ?? null) : null,
    bareDb: words.includes('db'),
    impedanceOhm: ohm === undefined ? null : Number(ohm),
    parts,
    byUnit: isUnnamed && isOneUnit && (!isInVolt || ofVoltage.test(telling)) ? byUnit : null,
    mayBeLevel:
      isUnnamed &&
      frequencyUnit === null &&
      ((levelUnits.size === 1 && !isInVolt) ||
        (ofLevel.test(telling) && !words.includes('db') && !ofMains.test(header))),
  };
}

/** A file asks for the same few headings again and again; what they say never changes. */
const remembered = new Map<string, HeaderWord>();
const MOST_REMEMBERED = 2000;

/**
 * Reads one header cell: which column it names and which unit it states.
 * @param header  the cell's text in any case, with units in brackets, after a slash, an underscore or a blank
 * @returns  nulls where it says nothing
 * @source   contract, section 1; the words are common practice, no published source
 */
export function headerWord(header: string): HeaderWord {
  const known = remembered.get(header);
  if (known !== undefined) return known;
  const word = readHeaderWord(header);
  if (remembered.size >= MOST_REMEMBERED) remembered.clear();
  remembered.set(header, word);
  return word;
}
