import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readMeterProfile } from '../../../core/files/meter-profile.ts';

const shipped = (name: string): Record<string, unknown> =>
  JSON.parse(readFileSync(`electron/backend/meters/profiles/${name}.json`, 'utf8'));
const read = (changed: Record<string, unknown>, name = 'line') =>
  readMeterProfile(JSON.stringify({ ...shipped(name), ...changed }), 'mine.json');
const answer = (...parts: object[]) => ({ ask: 'READ {mhz}', answers: [parts], timeoutMs: 500 });
const number = (name: string) => ({ is: 'number', name, kind: 'any' });

it('reads the shortest profile, and gives it the usual line settings', () => {
  const least = {
    format: 'tiltwright-meter/1',
    name: 'mine',
    title: 'Mine',
    identify: { ask: 'ID?', answers: [[{ is: 'words', name: 'model' }]], timeoutMs: 500 },
    unit: { always: 'DBMV' },
    level: answer(number('level')),
  };
  const profile = readMeterProfile(`\uFEFF${JSON.stringify(least)}`, 'mine.json');
  if (!profile.ok) throw new Error(profile.help);
  expect(profile.value).toMatchObject({
    serial: { baudRate: 9600, dataBits: 8, parity: 'none', stopBits: 1, flowControl: 'none' },
    lines: { terminator: '\n', longestLine: 4096 },
    impedanceOhm: 75,
    trace: null,
    errorQueue: null,
  });
});

it.each([
  ['an unknown key', { colour: 'red' }, /mine\.json$/, /"colour"/],
  ['an unknown key inside', { serial: { bautRate: 9600 } }, /serial/, /"bautRate"/],
  ['another format', { format: 'x' }, /format/, /./],
  ['a name with blanks', { name: 'My meter' }, /name/, /hyphens/],
  ['a line end in a question', { wake: ['*CLS\n'] }, /wake\.0/, /control character/],
  [
    'a place that stands for nothing',
    { level: { ...answer(number('level')), ask: 'READ {mhx}' } },
    /level\.ask/,
    /\{mhx\}/,
  ],
  ['a level answer without a level', { level: answer(number('power')) }, /level\.answers\.0/, /"level"/],
  [
    'two numbers in a row',
    { level: answer(number('hz'), number('level')) },
    /answers\.0\.1/,
    /not be certain/,
  ],
  [
    'words in front of a number',
    { level: answer({ is: 'words', name: 'w' }, number('level')) },
    /answers\.0\.1/,
    /not be certain/,
  ],
  [
    'a number in front of a digit',
    { level: answer(number('level'), { is: 'text', text: '0' }) },
    /answers\.0\.1/,
    /not be certain/,
  ],
  [
    'one name twice',
    { level: answer(number('level'), { is: 'text', text: ' ' }, number('level')) },
    /answers\.0\.2\.name/,
    /twice/,
  ],
  [
    'a regular expression',
    { level: { ask: 'R', answers: [[{ is: 'pattern', pattern: '(a+)+$' }]], timeoutMs: 500 } },
    /level\.answers/,
    /./,
  ],
  ['neither level nor trace', { level: null }, /level/, /one of the two/],
  ['a limit upside down', { limits: { lowestMhz: 900, highestMhz: 5 } }, /limits/, /exceed/],
  ['a unit that it can not convert', { unit: { always: 'W' } }, /unit/, /./],
  ['a wish without a question', { unit: { wish: 'UNIT DBMV' } }, /unit\.confirm/, /./],
])('refuses %s, and names the key', (_what, changed, where, help) => {
  const refused = read(changed);
  if (refused.ok) throw new Error('it was taken');
  expect(refused.where).toMatch(where);
  expect(refused.help).toMatch(help);
});

it('refuses what is no JSON, and says how a profile begins', () => {
  expect(readMeterProfile('{', 'mine.json')).toMatchObject({
    ok: false,
    code: 'not-json',
    where: 'mine.json',
  });
});

it('refuses a trace of more points than it has at least', () => {
  const trace = { ...(shipped('scpi-trace').trace as object), leastPoints: 500, mostPoints: 100 };
  expect(read({ trace }, 'scpi-trace')).toMatchObject({ ok: false, where: 'mine.json, trace.leastPoints' });
});
