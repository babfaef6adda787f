import { matchAnswer } from '../../core/meters/match-answer.ts';
import { readTraceList } from '../../core/meters/trace-list.ts';
import { knownProfiles } from '../../electron/backend/meters/known-profiles.ts';
import { createLineSplitter } from '../../electron/backend/meters/lines.ts';
import { aboutFrequency, aboutSpan } from '../../electron/backend/meters/placeholders.ts';
import type { Profile, Question } from '../../electron/backend/meters/profile.ts';
import { SimulatedInstrument } from '../../electron/backend/meters/simulated/instrument.ts';
import { LineInstrument } from '../../electron/backend/meters/simulated/line-instrument.ts';
import { answersBy } from './answer-pattern.ts';
import { blockFormats, fuzzBlock } from './fuzz-blocks.ts';

const span = { startHz: 57e6, stopHz: 75e6, points: 4 };
const listPattern = /^(?:\s*[+-]?(?:\d+\.?\d*|\.\d+)(?:[Ee][+-]?\d+)?\s*(?:,(?!$)|$)){4}$/;

type Target = Readonly<{
  name: string;
  /** What a healthy meter answers. */
  good: readonly string[];
  accepts: (line: string) => boolean;
  allowed: (line: string) => boolean;
}>;

/** Every question of a profile, with what a healthy meter answers, our reading of it, and the other one. */
function targetsOf(profile: Profile): readonly Target[] {
  const scpi = new SimulatedInstrument({ source: (mhz) => (mhz > 800 ? null : mhz / 100 - 5) });
  const line = new LineInstrument({
    source: (mhz) => (mhz > 800 ? null : mhz / 100 - 5),
    calibratedOn: '2026-01-15',
  });
  const meter = profile.name.startsWith('scpi') ? scpi : line;
  for (const said of [...profile.wake, ...profile.prepare]) meter.take(said);
  const answer = (said: string) => meter.take(said).answer ?? '';
  const questions: [string, Question | null | undefined, string[]][] = [
    ['identify', profile.identify, [profile.identify.ask]],
    ['calibration', profile.calibration, [profile.calibration?.ask ?? '']],
    ['unit', 'confirm' in profile.unit ? profile.unit.confirm : null, ['UNIT:POW?']],
    ['error queue', profile.errorQueue?.next, ['SYST:ERR?', 'NO:SUCH', 'SYST:ERR?']],
    [
      'level',
      profile.level,
      [57e6, 711.25e6, 867e6, 4000e6].map((hz) => aboutFrequency(profile.level?.ask ?? '', hz)),
    ],
    ['trace', profile.trace?.set, [aboutSpan(profile.trace?.set.ask ?? '', span)]],
  ];
  const targets: Target[] = [];
  for (const [what, question, asked] of questions) {
    if (question === null || question === undefined) continue;
    const good = asked.map(answer).filter((text) => text !== '');
    targets.push({
      name: `${profile.name}, ${what}`,
      good,
      accepts: (text) => matchAnswer(question.answers, text) !== null,
      allowed: answersBy(question.answers),
    });
  }
  if (profile.trace?.read.format.kind === 'ascii') {
    targets.push({
      name: `${profile.name}, points`,
      good: [answer(profile.trace.read.ask)],
      accepts: (text) => readTraceList(text, ',', span.points).ok,
      allowed: (text) =>
        listPattern.test(text) && text.split(',').every((cell) => Number.isFinite(Number(cell))),
    });
  }
  return targets;
}

export const fuzzTargets: readonly Target[] = knownProfiles.flatMap(targetsOf);

/** A line that is nearly an answer, or none at all. */
function mutated(target: Target, chance: () => number): string {
  const pick = <T>(list: readonly T[]): T | undefined => list[Math.floor(chance() * list.length)];
  const byte = () => String.fromCharCode(Math.floor(chance() * 256));
  let line = chance() < 0.06 ? '' : (pick(target.good) ?? '');
  if (line === '') return Array.from({ length: Math.floor(chance() * 60) }, byte).join('');
  for (let left = Math.floor(chance() * 4); left > 0; left -= 1) {
    const at = Math.floor(chance() * line.length);
    const how = Math.floor(chance() * 8);
    const one = chance() < 0.5 ? (pick([...'0123456789.,;+-eE "*OKdBmV#']) ?? '') : byte();
    if (how === 0) line = line.slice(0, at);
    else if (how === 1) line = line.slice(at);
    else if (how === 2) line = line.slice(0, at) + one + line.slice(at + 1);
    else if (how === 3) line = line.slice(0, at) + one + line.slice(at);
    else if (how === 4) line = line.slice(0, at) + line.slice(at + 1);
    else if (how === 5) line = line.slice(0, at) + (pick(target.good) ?? '');
    else if (how === 6) line = (pick(fuzzTargets) ?? target).good[0] ?? line;
    else line += line.slice(at);
  }
  return line;
}

export type FuzzFigures = { lines: number; accepted: number; wrong: string[] };

/** Questions that are answered by a line, and number formats of a block. */
export const fuzzPlaces = fuzzTargets.length + blockFormats.length;

const placesOf = (profileName: string): number =>
  fuzzTargets.filter(({ name }) => name.startsWith(`${profileName}, `)).length +
  blockFormats.filter(({ name }) => name === profileName).length;
const fewestPlaces = Math.min(...knownProfiles.map(({ name }) => placesOf(name)));
/** So many lines in all give every profile at least so many of its own. */
export const linesForEach = (lineCount: number): number => Math.ceil(lineCount / fewestPlaces) * fuzzPlaces;

/**
 * Sends lines through the splitter, in pieces, to every question of every profile, and blocks through their collector, and
 * holds what is accepted against the grammar read in another way.
 */
export function fuzz(
  lineCount: number,
  chance: () => number,
  each: (figures: FuzzFigures) => void = () => undefined,
): FuzzFigures {
  const figures: FuzzFigures = { lines: 0, accepted: 0, wrong: [] };
  const splitters = fuzzTargets.map(() => createLineSplitter(false));
  for (let i = 0; figures.lines < lineCount; i += 1) {
    const place = i % fuzzPlaces;
    const format = blockFormats[place - fuzzTargets.length];
    if (format !== undefined) {
      const { accepted, wrong } = fuzzBlock(format, chance);
      figures.lines += 1;
      if (accepted) figures.accepted += 1;
      if (wrong !== null && figures.wrong.length < 20) figures.wrong.push(wrong);
      continue;
    }
    const target = fuzzTargets[place];
    const splitter = splitters[place];
    if (target === undefined || splitter === undefined) throw new Error('no target');
    const bytes = Buffer.from(`${mutated(target, chance)}\n`, 'latin1');
    const cut = Math.floor(chance() * bytes.length);
    const lines = [
      ...splitter.push(bytes.subarray(0, cut)).lines,
      ...splitter.push(bytes.subarray(cut)).lines,
    ];
    for (const line of lines) {
      figures.lines += 1;
      const accepts = target.accepts(line);
      if (accepts) figures.accepted += 1;
      if (accepts !== target.allowed(line) && figures.wrong.length < 20)
        figures.wrong.push(`${target.name}: ${accepts ? 'accepted' : 'refused'} ${JSON.stringify(line)}`);
    }
    if (i % 50_000 === 0) each(figures);
  }
  return figures;
}
