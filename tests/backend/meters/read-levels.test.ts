import { expect, it } from 'vitest';
import { readMeterProfile } from '../../../core/files/meter-profile.ts';
import { createLineLink } from '../../../electron/backend/meters/lines-over-bytes.ts';
import { type Ready, readLevels } from '../../../electron/backend/meters/read-levels.ts';
import { scriptedWire } from '../../support/scripted-wire.ts';

const written = {
  format: 'tiltwright-meter/1',
  name: 'two-lines',
  title: 'Two lines',
  identify: { ask: 'WHO', answers: [[{ is: 'words', name: 'model' }]], timeoutMs: 500 },
  unit: { always: 'DBMV' },
  prepare: ['P1', 'P2'],
  tune: { say: 'F {khz} {hz} {mhz}', settleMs: 40 },
  level: { ask: 'L', answers: [[{ is: 'number', name: 'level', kind: 'decimal' }]], timeoutMs: 500 },
  pauseMs: 70,
};

/** A meter that is tuned in a line of its own, and everything that was said, answered and rested, in order. */
function bench(over: object = {}) {
  const profile = readMeterProfile(JSON.stringify({ ...written, ...over }), 'two-lines.json');
  if (!profile.ok) throw new Error(`${profile.where}: ${profile.help}`);
  const happened: string[] = [];
  const wire = scriptedWire((line, { send }) => {
    happened.push(line);
    if (line === 'L') send('1.5\n');
  });
  const link = createLineLink('COM3', profile.value.lines, wire.start);
  const ready: Ready = {
    talk: {
      link,
      where: 'COM3',
      signal: new AbortController().signal,
      rest: async (ms) => void happened.push(`rest ${ms}`),
    },
    profile: profile.value,
    unit: 'DBMV',
    now: () => new Date(0),
  };
  return { ready, happened };
}

it('prepares once, then tunes, lets it settle, reads, and rests before the next: in the pace of the profile', async () => {
  const { ready, happened } = bench();
  const levels: (number | null)[] = [];
  for await (const { meterDbmv } of readLevels(ready, [57, 711.25])) levels.push(meterDbmv);
  expect(levels).toEqual([1.5, 1.5]);
  expect(happened).toEqual([
    'P1',
    'P2',
    'F 57000 57000000 57.000',
    'rest 40',
    'L',
    'rest 70',
    'F 711250 711250000 711.250',
    'rest 40',
    'L',
  ]);
});

it('settles and rests for each of the readings that make one', async () => {
  const { ready, happened } = bench({ prepare: [] });
  for await (const _ of readLevels(ready, [57], { repeats: 2, recheck: false })) happened.push('one level');
  const settled = ['F 57000 57000000 57.000', 'rest 40', 'L'];
  expect(happened).toEqual([...settled, 'rest 70', ...settled, 'one level']);
});

it('rests nowhere and tunes in no line of its own where the profile says nothing of it', async () => {
  const { ready, happened } = bench({ prepare: [], tune: null, pauseMs: 0 });
  for await (const _ of readLevels(ready, [57, 63]));
  expect(happened).toEqual(['L', 'L']);
});

it('asks nothing of a frequency that the meter can not tune to', async () => {
  const { ready, happened } = bench({ limits: { lowestMhz: 54, highestMhz: 870 } });
  const reading = readLevels(ready, [871]).next();
  await expect(reading).rejects.toMatchObject({
    code: 'meter-error',
    help: expect.stringContaining('reads from 54 to 870 MHz'),
  });
  expect(happened).toEqual(['P1', 'P2']);
});
