import { PRACTICE_NOTE } from '../gain-control/basis.ts';
import type { RangeVerdict } from '../gain-control/range.ts';
import { type SetUpResult, setUpResult } from '../set-up/result.ts';
import { type SetUpState, type StepState, setUpState } from '../set-up/state.ts';
import type { SetUpStep } from '../set-up/steps.ts';
import { goodToDb } from '../uncertainty/shares.ts';
import { localTime, momentWords } from '../words/local-time.ts';
import {
  level,
  mhz,
  oneDecimal,
  plusMinus,
  signedDb,
  sizeDb,
  sureWords,
  temperature,
} from '../words/numbers.ts';
import type { Block, Cell } from './document.ts';
import type { Place, ReportFrame, ReportSetUp } from './material.ts';

const rangeWords: Readonly<Record<RangeVerdict, string>> = {
  pass: 'in order',
  undecided: 'undecided',
  fail: 'out of its limits',
};

/** A step's values by their names' units. */
function valueWords(name: string, value: number | string, frame: ReportFrame): string {
  if (typeof value === 'string') return name === 'sweepId' ? '' : value;
  if (name.endsWith('Dbmv')) return level(value, frame.units.levelUnit);
  if (name === 'upDb') return `up ${sizeDb(value)}`;
  if (name === 'downDb') return `down ${sizeDb(value)}`;
  if (name === 'withinDb') return `within ${sizeDb(value)}`;
  if (name === 'padDb') return `pad ${value}`;
  if (name.endsWith('Db')) return signedDb(value);
  if (name.endsWith('C')) return temperature(value, frame.units.temperatureUnit);
  if (name.endsWith('S')) return `over ${Math.round(value)}\u00A0s`;
  return String(value);
}

function outcomeCell(at: StepState): Cell {
  switch (at.at) {
    case 'open':
      return { text: 'open' };
    case 'done':
      return { text: at.by === 'reading' ? 'done, by reading' : 'done, by hand' };
    case 'skipped':
      return { text: `skipped: ${at.reason}`, bold: true };
  }
}

const foundCell = (step: SetUpStep, at: StepState, frame: ReportFrame): Cell => ({
  text:
    at.at === 'done'
      ? step.values
          .flatMap(({ name }) => {
            const value = at.values[name];
            return value === undefined ? [] : [valueWords(name, value, frame)];
          })
          .filter((text) => text !== '')
          .join(', ')
      : '',
});

function resultWords(result: SetUpResult): readonly string[] {
  const { reserve, reserveLeftDb, reserveAskedDb, range } = result;
  return [
    reserve !== null
      ? `Reserve ${oneDecimal(reserve.measuredDb)} ${plusMinus(goodToDb(reserve.uDb))}\u00A0dB of ${oneDecimal(reserve.askedDb)}: ${reserve.verdict === 'pass' ? 'good' : reserve.verdict === 'undecided' ? 'undecided' : reserve.side === 'small' ? 'too small' : 'too large'}, ${sureWords(reserve.verdict, reserve.probability)}.`
      : reserveLeftDb === null
        ? 'The reserve was not measured.'
        : `${sizeDb(reserveLeftDb)} of reserve are left; the rule asks for ${oneDecimal(reserveAskedDb)}.`,
    ...(range === null
      ? []
      : [
          `Range ${rangeWords[range.verdict]}: up ${oneDecimal(range.upDb)}, down ${oneDecimal(range.downDb)}, in all ${sizeDb(range.totalDb)}.`,
        ]),
  ];
}

const lastEventAt = (setUp: ReportSetUp, step: SetUpStep): string | null =>
  setUp.events.findLast((event) => event.step === step.id)?.at ?? null;

/**
 * A gain control's set-up as it was done: what it came to, and every step with its outcome.
 * @param setUp  its plan and events
 * @param place  whose clock is printed
 * @source   see `setUpResult`; reserve and range: common practice, no published source
 */
export function setUpSection(setUp: ReportSetUp, place: Place, frame: ReportFrame): readonly Block[] {
  const { plan } = setUp;
  const state: SetUpState = setUpState(plan.kind, setUp.events);
  const result = setUpResult(plan, state, setUp.conditions);
  const facts = [
    plan.kind === 'new-module' ? 'new module' : 'check of the module that is in',
    `top ${mhz(plan.topMhz)}`,
    plan.pilotMhz === null ? 'no pilot' : `pilot ${mhz(plan.pilotMhz)}`,
    ...(plan.ambientC === null ? [] : [temperature(plan.ambientC, frame.units.temperatureUnit)]),
    `begun ${momentWords(setUp.startedAt, place)}`,
  ];
  return [
    { block: 'heading', level: 2, text: 'Gain control set-up' },
    { block: 'paragraph', soft: true, text: `${facts.join(', ')}.` },
    ...(setUp.abandoned === null
      ? []
      : [{ block: 'paragraph', text: `Given up: ${setUp.abandoned}` } as const]),
    ...resultWords(result).map((text) => ({ block: 'paragraph', text }) as const),
    {
      block: 'table',
      caption: 'Its steps',
      columns: [
        { title: 'Step', align: 'start', share: 2.2 },
        { title: 'At', align: 'start', share: 0.8 },
        { title: 'Outcome', align: 'start', share: 2.2 },
        { title: 'Found out', align: 'start', share: 2.2 },
      ],
      rows: state.steps.map(({ step, state: at }, i) => {
        const when = lastEventAt(setUp, step);
        return [
          { text: `${i + 1}. ${step.title}` },
          { text: when === null ? '' : localTime(when, place).clock, soft: true },
          outcomeCell(at),
          foundCell(step, at, frame),
        ];
      }),
    },
    {
      block: 'paragraph',
      soft: true,
      text: `Done by reading: the meter showed it. Done by hand: the technician said so. Reserve, range and their limits: ${PRACTICE_NOTE}.`,
    },
  ];
}
