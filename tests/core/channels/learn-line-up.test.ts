import fc from 'fast-check';
import { expect, it } from 'vitest';
import { learnLineUp } from '../../../core/channels/learn-line-up.ts';
import { channelsOf, PLAN_NAMES } from '../../../core/channels/plans.ts';
import type { LevelRow } from '../../../core/line/level-row.ts';
import { anyNumber } from '../../support/any-number.ts';

const learned = (...args: Parameters<typeof learnLineUp>) => {
  const told = learnLineUp(...args);
  if (!told.ok) throw new Error(told.help);
  return told.value;
};
const row = (frequencyMhz: number, more: Partial<LevelRow> = {}): LevelRow => ({
  frequencyMhz,
  levelDbmv: 30,
  ...more,
});

// Common practice, no published source; worked by hand on the STD plan.
it('learns a mixed line-up and has no doubt where the sweep says everything', () => {
  const { plan, entries, uncertain, leftOut } = learned(
    [
      row(69, { kind: 'qam', modulation: '64-QAM' }),
      row(55.25, { kind: 'analog' }),
      row(63, { kind: 'qam', modulation: 'QAM256' }),
      row(121.2625, { kind: 'analog', label: 'news' }),
      row(75, { kind: 'cw', label: 'pilot' }),
    ],
    'std',
  );
  expect(plan).toBe('std');
  expect(entries).toEqual([
    { channelLabel: '2', frequencyMhz: 55.25, kind: 'analog', widthMhz: 6, offsetDb: 0 },
    { channelLabel: '3', frequencyMhz: 63, kind: 'qam', qamOrder: 256, widthMhz: 6, offsetDb: -6 },
    { channelLabel: '4', frequencyMhz: 69, kind: 'qam', qamOrder: 64, widthMhz: 6, offsetDb: -10 },
    { channelLabel: 'pilot', frequencyMhz: 75, kind: 'cw', widthMhz: 0, offsetDb: 0 },
    { channelLabel: 'news', frequencyMhz: 121.2625, kind: 'analog', widthMhz: 6, offsetDb: 0 },
  ]);
  expect(uncertain).toEqual([]);
  expect(leftOut).toEqual([]);
});

it('takes every channel of a plan that is told, without a doubt about the plan', () => {
  for (const plan of PLAN_NAMES) {
    const rows = channelsOf(plan).map(({ centerMhz }) => row(centerMhz, { kind: 'qam', modulation: '256' }));
    const { entries, uncertain } = learned(rows, plan);
    expect(entries.map(({ channelLabel }) => channelLabel).sort()).toEqual(
      channelsOf(plan)
        .map(({ label }) => label)
        .sort(),
    );
    expect(uncertain).toEqual([]);
  }
});

it('says what it had to take for granted', () => {
  const { entries, uncertain } = learned([row(57), row(61.25), row(69, { kind: 'qam' }), row(73.7)]);
  expect(entries.map(({ kind, offsetDb }) => [kind, offsetDb])).toEqual([
    ['qam', -6],
    ['analog', 0],
    ['qam', -6],
    ['cw', 0],
  ]);
  const doubts = (mhz: number | null) =>
    uncertain.filter(({ frequencyMhz }) => frequencyMhz === mhz).map(({ why }) => why);
  expect(doubts(57)).toEqual([
    expect.stringContaining('kind not told'),
    expect.stringContaining('unknown order'),
  ]);
  expect(doubts(61.25)).toEqual([expect.stringContaining('taken as analog')]);
  expect(doubts(69)).toEqual([expect.stringContaining('unknown order')]);
  expect(doubts(73.7)).toEqual([expect.stringContaining('taken as a tone')]);
  expect(doubts(null).join()).toContain('3 of 4');
});

it('doubts a kind read at the wrong place, a label that is another channel, an order without a usual offset', () => {
  const { uncertain } = learned(
    [
      row(57, { kind: 'analog' }),
      row(63, { kind: 'qam', modulation: '128-QAM' }),
      row(69, { kind: 'qam', modulation: '64', label: '5' }),
    ],
    'std',
  );
  expect(uncertain.map(({ why }) => why)).toEqual([
    expect.stringContaining('analog, but read at the middle'),
    expect.stringContaining('128-QAM'),
    expect.stringContaining('called 5, but channel 4'),
    expect.stringContaining('both take'),
  ]);
});

it('takes OFDM in bands of 6 MHz, each with its level as read', () => {
  const { entries } = learned([672, 678, 684].map((mhz) => row(mhz, { kind: 'ofdm', modulation: 'OFDM' })));
  expect(entries.map(({ widthMhz, offsetDb }) => [widthMhz, offsetDb])).toEqual([
    [6, -6],
    [6, -6],
    [6, -6],
  ]);
});

it('names every row that makes no entry', () => {
  const { entries, leftOut } = learned([
    row(55.25, { kind: 'analog' }),
    row(55.25, { kind: 'analog' }),
    row(61.25, { unlocked: true }),
    { frequencyMhz: 67.25, levelDbmv: null },
    { frequencyMhz: null, levelDbmv: 3 },
  ]);
  expect(entries).toHaveLength(1);
  expect(leftOut.map(({ reason }) => reason)).toEqual([
    'this frequency was read before',
    expect.stringContaining('not locked'),
    expect.stringContaining('no level'),
    'no frequency',
  ]);
  expect(learnLineUp([])).toMatchObject({ ok: false, code: 'no-carriers' });
});

it('does not depend on the order of the rows, and lets no number out that is none', () => {
  const anyRow = fc.record({
    frequencyMhz: fc.oneof(anyNumber, fc.integer({ min: 5, max: 1218 })),
    levelDbmv: anyNumber,
  });
  fc.assert(
    fc.property(fc.uniqueArray(anyRow, { maxLength: 12, selector: (one) => one.frequencyMhz }), (rows) => {
      const one = learnLineUp(rows);
      const other = learnLineUp([...rows].reverse());
      if (!one.ok || !other.ok) return one.ok === other.ok;
      expect(other.value.entries).toEqual(one.value.entries);
      return one.value.entries.every((entry) =>
        [entry.frequencyMhz, entry.widthMhz, entry.offsetDb].every(Number.isFinite),
      );
    }),
  );
});
