import fc from 'fast-check';
import { expect, it } from 'vitest';
import { AnswerLine } from '../../../core/files/answer-grammar.ts';
import { checksumOf, matchAnswer } from '../../../core/meters/match-answer.ts';

const level = AnswerLine.parse([
  { is: 'number', name: 'mhz', kind: 'decimal' },
  { is: 'text', text: ' ' },
  { is: 'number', name: 'level', kind: 'any', none: ['none'] },
  { is: 'text', text: ' ' },
  { is: 'one-of', name: 'unit', choices: ['dBmV', 'dBuV', 'dB'] },
  { is: 'text', text: ' OK' },
]);
const error = AnswerLine.parse([
  { is: 'number', name: 'errorCode', kind: 'integer' },
  { is: 'maybe', text: ' ' },
  { is: 'text', text: ',' },
  { is: 'quoted', name: 'errorText' },
]);
const read = (line: string) => matchAnswer([level, error], line);

it('gives what each part says', () => {
  expect(read('711.250 -12.34 dBmV OK')).toEqual({ mhz: '711.250', level: '-12.34', unit: 'dBmV' });
  expect(read('711.250 none dbuv OK')).toEqual({ mhz: '711.250', level: '', unit: 'dBuV' });
  expect(read('-113 ,"Undefined ""header"""')).toEqual({
    errorCode: '-113',
    errorText: 'Undefined "header"',
  });
});

// The three forms of IEEE 488.2, 8.7.2 to 8.7.4: NR1, NR2, NR3.
it.each(['7', '+7', '-7', '7.0', '.7', '7.', '7E1', '7.0e+1', '-.7E-12'])('takes %s for a number', (text) =>
  expect(read(`1 ${text} dBmV OK`)?.level).toBe(text),
);
it.each(['', '-', '+', '.', '7E', '7E+', '1,5', '0x7', 'NaN', 'Infinity', '7 7', '--7', '7..0', 'non'])(
  'takes "%s" for none',
  (text) => expect(read(`1 ${text} dBmV OK`)).toBeNull(),
);

it('reads whole lines only, at every cut at either end and with every byte more', () => {
  const whole = '711.250 -12.34 dBmV OK';
  for (let cut = 1; cut < whole.length; cut += 1) {
    expect(read(whole.slice(0, cut)), whole.slice(0, cut)).toBeNull();
    const rest = read(whole.slice(cut));
    // What is left of the frequency is another frequency; more can't be told from the line alone.
    if (rest !== null) expect(Number(rest.mhz)).not.toBe(711.25);
    for (const byte of ['x', ' ', '\0', '\r', '\x80', '\xff'])
      expect(read(`${whole.slice(0, cut)}${byte}${whole.slice(cut)}`)?.level ?? '-12.34').toBe('-12.34');
  }
});

it('holds a line against its checksum: no change of one character goes through', () => {
  const checked = AnswerLine.parse([
    { is: 'words', name: 'said', without: '*' },
    { is: 'text', text: ' *' },
    { is: 'checksum' },
  ]);
  const body = '711.250 -12.34 dBmV OK *';
  const whole = `${body}${checksumOf(body)}`;
  expect(matchAnswer([checked], whole)).toEqual({ said: '711.250 -12.34 dBmV OK' });
  for (let at = 0; at < whole.length; at += 1)
    for (let code = 32; code < 127; code += 1) {
      const other = String.fromCharCode(code);
      if (other.toUpperCase() === whole[at]?.toUpperCase()) continue;
      expect(matchAnswer([checked], whole.slice(0, at) + other + whole.slice(at + 1))).toBeNull();
    }
});

// Worked by hand: 0x41 xor 0x42 = 0x03.
it('has the checksum of AB', () => expect(checksumOf('AB')).toBe('03'));

it('takes real days only', () => {
  const day = AnswerLine.parse([{ is: 'date', name: 'calibratedOn' }]);
  expect(matchAnswer([day], '2026-02-28')).toEqual({ calibratedOn: '2026-02-28' });
  for (const text of ['2026-02-30', '2026-13-01', '26-02-01', '2026-2-1', '2026-02-28 '])
    expect(matchAnswer([day], text)).toBeNull();
});

it('needs a time that grows with the length of the line alone', () => {
  const parts = AnswerLine.parse([
    ...Array.from({ length: 12 }, (_, i) => [
      { is: 'words', name: `w${i}` },
      { is: 'text', text: 'a' },
    ]).flat(),
    { is: 'text', text: 'end' },
  ]);
  const line = 'a'.repeat(400_000);
  const before = performance.now();
  expect(matchAnswer([parts], line)).toBeNull();
  expect(performance.now() - before).toBeLessThan(1000);
});

it('throws at nothing, and gives only what a line of the grammar can say', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (line) => {
      const fields = read(line);
      if (fields?.level !== undefined && fields.level !== '')
        expect(Number.isFinite(Number(fields.level))).toBe(true);
    }),
    { seed: 5, numRuns: 5000 },
  );
});
