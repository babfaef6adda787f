import { counts, sweepsOf } from './port-sweeps.ts';
import type { State } from './store.ts';

/** One card of the first steps: where one is, and the one thing to do next. */
export type TourCard = Readonly<{ step: 1 | 2 | 3 | 4; next: string; why: string }>;
export const TOUR_STEPS = 4;

/** The station that the first steps are told of. */
const TOUR_STATION = '07 Mill Lane';
/** As it is said, so that the row of the list is the only place with its whole name. */
const CALLED = 'Mill Lane';

const open: TourCard = {
  step: 1,
  next: `Open ${CALLED}.`,
  why: 'A cable was replaced there, and its top end has been low since.',
};
const elsewhere: TourCard = { ...open, next: 'Open any station.', why: 'A press on its row, or Enter.' };
const unset: TourCard = {
  step: 1,
  next: 'Set up the invented network.',
  why: 'The button below does it, with a simulated meter.',
};

/**
 * The card for where the workbench stands, told from its state: somebody who goes another way is met there. Null once the
 * work of the first visit is proved, and where the steps have nothing to say.
 */
export function tourCard(state: State): TourCard | null {
  const { sheet, stations, recordsAt, place } = state;
  if (sheet.at === 'none') {
    if (recordsAt !== 'closed' || stations.at !== 'listed') return null;
    if (stations.rows.length === 0) return unset;
    return stations.rows.some(({ name }) => name === TOUR_STATION) ? open : elsewhere;
  }
  if (sheet.at !== 'open' || place !== 'station') return null;
  const { openVisit } = sheet.sheet;
  if (openVisit === null)
    return {
      step: 2,
      next: 'Read the cautions and begin the visit.',
      why: 'They are asked once a visit; name and temperature may stay empty.',
    };
  const read = sweepsOf(sheet.sheet, sheet.portName).filter(
    (sweep) => counts(sweep) && sweep.visitId === openVisit.visitId && sweep.state === 'complete',
  );
  if (read.length === 0)
    return {
      step: 3,
      next: 'Read it with the meter.',
      why: 'The simulated meter reads this network, its weather and what you plug in.',
    };
  if (read.some(({ purpose }) => purpose === 'as-left')) return null;
  return {
    step: 4,
    next: 'Fit what is proposed, and read again.',
    why: 'The new sweep must lie on the dotted line: that is the proof.',
  };
}

/** True when the four steps were gone to their end: the work is proved, and the cards have nothing left to say. */
export function tourIsOver(state: State): boolean {
  const { sheet } = state;
  if (sheet.at !== 'open' || sheet.sheet.openVisit === null) return false;
  const { visitId } = sheet.sheet.openVisit;
  return sheet.sheet.sweeps.some(
    (sweep) => sweep.visitId === visitId && sweep.purpose === 'as-left' && sweep.state === 'complete',
  );
}
