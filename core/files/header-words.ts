import { type FrequencyUnit, frequencyUnitOf } from './frequency-unit.ts';
import { type LevelUnit, levelUnitOf } from './level-unit.ts';

export type Role = 'frequency' | 'level' | 'kind' | 'modulation' | 'mer' | 'label' | 'lock';

/** What a header cell says by itself. `unit` as written in it; `impedanceOhm` where it names one. */
export type HeaderWord = Readonly<{
  role: Role | null;
  frequencyUnit: FrequencyUnit | null;
  levelUnit: LevelUnit | null;
  /** A bare dB: a gain or a loss, never a level. */
  bareDb: boolean;
  impedanceOhm: number | null;
}>;

/** Words that say nothing about which column it is. */
const fillers = new Set(
  'in at of the a center centre carrier signal measured value ohm ohms 75 50 downstream ds rx receive received db'.split(
    ' ',
  ),
);

const roles: readonly (readonly [Role, RegExp])[] = [
  ['frequency', /^(f|freq|frequency|frequencies)$/],
  ['level', /^(level|levels|power|power level|level power|amplitude|ampl|power amplitude)$/],
  ['kind', /^kind$/],
  ['modulation', /^(mod|modulation)( (type|order))?$/],
  ['mer', /^(mer|snr|rxmer|snr mer|mer snr|to noise ratio|modulation error ratio)$/],
  ['label', /^(label|name|channel|ch|channel (id|name|number|no)|ch (id|name|number|no))$/],
  ['lock', /^(lock|locked|lock status|lock state|status)$/],
];

/**
 * Reads one header cell: which column it names and which unit it states.
 * @param header  the cell's text in any case, with units in brackets, after a slash, an underscore or a blank
 * @returns  nulls where it says nothing
 * @source   contract, section 1; the words are common practice, no published source
 */
export function headerWord(header: string): HeaderWord {
  const words = header
    .toLowerCase()
    .replace(/[µμ]/g, 'u')
    .split(/[^a-z0-9]+/)
    .filter((word) => word !== '');
  const frequencyUnit = words.map(frequencyUnitOf).find((unit) => unit !== null) ?? null;
  const levelUnit = words.map(levelUnitOf).find((unit) => unit !== null) ?? null;
  const telling = words
    .filter((word) => frequencyUnitOf(word) === null && levelUnitOf(word) === null && !fillers.has(word))
    .join(' ');
  const byName = roles.find(([, pattern]) => pattern.test(telling))?.[0] ?? null;
  // A column that is headed by its unit alone is named by it.
  const byUnit = frequencyUnit !== null ? 'frequency' : levelUnit !== null ? 'level' : null;
  const ohm = ['50', '75'].find((word) => words.includes(word));
  return {
    role: telling === '' ? byUnit : byName,
    frequencyUnit,
    levelUnit,
    bareDb: words.includes('db'),
    impedanceOhm: ohm === undefined ? null : Number(ohm),
  };
}
