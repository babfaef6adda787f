import { existsSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';
import { chooseRows } from '../../../core/line/choose-rows.ts';
import { fitSweep } from '../../../core/line/fit-sweep.ts';
import { joinSignals } from '../../../core/line/signal-step.ts';

const fitOf = (rows: Parameters<typeof fitSweep>[0], options: Parameters<typeof fitSweep>[1] = {}) => {
  const fit = fitSweep(rows, options);
  if (!fit.ok) throw new Error(fit.code);
  return fit.value;
};
/** 40 channels, 10 dB of tilt over 234 MHz; the upper 15 are 64-QAM, carried stepDb lower. */
const rows = (stepDb: number, ripple = (i: number) => 0.2 * Math.sin(i * i)) =>
  Array.from({ length: 40 }, (_, i) => ({
    frequencyMhz: 57 + 6 * i,
    levelDbmv: 36 + (10 * i) / 39 + ripple(i) - (i >= 25 ? stepDb : 0),
    modulation: i >= 25 ? '64QAM' : '256QAM',
  }));

describe('two QAM orders in one sweep', () => {
  it('are joined by the step that the sweep shows, which is reported and not smeared into the tilt', () => {
    const fit = fitOf(rows(3.1, () => 0));
    expect(fit.tiltDb).toBeCloseTo(10, 9);
    expect(fit.flatnessDb).toBeCloseTo(0, 9);
    expect(fit.findings).toContainEqual({
      ...{ kind: 'signal-step', signal: '64-QAM', reference: '256-QAM', count: 15, usualDb: -4 },
      ...{ stepDb: expect.closeTo(-3.1, 9), standardErrorDb: expect.closeTo(0, 9) },
      text: '64-QAM is carried 3.1 dB below 256-QAM; usual is 4.0. 15 rows moved by that onto the line of 256-QAM.',
    });
    expect(
      fitOf(
        rows(3.1, () => 0),
        { keepAll: true },
      ).tiltDb,
    ).toBeLessThan(8);
  });

  // Another road: parallel lines as a textbook has them, by the normal equations of intercept, slope and a 0/1 column.
  it('agree with least squares of intercept, slope and a step, and with its standard errors', () => {
    const some = rows(4.4);
    const columns = some.map((row, i) => [1, (row.frequencyMhz - 57) / 234, i >= 25 ? 1 : 0]);
    // Beside the levels a one in each line in turn, so that the inverse comes out with the answer.
    const normal = [0, 1, 2].map((a) => [
      ...[0, 1, 2].map((b) => columns.reduce((sum, c) => sum + (c[a] ?? 0) * (c[b] ?? 0), 0)),
      columns.reduce((sum, c, i) => sum + (c[a] ?? 0) * (some[i]?.levelDbmv ?? 0), 0),
      ...[0, 1, 2].map((b) => (a === b ? 1 : 0)),
    ]);
    for (let at = 0; at < 3; at++)
      for (let i = 0; i < 3; i++) {
        if (i === at) continue;
        const share = (normal[i]?.[at] ?? 0) / (normal[at]?.[at] ?? 1);
        normal[i] = (normal[i] ?? []).map((value, j) => value - share * (normal[at]?.[j] ?? 0));
      }
    const [low = 0, tilt = 0, step = 0] = normal.map((line, i) => (line[3] ?? 0) / (line[i] ?? 1));
    const fit = fitOf(some);
    expect(fit.lowDbmv).toBeCloseTo(low, 9);
    expect(fit.tiltDb).toBeCloseTo(tilt, 9);
    // Draper and Smith, 2.6: the covariance is s^2 times the inverse, s^2 with n - 3 degrees of freedom.
    const inverse = normal.map((line, i) => [4, 5, 6].map((j) => (line[j] ?? 0) / (line[i] ?? 1)));
    const squares = some.reduce(
      (sum, row, i) =>
        sum + (row.levelDbmv - low - tilt * (columns[i]?.[1] ?? 0) - step * (columns[i]?.[2] ?? 0)) ** 2,
      0,
    );
    const errorOf = (at: number) => Math.sqrt((squares / (some.length - 3)) * (inverse[at]?.[at] ?? 0));
    expect(fit.findings.find(({ kind }) => kind === 'signal-step')).toMatchObject({
      stepDb: expect.closeTo(step, 9),
      standardErrorDb: expect.closeTo(errorOf(2), 9),
    });
    expect(fit.standardErrors?.lowDb).toBeCloseTo(errorOf(0), 9);
    expect(fit.standardErrors?.tiltDb).toBeCloseTo(errorOf(1), 9);
    // The step has to be told from the tilt, which leaves more open than one kind alone would.
    expect(errorOf(1)).toBeGreaterThan(
      1.5 * (fitOf(rows(0).map((row) => ({ ...row, modulation: '' }))).standardErrors?.tiltDb ?? 0),
    );
  });

  it('keep the usual step where there are too few rows, or it can not be told from the tilt', () => {
    const few = rows(7).slice(0, 27);
    expect(fitOf(few).findings.find(({ kind }) => kind === 'signal-step')).toMatchObject({
      ...{ stepDb: -4, standardErrorDb: null, count: 2 },
      text: expect.stringContaining('the usual 4.0 dB taken'),
    });
    const twoPlaces = [...rows(3)].map((row, i) => ({ ...row, frequencyMhz: i >= 25 ? 400 : 100 }));
    expect(fitOf(twoPlaces).findings.find(({ kind }) => kind === 'signal-step')).toMatchObject({
      standardErrorDb: null,
    });
  });
});

it('leaves plain sweeps as they are, to the last digit', () => {
  const plain = rows(0).map(({ frequencyMhz, levelDbmv }) => ({ frequencyMhz, levelDbmv }));
  const asQam = plain.map((row) => ({ ...row, kind: 'qam' as const, modulation: '256QAM' }));
  expect(fitOf(asQam)).toEqual(fitOf(plain));
  expect(fitOf(plain).findings).toEqual([]);
});

it('with a line-up takes its offsets instead, and says so', () => {
  const lineUp = rows(0).map(({ frequencyMhz }, i) => ({
    ...{ channelLabel: `${i}`, frequencyMhz, kind: 'qam' as const, widthMhz: 6 },
    offsetDb: i >= 25 ? -9 : -6,
  }));
  const fit = fitOf(
    rows(3, () => 0),
    { lineUp },
  );
  expect(fit.lowDbmv).toBeCloseTo(42, 9);
  expect(fit.tiltDb).toBeCloseTo(10, 9);
  expect(fit.findings.map(({ kind }) => kind)).toEqual(['signals-moved', 'signals-moved']);
});

it('returns as many levels as it was given rows', () => {
  const { used, signals } = chooseRows(rows(3), {});
  if (signals === null) throw new Error('no signals');
  expect(joinSignals(used, signals, {}).levelDbmv).toHaveLength(used.length);
});

// A real table with two QAM orders; it stays outside the project, so this runs only where it lies beside it.
const real = resolve(import.meta.dirname, '../../../../shared/real-levels/057.csv');
it.skipIf(!existsSync(real))('a real table of two QAM orders is split, and its step reported', () => {
  const sweep = readSweepCsv(readFileSync(real, 'utf8').replace(/^151-324.*$/m, ''), '057.csv');
  if (!sweep.ok) throw new Error(sweep.help);
  const step = fitOf(sweep.value.rows).findings.find(({ kind }) => kind === 'signal-step');
  expect(step).toMatchObject({ signal: '256-QAM', reference: '64-QAM', count: 14 });
  expect(step?.text).toMatch(/256-QAM is carried \d\.\d dB above 64-QAM; usual is 4\.0/);
});
