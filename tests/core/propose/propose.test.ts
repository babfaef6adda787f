import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { installedOf } from '../../../core/files/station.ts';
import { propose } from '../../../core/propose/propose.ts';
import { notFinite } from '../../support/not-finite.ts';
import { byTheWords, everyCombination } from './full-enumeration.ts';
import { rows, station } from './mill-lane.ts';
import { type Task, task } from './random-station.ts';

const proposalFor = ({ station: of, rows: found, inputRows, slackDb }: Task) => {
  const proposal = propose({ rows: found, station: of, inputRows, slackDb, keepAll: true });
  if (!proposal.ok) throw new Error(`${proposal.code}: ${proposal.where}: ${proposal.help}`);
  return proposal.value;
};
const toleranceOf = (of: Task) => of.station.ports[0]?.design?.toleranceDb ?? Number.NaN;

// The reference is every combination, tried row by row as contract section 3 words it (full-enumeration.ts).
describe('against every combination, on random stations', () => {
  it('finds the least worst channel to 1e-9, and recommends by the contract\u2019s rule', () => {
    let limited = 0;
    let missed = 0;
    fc.assert(
      fc.property(task, (one) => {
        const tried = everyCombination(one.rows, one.station, 'output', one.inputRows);
        const words = byTheWords(tried, toleranceOf(one), one.slackDb);
        const proposal = proposalFor(one);
        expect(Math.abs(proposal.best.worstDb - words.bestWorstDb)).toBeLessThan(2e-9);
        expect(proposal.feasible).toBe(words.feasible);
        expect(proposal.best.values).toEqual(words.best.values);
        expect(proposal.recommended.values).toEqual(words.recommended.values);
        expect(proposal.recommended.worstDb).toBeCloseTo(words.recommended.worstDb, 8);
        expect(proposal.recommended.changes).toHaveLength(words.recommended.changes);
        if (!words.feasible) {
          expect(proposal.stageInput?.missDb).toBeCloseTo(words.best.missDb, 8);
          missed++;
        }
        if (proposal.stageInput?.applied === true) limited++;
      }),
      { numRuns: 500 },
    );
    // Were no station limited, or none beyond its limit, the comparison would prove less than it says.
    expect(limited).toBeGreaterThan(50);
    expect(missed).toBeGreaterThan(10);
  }, 60_000);

  it('offers alternatives that are what they say, meet the limit, and are not the recommendation again', () => {
    fc.assert(
      fc.property(task, (one) => {
        const tried = everyCombination(one.rows, one.station, 'output', one.inputRows);
        const proposal = proposalFor(one);
        const seen = [proposal.recommended, ...proposal.alternatives].map(({ values }) =>
          JSON.stringify(values),
        );
        expect(new Set(seen).size).toBe(seen.length);
        expect(proposal.alternatives.length).toBeLessThanOrEqual(5);
        for (const { values, changes, worstDb } of proposal.alternatives) {
          const same = tried.find((other) => JSON.stringify(other.values) === JSON.stringify(values));
          expect(same?.worstDb).toBeCloseTo(worstDb, 8);
          expect(same?.changes).toBe(changes.length);
          expect(same?.missDb).toBeLessThan(1e-8);
          expect(changes.length).toBeGreaterThan(0);
        }
      }),
      { numRuns: 150 },
    );
  }, 60_000);

  it('is as exact when no alternatives are kept', () => {
    fc.assert(
      fc.property(task, ({ slackDb, ...one }) => {
        const request = { ...one, slackDb, keepAll: true };
        const few = propose({ ...request, maxAlternatives: 0 });
        const many = propose({ ...request, maxAlternatives: 20 });
        if (!few.ok || !many.ok) throw new Error('refused');
        expect(few.value).toEqual({ ...many.value, alternatives: [] });
      }),
      { numRuns: 150 },
    );
  });

  it('never leaves a station worse than it is, unless the stage input forbids to stay', () => {
    fc.assert(
      fc.property(task, (one) => {
        const { best, before, recommended, stageInput } = proposalFor(one);
        if (stageInput?.applied === true) return;
        expect(best.worstDb).toBeLessThanOrEqual(before.worstDb + 1e-9);
        const enough = Math.max(toleranceOf(one), best.worstDb + one.slackDb);
        expect(recommended.worstDb).toBeLessThanOrEqual(enough + 2e-9);
      }),
      { numRuns: 150 },
    );
  });

  it('is never worse with a larger kit', () => {
    fc.assert(
      fc.property(task, fc.nat(), fc.integer({ min: 0, max: 24 }), (one, any, halves) => {
        const at = any % one.station.positions.length;
        const positions = one.station.positions.map((position, i) =>
          i === at ? { ...position, values: [...new Set([...position.values, halves / 2])] } : position,
        );
        const before = proposalFor(one);
        const after = proposalFor({ ...one, station: { ...one.station, positions } });
        if (!before.feasible) return;
        expect(after.feasible).toBe(true);
        expect(after.best.worstDb).toBeLessThanOrEqual(before.best.worstDb + 1e-9);
      }),
      { numRuns: 150 },
    );
  });

  it('does not look at the order of the rows', () => {
    fc.assert(
      fc.property(task, fc.boolean(), ({ inputRows, ...one }, keepAll) => {
        const request = { station: one.station, slackDb: one.slackDb, keepAll };
        const forward = propose({ ...request, rows: one.rows, inputRows });
        const backward = propose({
          ...request,
          rows: one.rows.toReversed(),
          inputRows: inputRows?.toReversed(),
        });
        expect(backward).toEqual(forward);
      }),
      { numRuns: 150 },
    );
  });
});

