import { expect, it } from 'vitest';
import { fitSweep } from '../../../core/line/fit-sweep.ts';
import { fitNotes } from '../../../renderer/parts/signal-words.ts';

const fitOf = (levelDbmv: (i: number) => number, modulation: (i: number) => string = () => '256QAM') => {
  const fit = fitSweep(
    Array.from({ length: 40 }, (_, i) => ({
      ...{ frequencyMhz: 57 + 6 * i, levelDbmv: levelDbmv(i), modulation: modulation(i) },
    })),
    {},
  );
  if (!fit.ok) throw new Error(fit.help);
  return fit.value;
};

it('says by how much a kind was moved where no design says its line, and not twice where one does', () => {
  const mixed = fitOf(
    (i) => 10 + i / 20 - (i >= 20 ? 4.7 : 0),
    (i) => (i >= 20 ? '64QAM' : '256QAM'),
  );
  expect(fitNotes(mixed, false)).toEqual([
    '64-QAM is carried 4.7 dB below 256-QAM; usual is 4.0. 20 rows moved by that onto the line of 256-QAM.',
  ]);
  expect(fitNotes(mixed, true)).toEqual([]);
});

it('says of rows that are far off and stay in, judged or not', () => {
  const mostlyEmpty = fitOf((i) => (i % 5 < 3 ? -24 : 36));
  for (const isJudged of [true, false])
    expect(fitNotes(mostlyEmpty, isJudged)).toEqual([expect.stringMatching(/^16 rows of 40 lie more than/)]);
});

it('says nothing of a plain sweep', () =>
  expect(
    fitNotes(
      fitOf((i) => 36 + i / 4),
      false,
    ),
  ).toEqual([]));
