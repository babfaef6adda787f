import { done, type Result, refuse } from '../../result.ts';
import { type FrequencyUnit, frequencyUnitOf } from '../frequency-unit.ts';

export type ParameterKind = 'S' | 'Y' | 'Z' | 'G' | 'H';
export type NumberFormat = 'MA' | 'DB' | 'RI';

/** What the option line of a Touchstone file says, with its defaults filled in. */
export type TouchstoneOptions = Readonly<{
  unit: FrequencyUnit;
  /** False where the line leaves the unit out, so that it is the standard's GHz. */
  unitIsTold: boolean;
  parameter: ParameterKind;
  format: NumberFormat;
  referenceOhm: number;
}>;

const parameters: readonly ParameterKind[] = ['S', 'Y', 'Z', 'G', 'H'];
const formats: readonly NumberFormat[] = ['MA', 'DB', 'RI'];

/**
 * Reads the option line of a Touchstone file, in any case, order and spacing.
 * @param line   from its # on, without a comment
 * @param where  the place, for a refusal
 * @returns  the options, GHz S MA R 50 where they are left out; or a refusal of a word that the standard does not know
 *           or that contradicts another
 * @source   Touchstone File Format Specification, version 2.0, IBIS Open Forum, 2009, "Option Line"
 */
export function readOptionLine(line: string, where: string): Result<TouchstoneOptions, 'bad-option'> {
  const words = line
    .replace(/^\s*#/, '')
    .trim()
    .split(/[\s,]+/)
    .filter((word) => word !== '');
  let unit: FrequencyUnit | null = null;
  let parameter: ParameterKind | null = null;
  let format: NumberFormat | null = null;
  let referenceOhm = 50;
  for (let i = 0; i < words.length; i++) {
    const word = words[i] ?? '';
    const upper = word.toUpperCase();
    const told = frequencyUnitOf(word);
    const kind = parameters.find((one) => one === upper);
    const form = formats.find((one) => one === upper);
    const isSecond = (said: unknown, before: unknown) => said != null && before != null && said !== before;
    if (isSecond(told, unit) || isSecond(kind, parameter) || isSecond(form, format))
      return refuse(
        'bad-option',
        where,
        `"${word}" contradicts the option before it; keep the one that holds`,
      );
    const reference = /^R(?:=?(\d.*))?$/.exec(upper);
    if (told !== null) unit = told;
    else if (kind !== undefined) parameter = kind;
    else if (form !== undefined) format = form;
    else if (reference !== null) {
      const ohm = reference[1] ?? words[++i] ?? '';
      referenceOhm = Number(ohm);
      if (!(referenceOhm > 0) || !Number.isFinite(referenceOhm))
        return refuse(
          'bad-option',
          where,
          `"R ${ohm.slice(0, 20)}" is no resistance; write it as in # MHz S DB R 75`,
        );
    } else
      return refuse(
        'bad-option',
        where,
        `"${word.slice(0, 20)}" is no option; an option line reads # MHz S DB R 75`,
      );
  }
  return done({
    unit: unit ?? 'GHz',
    unitIsTold: unit !== null,
    parameter: parameter ?? 'S',
    format: format ?? 'MA',
    referenceOhm,
  });
}