it('is finite or refused, whatever the levels', () => {
  const wild = fc.array(fc.record({ frequencyMhz: fc.double(), levelDbmv: fc.double() }), { maxLength: 12 });
  fc.assert(
    fc.property(wild, wild, fc.boolean(), (some, inputRows, keepAll) => {
      const proposal = propose({ rows: some, station, inputRows, keepAll });
      if (proposal.ok) expect(notFinite(proposal.value)).toEqual([]);
    }),
    { numRuns: 300 },
  );
});

describe('the station of the sketch: 2 dB low at the top', () => {
  const proposal = propose({ rows, station });
  if (!proposal.ok) throw new Error(proposal.code);
  const { before, best, recommended, alternatives, stageInput } = proposal.value;

  it('answers with the keys of the contract', () => {
    for (const choice of [best, recommended, ...alternatives]) {
      expect(Object.keys(choice).sort()).toEqual(['changes', 'fit', 'flatnessDb', 'values', 'worstDb']);
      expect(Object.keys(choice.fit).sort()).toEqual(['highDbmv', 'lowDbmv', 'tiltDb']);
      expect(Object.keys(choice.values)).toEqual(station.positions.map(({ name }) => name));
    }
    expect(proposal.value).toMatchObject({ feasible: true, portName: 'forward output', count: 137 });
  });
  it('brings the worst channel inside the tolerance with few changes', () => {
    expect(before.worstDb).toBeGreaterThan(2);
    expect(recommended.worstDb).toBeLessThanOrEqual(1);
    expect(best.worstDb).toBeLessThanOrEqual(recommended.worstDb + 1e-9);
    expect(recommended.changes.length).toBeLessThanOrEqual(2);
    expect(recommended.changes[0]).toMatchObject({ position: 'input pad', from: 6 });
  });
  it('says that the stage input was not looked at without its sweep', () =>
    expect(stageInput).toMatchObject({ applied: false, note: expect.stringContaining('not applied') }));
  it('lists what it left out', () => {
    const withMissing = [
      ...rows,
      { frequencyMhz: 441.5, levelDbmv: -20 },
      { frequencyMhz: null, levelDbmv: 1 },
    ];
    const again = propose({ rows: withMissing, station });
    expect(again).toMatchObject({ ok: true, value: { best: { worstDb: best.worstDb }, count: 137 } });
    if (again.ok) expect(again.value.excluded.map(({ frequencyMhz }) => frequencyMhz)).toEqual([null, 441.5]);
    const all = propose({ rows: withMissing, station, keepAll: true });
    if (all.ok) expect(all.value.best.worstDb).toBeGreaterThan(20);
  });
  it('starts from what is plugged in now, when that is not what is installed', () => {
    const pluggedIn = { ...installedOf(station), 'input pad': 5 };
    const shifted = rows.map((row) => ({ ...row, levelDbmv: row.levelDbmv + 1 }));
    const again = propose({ rows: shifted, station, pluggedIn });
    expect(again).toMatchObject({ ok: true, value: { best: { values: best.values } } });
    if (again.ok) expect(again.value.best.worstDb).toBeCloseTo(best.worstDb, 9);
  });
});

describe('refuses in words', () => {
  const noDesign = { ...station, ports: station.ports.map(({ design: _design, ...port }) => port) };
  it.each([
    ['no-such-port', { portName: 'outlet' }, '"forward output"'],
    ['no-design', { portName: 'forward input' }, 'choose "forward output"'],
    ['no-design', { station: noDesign }, 'station file'],
    ['no-usable-rows', { rows: [{ frequencyMhz: 1000, levelDbmv: 3 }] }, '54 and 870 MHz'],
    ['too-few', { rows: [{ frequencyMhz: 100, levelDbmv: 3 }] }, 'two carriers'],
    ['no-such-position', { pluggedIn: { trim: 3 } }, '"input pad"'],
    ['bad-value', { pluggedIn: { 'input pad': Number.NaN } }, 'input pad'],
    ['bad-value', { slackDb: -1 }, 'slack'],
    ['no-input-level', { inputRows: [] }, '870 MHz'],
    ['not-finite', { rows: [100, 200].map((f) => ({ frequencyMhz: f, levelDbmv: 1.7e308 })) }, 'too large'],
  ])('%s', (code, change, words) => {
    const refused = propose({ rows, station, ...change });
    expect(refused).toMatchObject({ ok: false, code });
    if (!refused.ok) expect(`${refused.where}: ${refused.help}`).toContain(words);
  });
});
