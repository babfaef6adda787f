import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { Design, Station } from '../../core/files/station.ts';
import type { BeyondTruck } from '../../core/propose/beyond-truck.ts';
import { type HeldAgainst, REPEATS_WITHIN_DB } from '../../core/propose/held-against.ts';
import type { Choice } from '../../core/propose/objective.ts';
import { TURNED_WITHIN_DB } from '../../core/propose/predict-turned.ts';
import type { Proposal } from '../../core/propose/propose.ts';
import type { StageInputNote } from '../../core/propose/stage-input.ts';
import { TRIM_WORTH_DB } from '../../core/propose/trims.ts';
import type { Remains, Why } from '../../core/propose/why.ts';
import { chanceWords } from '../../core/uncertainty/conformity.ts';
import { goodToDb } from '../../core/uncertainty/shares.ts';
import { bareLevel, capital, counted, level, mhz, plugIn, plusMinus, signedDb, sizeDb } from '../format.ts';
import { type How, PRACTICE, plainHow } from './how.ts';
import { PLUG_IN_LOSS } from './prediction.ts';

const changesOf = ({ changes }: Pick<Choice, 'changes'>) =>
  changes.map(({ position, from, to }) => ({
    name: capital(position),
    text: `${plugIn(from)} \u2192 ${plugIn(to)}`,
  }));

/** Another combination than the recommended one. */
export const howAlternative = (choice: Choice, proposal: Proposal, design: Design): How =>
  plainHow({
    title: 'Worst channel with these parts',
    value: sizeDb(choice.worstDb),
    words: `Reckoned as the recommended one is, for ${counted(proposal.count, 'channel', 'channels')}. Listed is what no other betters in both worst channel and number of changes, then what else is good enough; the best that there is gives ${sizeDb(proposal.best.worstDb)}.`,
    formula: 'greatest |before(f) + \u03A3 loss(in now, f) \u2212 \u03A3 loss(to fit, f) \u2212 target(f)|',
    items: changesOf(choice),
    judged: `The design allows ${sizeDb(design.toleranceDb)} either way.`,
    source: `${PLUG_IN_LOSS} The search is exact: no combination of the kit is passed over.`,
  });

/** What turning the trims gives. */
export const howTrims = (choice: Choice, proposal: Proposal, design: Design): How => {
  const moves = choice.withTrims?.moves ?? [];
  return plainHow({
    title: 'Worst channel with the trims turned',
    value: sizeDb(choice.withTrims?.worstDb ?? choice.worstDb),
    words: `How far to turn each so that the farthest of ${counted(proposal.count, 'channel', 'channels')} is least, within what the trims have left. A gain trim moves all channels alike; a slope trim its own end in full and the other not at all. Without them it is ${sizeDb(choice.worstDb)}.`,
    formula: 'least greatest |after(f) + \u03A3 turn \u00B7 effect(f) \u2212 target(f)|',
    items: moves.map(({ name, byDb, atMhz }) => ({
      name: capital(name),
      text: `${signedDb(byDb)} at ${mhz(atMhz)}`,
    })),
    judged: `The design allows ${sizeDb(design.toleranceDb)} either way. A turn must buy ${sizeDb(TRIM_WORTH_DB)}.`,
    source: `The ranges: this station\u2019s notes. Least worst deviation: exact. What a turn does along the band: ${PRACTICE.toLowerCase()}`,
  });
};

/** What is wrong, as it was read, taken apart. */
export const howWhy = (why: Why, before: Proposal['before']): How =>
  plainHow({
    title: 'What is wrong',
    value: sizeDb(before.worstDb),
    words:
      'What both ends of the fitted line share is level; what is left at one end is tilt; how far channels lie from their own line is shape. The largest of the three is named.',
    formula: 'worst channel = level + tilt + shape, at most',
    items: [
      { name: 'Level', text: signedDb(why.levelDb) },
      { name: 'Tilt, against the design', text: signedDb(why.tiltDb) },
      { name: 'Shape, half of peak to valley', text: sizeDb(why.shapeDb) },
    ],
    source: PRACTICE,
  });

