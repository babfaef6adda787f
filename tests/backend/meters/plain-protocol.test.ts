import { expect, it } from 'vitest';
import { matchAnswer } from '../../../core/meters/match-answer.ts';
import { knownProfiles } from '../../../electron/backend/meters/known-profiles.ts';
import { aboutFrequency } from '../../../electron/backend/meters/placeholders.ts';
import { errorHelp, type Question } from '../../../electron/backend/meters/profile.ts';
import { LineInstrument } from '../../../electron/backend/meters/simulated/line-instrument.ts';
import { textOf } from '../../support/source-files.ts';

/** What the README promises to whoever makes a meter that speaks the plain line protocol. */
const chapter =
  /## A meter of your own: the plain line protocol\n([\s\S]*?)\n## /.exec(textOf('README.md'))?.[1] ?? '';
const oneLine = chapter.replaceAll('\n', ' ');
const ANY = 'any but `ID?`';
const NOTHING = '(an empty line)';
/** The table's rows: what is asked, and every answer that the row names. */
const rows = [...chapter.matchAll(/^\| (.+?) \| (.+?) \| .+ \|$/gm)]
  .slice(2)
  .map(([, asked = '', answered = '']) => ({
    asked: /^`([^`]+)`$/.exec(asked)?.[1] ?? asked,
    answers: [...answered.matchAll(/`([^`]+)`/g)].map(([, answer = '']) => answer),
  }));
const profileNamed = (name: string) => {
  const profile = knownProfiles.find((known) => known.name === name);
  if (profile === undefined) throw new Error(name);
  return profile;
};
const line = profileNamed('line');
const checked = profileNamed('line-checked');

/** The question of a profile that is put in these words. */
function questionPutAs(profile: typeof line, asked: string): Question | null {
  const hz = Math.round(Number(/([\d.]+)$/.exec(asked)?.[1] ?? 0) * 1e6);
  const questions = [profile.identify, profile.calibration, profile.level];
  return questions.find((one) => one != null && aboutFrequency(one.ask, hz) === asked) ?? null;
}

it.each(rows.filter(({ asked }) => asked !== ANY && asked !== NOTHING))(
  'is put and read by the program as the README says: $asked',
  ({ asked, answers }) => {
    const question = questionPutAs(line, asked);
    expect(question).not.toBeNull();
    expect(answers.length).toBeGreaterThan(0);
    for (const answer of answers) {
      expect([answer, matchAnswer(question?.answers ?? [], answer)]).not.toContain(null);
      // A level and a day say where they end, so that half of one is no answer; a name does not.
      if (!answer.startsWith('ID '))
        expect(matchAnswer(question?.answers ?? [], answer.slice(0, -1))).toBeNull();
    }
  },
);

it('has a row for every question of the profile, and the wake-up line', () => {
  const asked = new Set(rows.map((row) => row.asked));
  expect(asked).toEqual(new Set([NOTHING, 'ID?', 'CAL?', 'READ 711.250', ANY]));
  expect(line.wake).toEqual(['']);
  expect(chapter).toContain('| (an empty line) | nothing |');
  expect([line.tune, line.trace, line.errorQueue, line.prepare]).toEqual([null, null, null, []]);
});

it('says what is understood of an answer: the fields of the table', () => {
  const read = (text: string) => matchAnswer(line.level?.answers ?? [], text);
  expect(read('711.250 -12.34 dBmV OK')).toMatchObject({ mhz: '711.250', level: '-12.34', unit: 'dBmV' });
  expect(read('711.250 none dBmV OK')).toMatchObject({ mhz: '711.250', level: '' });
  expect(matchAnswer(line.calibration?.answers ?? [], 'CAL 2026-01-15 OK')).toEqual({
    calibratedOn: '2026-01-15',
  });
  expect(matchAnswer(line.identify.answers, 'ID Harbour Works,Level adapter,0017,1.2')).toEqual({
    maker: 'Harbour Works',
    model: 'Level adapter',
    serialNumber: '0017',
    firmware: '1.2',
  });
});

it('takes an error in the place of any answer but a name, and has words for the four codes of the table', () => {
  const [error = ''] = rows.find(({ asked }) => asked === ANY)?.answers ?? [];
  for (const question of [line.level, line.calibration])
    expect(matchAnswer(question?.answers ?? [], error)).toEqual({
      errorCode: '2',
      errorText: 'out of range',
    });
  const unknown = errorHelp(line, 10);
  for (const code of [1, 2, 3, 4]) expect(errorHelp(line, code)).not.toBe(unknown);
  expect(chapter).toContain('1 unknown command, 2 out of range, 3 overload, 4 no fresh reading');
});

it('opens the port as the README says, and waits as long', () => {
  for (const profile of [line, checked]) {
    expect(profile.serial).toMatchObject({
      baudRate: 115_200,
      dataBits: 8,
      parity: 'none',
      stopBits: 1,
      flowControl: 'none',
    });
    expect(profile.limits.tuneWithinMhz).toBe(0.05);
    expect(profile.level?.timeoutMs).toBe(3000);
  }
  for (const words of [
    '115200 baud, 8 bits, no parity, 1 stop bit, no flow control',
    'within 0.05 MHz of what was asked',
    'may take up to three seconds',
  ])
    expect(oneLine).toContain(words);
});

it('is what the simulated meter speaks that the README names', () => {
  const meter = new LineInstrument({
    source: (mhz) => (mhz > 800 ? null : -12.34),
    calibratedOn: '2026-01-15',
  });
  expect(meter.take('').answer).toBeNull();
  expect(meter.take('READ 711.250').answer).toBe('711.250 -12.34 dBmV OK');
  expect(meter.take('READ 867.000').answer).toBe('867.000 none dBmV OK');
  expect(meter.take('CAL?').answer).toBe('CAL 2026-01-15 OK');
  expect(new LineInstrument({ source: () => 0 }).take('CAL?').answer).toBe('CAL none OK');
  expect(meter.take('READ 5000.000').answer).toBe('ERR 2 out of range');
  expect(meter.take('HELLO').answer).toMatch(/^ERR 1 /);
});

it('checks as the README shows it: the questions, and the sum of its example', () => {
  const questions = /`(ID\?!)`, `(CAL\?!)`, `(READ! 711\.250)`/.exec(oneLine)?.slice(1) ?? [];
  expect(questions).toHaveLength(3);
  for (const asked of questions) expect(questionPutAs(checked, asked)).not.toBeNull();
  const [, asked = '', answer = ''] = /`(READ! [\d.]+)` is answered with `([^`]+)`/.exec(oneLine) ?? [];
  expect(new LineInstrument({ source: () => 0.57 }).take(asked).answer).toBe(answer);
  expect(matchAnswer(checked.level?.answers ?? [], answer)).toMatchObject({ mhz: '57.000', level: '0.57' });
  expect(matchAnswer(checked.level?.answers ?? [], answer.replace('0.57', '0.58'))).toBeNull();
});
