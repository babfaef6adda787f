import { inspectSweep } from '../inspect/all.ts';
import type { HeldAgainst } from '../propose/held-against.ts';
import { localTime } from '../words/local-time.ts';
import { capital, counted, level, mhz, oneDecimal, signedDb, sizeDb, sureWords } from '../words/numbers.ts';
import type { Block } from './document.ts';
import { findingWords } from './finding-words.ts';
import { levelPicture } from './level-picture.ts';
import type { Place, ReportFrame, ReportSweep } from './material.ts';
import { type JudgedSweep, lastOf, type PortView } from './port-view.ts';
import { markOf, standingTable, verdictWord } from './standing-table.ts';

/**
 * "as found", "as left", "check"
 * @source   this program's own
 */
export const purposeWord = (purpose: ReportSweep['purpose']): string => purpose.replace('-', ' ');

const clockOf = (sweep: ReportSweep, place: Place): string => localTime(sweep.startedAt, place).clock;

/** What a sweep's line is called: its purpose, and the clock where two have one purpose. */
function namesOf(view: PortView, place: Place): readonly Readonly<{ name: string; judged: JudgedSweep }>[] {
  const both = view.left === null ? [view.found] : [view.found, view.left];
  const alike = view.left !== null && view.left.sweep.purpose === view.found.sweep.purpose;
  return both.map((judged) => ({
    judged,
    name: `${purposeWord(judged.sweep.purpose)}${alike ? ` ${clockOf(judged.sweep, place)}` : ''}`,
  }));
}

/**
 * The finding of a sweep in one sentence, the station sheet's headline.
 * @param unit  levels are written in
 * @source   see `headlineOf`
 */
export function findingSentence(
  { standing, fit, unjudged }: JudgedSweep,
  unit: ReportFrame['units']['levelUnit'],
): string {
  if (standing !== null) return standing.headline;
  return fit === null
    ? `This sweep can\u2019t be judged: ${unjudged ?? 'it has no levels'}`
    : `${level(fit.highDbmv, unit)} at the top, tilt ${signedDb(fit.tiltDb)}`;
}

const heldWords = (held: HeldAgainst): string =>
  held.agrees
    ? `As predicted: the sweep after the parts were fitted lies within ${sizeDb(held.worstDb)} of what they were to give.`
    : `Not as predicted: ${sizeDb(held.worstDb)} ${held.worstDb < 0 ? 'low' : 'high'} at ${mhz(held.worstMhz)}. The meter and the parts\u2019 own tolerance explain ${sizeDb(held.withinDb)}; a part may not be what its label says, or not seated.`;

/**
 * The finding of a port as a block: its sentence, its verdict as shape and word, and how sure it is.
 * @param view  of one port at one visit
 * @source   see `standingAgainstDesign`
 */
export function findingBlock(view: PortView, frame: ReportFrame): Block {
  const last = lastOf(view);
  const { standing } = last;
  const part = standing === null ? null : { ...standing, deviationDb: standing.worst.deviationDb };
  const word =
    part === null
      ? ''
      : part.verdict === 'fail'
        ? `not good${part.probability === undefined ? '' : `, ${sureWords(part.verdict, part.probability)}`}`
        : `${verdictWord(part)}${part.probability === undefined ? '' : `, ${sureWords(part.verdict, part.probability)}`}`;
  return {
    block: 'finding',
    lead: `${capital(purposeWord(last.sweep.purpose))}, ${view.port.name}`,
    text: findingSentence(last, frame.units.levelUnit),
    mark: part === null ? null : markOf(part),
    word,
  };
}

/** What the picture shows, for those who can't see it. */
function pictureWords(view: PortView, frame: ReportFrame): string {
  const unit = frame.units.levelUnit;
  const of = (judged: JudgedSweep) =>
    `${purposeWord(judged.sweep.purpose)}: ${findingSentence(judged, unit)}`;
  const each = view.left === null ? [of(view.found)] : [of(view.found), of(view.left)];
  return `Level over frequency at the ${view.port.name}. ${capital(each.join('; '))}.`;
}

/**
 * A port at a visit: chart, figures, prediction held, faults found.
 * @param view   of one port at one visit
 * @param place  whose clock is printed
 * @returns  blocks, without the finding itself
 * @source   see `levelPicture`, `standingTable`, `inspectSweep`
 */
export function portSection(view: PortView, place: Place, frame: ReportFrame): readonly Block[] {
  const { levelUnit, lengthUnit } = frame.units;
  const names = namesOf(view, place);
  const last = lastOf(view);
  const table = standingTable(view, levelUnit);
  const inspected = inspectSweep(last.sweep.rows);
  const faults = inspected.ok ? inspected.value.findings.map((one) => findingWords(one, lengthUnit)) : [];
  const read = names.map(
    ({ name, judged: { sweep } }) =>
      `${name} at ${clockOf(sweep, place)}, ${counted(sweep.rows.length, 'channel', 'channels')}${sweep.state === 'partial' ? ', cut short' : ''}`,
  );
  return [
    {
      block: 'figure',
      picture: levelPicture(names, levelUnit),
      caption: `Level at the ${view.port.name}: ${read.join('; ')}. ${names.length > 1 ? 'Dashed: before. Solid: after. ' : ''}Grey band: what the design allows.`,
      words: pictureWords(view, frame),
    },
    ...(table === null ? [] : [table]),
    ...(last.unjudged === null ? [] : [{ block: 'paragraph', text: last.unjudged } as const]),
    ...(view.held === null ? [] : [{ block: 'paragraph', text: heldWords(view.held) } as const]),
    {
      block: 'paragraph',
      text:
        faults.length === 0
          ? `No ripple, notch, roll-off, step or missing carrier stands out in the ${purposeWord(last.sweep.purpose)} sweep.`
          : `In the ${purposeWord(last.sweep.purpose)} sweep:`,
    },
    ...(faults.length === 0 ? [] : [{ block: 'list', items: faults } as const]),
    ...(view.left !== null && view.found.standing !== null
      ? [
          {
            block: 'paragraph',
            soft: true,
            text: `As found: ${view.found.standing.headline} (worst channel ${signedDb(view.found.standing.worst.deviationDb)} at ${mhz(view.found.standing.worst.frequencyMhz)}, tilt ${oneDecimal(view.found.standing.tilt.valueDb)}\u00A0dB).`,
          } as const,
        ]
      : []),
  ];
}
