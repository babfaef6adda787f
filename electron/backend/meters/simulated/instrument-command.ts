import { dbm75FromDbmv, dbuvFromDbmv, millivoltFromDbmv } from '../../../../core/units.ts';
import type { LevelUnit } from '../profile.ts';
import type { InstrumentState } from './instrument-commands.ts';
import { type HeaderNode, headerNodes } from './scpi-header.ts';

/** What a unit of a message did: an answer, nothing to say, or the code of what went wrong. */
export type Effect = string | null | Readonly<{ code: number }>;
export type Act = (state: InstrumentState, parameters: readonly string[]) => Effect;
export type InstrumentCommand = Readonly<{
  nodes: readonly HeaderNode[];
  query: boolean;
  /** At most so many, and one at least where it is not 0. */
  parameterCount: 0 | 1 | 2;
  act: Act;
}>;

export const asks = (notation: string, act: Act, parameterCount: 0 | 1 = 0): InstrumentCommand => ({
  nodes: headerNodes(notation),
  query: true,
  parameterCount,
  act,
});
export const does = (notation: string, parameterCount: 0 | 1 | 2, act: Act): InstrumentCommand => ({
  nodes: headerNodes(notation),
  query: false,
  parameterCount,
  act,
});

/** A level as the instrument writes it in the unit that it is set to. */
export function inUnit(levelDbmv: number, unit: LevelUnit): string {
  switch (unit) {
    case 'DBMV':
      return levelDbmv.toFixed(2);
    case 'DBUV':
      return dbuvFromDbmv(levelDbmv).toFixed(2);
    case 'DBM':
      return dbm75FromDbmv(levelDbmv).toFixed(2);
    case 'V':
      return (millivoltFromDbmv(levelDbmv) / 1000).toExponential(4).toUpperCase();
  }
}
