import type { LevelRow } from './level-row.ts';
import type { Shape } from './position.ts';
import { screenCarriers } from './screen-carriers.ts';
import { type Excluded, type UsableRow, usableRows } from './usable-rows.ts';

export type RowChoice = Readonly<{
  shape?: Shape | undefined;
  lowMhz?: number | undefined;
  highMhz?: number | undefined;
  keepAll?: boolean | undefined;
}>;
export type ChosenRows = Readonly<{
  used: readonly UsableRow[];
  excluded: readonly Excluded[];
  outsideCount: number;
}>;

/**
 * The rows that a fit, a standing and a proposal all use: usable, and carriers at their level unless all are wanted.
 * @param rows    MHz and dBmV, any order
 * @param choice  shape (linear), low and high in MHz (none), keepAll (false): defaults in brackets
 * @returns  the rows in rising frequency, what was left out and why, how many lie outside low..high
 * @source   contract, section 3, "fit, exactly" and "propose, exactly"
 */
export function chooseRows(rows: readonly LevelRow[], choice: RowChoice): ChosenRows {
  const { usable, excluded, outsideCount } = usableRows(rows, choice.lowMhz, choice.highMhz);
  if (choice.keepAll === true) return { used: usable, excluded, outsideCount };
  const screened = screenCarriers(usable, choice.shape ?? 'linear');
  return { used: screened.kept, excluded: [...excluded, ...screened.excluded], outsideCount };
}