/** Why no plug-in mends the rest. */
export const howFloor = (remains: Remains, design: Design): How =>
  plainHow({
    title: 'What no plug-in mends',
    value: sizeDb(remains.floorDb),
    words:
      'The worst channel that would be left if level and tilt could be set at will, with the best plug-ins in. Only mending the cause brings it lower.',
    formula: 'least over level, tilt of greatest |off(f) + level + tilt \u00B7 x(f)|',
    judged: `The design allows ${sizeDb(design.toleranceDb)} either way.`,
    source: `Least worst deviation: exact. That the rest is a fault and no choice of parts: ${PRACTICE.toLowerCase()}`,
  });

/** What parts that the truck lacks would have given. */
export const howBeyondTruck = ({ choice, bestWorstDb }: BeyondTruck, proposal: Proposal): How =>
  plainHow({
    title: 'With parts that are not there',
    value: sizeDb(choice.worstDb),
    words: `The same search with any number of each value of the kit. The best of it gives ${sizeDb(bestWorstDb)}; these are the fewest changes that come within a quarter of a dB of that. With what the truck holds, ${sizeDb(proposal.best.worstDb)} is the best.`,
    formula: 'greatest |before(f) + \u03A3 loss(in now, f) \u2212 \u03A3 loss(to fit, f) \u2212 target(f)|',
    items: changesOf(choice),
    source: `${PLUG_IN_LOSS} The search is exact.`,
  });

/** The level at the input of the stage that must not be driven too hard. */
export function howStageInput(
  note: StageInputNote,
  limit: NonNullable<Station['stageInput']>,
  unit: LevelUnitName,
): How {
  const { levelDbmv, beforeDbmv, uDb, probability } = note;
  const range = `${bareLevel(note.minDbmv, unit)} to ${level(note.maxDbmv, unit)}`;
  if (levelDbmv === undefined || beforeDbmv === undefined)
    return plainHow({
      title: 'Stage input',
      value: 'not known',
      words: `It needs a sweep of the ${limit.port} in this visit. Without one the limit is not applied, and any combination may be proposed.`,
      formula: `${range} at ${mhz(note.atMhz)}`,
      source: 'The limit: the station file.',
    });
  const good = uDb === undefined ? '' : ` ${plusMinus(goodToDb(uDb))}\u00A0dB`;
  return plainHow({
    title: 'Stage input',
    value: `${level(levelDbmv, unit)}${good}`,
    words: `The level of the ${limit.port} at ${mhz(note.atMhz)}, on the straight line between the two nearest channels of its sweep, less what the parts before the stage take away: ${limit.through.join(', ')}. Now it is ${level(beforeDbmv, unit)}.${note.moved === undefined ? '' : ` Of its sweep: ${note.moved.join(' ')}`}`,
    formula: `input(${mhz(note.atMhz)}) \u2212 \u03A3 loss(to fit, ${mhz(note.atMhz)})`,
    judged: `Its limit is ${range}.${probability === undefined ? '' : ` The chance that it lies inside is ${chanceWords(probability)}.`}`,
    source: `The limit: the station file. ${PLUG_IN_LOSS}${uDb === undefined ? '' : ' Uncertainty: JCGM 100:2008, 5.1.2; chance: JCGM 106:2012, 7.2 to 7.4 (section numbers from memory).'}`,
  });
}

/** Whether the sweep lies on its prediction. */
export const howHeld = (held: HeldAgainst & Readonly<{ after: 'parts' | 'trims' }>): How =>
  plainHow({
    title: 'Against the prediction',
    value: signedDb(held.worstDb),
    words: `Read less predicted, ${counted(held.comparedCount, 'channel', 'channels')} that both sweeps have; the farthest is at ${mhz(held.worstMhz)}, and on the mean it is ${signedDb(held.meanDb)}, which is what a wrong pad would show.`,
    formula: 'greatest |read(f) \u2212 predicted(f)|',
    judged: `Up to ${sizeDb(held.withinDb)} counts as predicted: 95 of 100 sweeps that are so lie within what the meter repeats to, at the farthest of so many channels, and ${held.after === 'parts' ? 'what the exchanged parts may lie off their labels' : 'how near a hand brings a trim'}. It is never less than ${REPEATS_WITHIN_DB} dB.`,
    source: `JCGM 100:2008, 5.1.2 (from memory); the farthest of n: the distribution of an extreme, P(one)\u207F. ${held.after === 'parts' ? 'What a part may lie off by: the truck\u2019s list, else 0.25 dB' : `How near a hand comes, ${TURNED_WITHIN_DB} dB`}: common practice, no published source.`,
  });
