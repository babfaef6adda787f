import { describe, expect, it } from 'vitest';
import type { SetUpEvent, SetUpRecord } from '../../../core/bridge/set-up-calls.ts';
import { type SetUpStepId, setUpSteps, stepsOf } from '../../../core/set-up/steps.ts';
import { createLevelFeed } from '../../../renderer/state/level-feed.ts';
import { createLevelSource } from '../../../renderer/state/level-moment.ts';
import { foundWords, sweepFor, viewSetUp } from '../../../renderer/state/set-up-view.ts';
import { createStepProof, isWhole, valuesOf } from '../../../renderer/state/step-proof.ts';
import { newModuleSetUp, sheetOf, sweepOf } from '../sheet-records.ts';

const at = (minute: number) => `2026-11-25T09:${String(minute).padStart(2, '0')}:00.000Z`;
const event = (seq: number, step: SetUpStepId, over: Partial<SetUpEvent> = {}): SetUpEvent => ({
  seq,
  at: at(20 + seq),
  step,
  outcome: 'done',
  by: 'reading',
  reason: null,
  values: {},
  liveId: null,
  ...over,
});
const record = (events: readonly SetUpEvent[]) => newModuleSetUp({ events: [...events] });
const { sheet } = sheetOf([]);
const stepOf = (id: SetUpStepId) => {
  const step = setUpSteps.find((one) => one.id === id);
  if (step === undefined) throw new Error(id);
  return step;
};
const upTo = (id: SetUpStepId, values: Partial<Record<SetUpStepId, SetUpEvent['values']>> = {}) => {
  const before = stepsOf('new-module').map((step) => step.id);
  return record(
    before.slice(0, before.indexOf(id)).map((step, i) => event(i, step, { values: values[step] ?? {} })),
  );
};

describe('a set-up as it stands', () => {
  it('stands at its first step, and at the same step again from the same events', () => {
    expect(viewSetUp(sheet, record([])).step?.id).toBe('sweep-as-found');
    const view = viewSetUp(sheet, upTo('back-off', { 'max-gain': { maxDbmv: 50.2 } }));
    expect([view.step?.id, view.stepNumber, view.stepCount]).toEqual(['back-off', 7, 14]);
    expect(view).toEqual(viewSetUp(sheet, upTo('back-off', { 'max-gain': { maxDbmv: 50.2 } })));
  });

  it('aims at the maximum less the reserve: 4.0 dB at 870 MHz (common practice, no published source)', () => {
    const { goal } = viewSetUp(sheet, upTo('back-off', { 'max-gain': { maxDbmv: 50.2 } }));
    expect(goal.kind === 'target' && goal.levelDbmv).toBeCloseTo(46.2, 9);
  });

  it('listens at the input for the input level, at the pilot once it is in automatic, and nowhere for a sweep', () => {
    expect(viewSetUp(sheet, upTo('input-level')).listen).toMatchObject({
      portName: 'forward input',
      frequencyMhz: 867,
    });
    expect(viewSetUp(sheet, upTo('settle')).listen).toMatchObject({
      portName: 'forward output',
      frequencyMhz: 711,
    });
    expect(viewSetUp(sheet, upTo('rebalance')).listen).toBeNull();
  });

  it('takes a sweep as found of before the set-up, but for the rebalancing only one of after the control was set', () => {
    const found = sweepOf({ n: 1, offDb: () => 0 });
    const check = sweepOf({ n: 49, offDb: () => 0, over: { purpose: 'check' } });
    const read = sheetOf([check, found]).sheet;
    expect(sweepFor(read, record([]), stepOf('sweep-as-found'))?.sweepId).toBe(found.summary.sweepId);
    const set = upTo('rebalance');
    expect(sweepFor(read, set, stepOf('rebalance'))?.sweepId).toBe(check.summary.sweepId);
    const again = record([...set.events, event(40, 'back-off', { outcome: 'redo', at: at(59) })]);
    expect(sweepFor(read, again, stepOf('rebalance'))).toBeNull();
    expect(sweepFor(read, set, stepOf('sweep-as-left'))).toBeNull();
  });

  it('says what a step found in the order of the step, not of the alphabet', () => {
    const words = foundWords(stepOf('range-test'), { downDb: 6, returnedDbmv: 46.2, upDb: 4 });
    expect(words).toBe('+4.0 \u22126.0');
  });
});

describe('the proof of a step', () => {
  const liveId = '00000000-0000-4000-8000-000000000001';
  function watched(id: SetUpStepId, record_: SetUpRecord, fromS: number) {
    const clock = { ms: 0 };
    const feed = createLevelFeed(
      () => {},
      () => clock.ms,
    );
    feed.expect();
    const view = viewSetUp(sheet, record_);
    const source = createLevelSource(feed, view.goal);
    const proof = createStepProof(feed, source, stepOf(id), view.target, () => fromS);
    let elapsedMs = 0;
    const hold = (levelDbmv: number, seconds: number) => {
      let last = proof.read();
      for (let i = 0; i < seconds * 10; i++) {
        clock.ms += 100;
        feed.arrived({
          liveId,
          seq: elapsedMs / 100,
          elapsedMs,
          takenAt: at(0),
          meterDbmv: levelDbmv - 20,
          testPointLossDb: 20,
        });
        elapsedMs += 100;
        last = proof.read();
      }
      return last;
    };
    return { hold, clock, proof, view };
  }

  it('finds the maximum by itself, and keeps it under its name', () => {
    const { hold, view } = watched('max-gain', upTo('max-gain'), 0);
    expect(hold(40, 3).proven).toBe(false);
    expect(hold(50.2, 1).proven).toBe(false);
    const done = hold(50.2, 4);
    expect(done.proven).toBe(true);
    expect(valuesOf(stepOf('max-gain'), done, view.record.plan)).toEqual({ maxDbmv: 50.2 });
  });

  it('is on its target only after two seconds there, and not by what was read before the step began', () => {
    const set = upTo('back-off', { 'max-gain': { maxDbmv: 50.2 } });
    const early = watched('back-off', set, 5);
    expect(early.hold(46.2, 4).proven).toBe(false);
    expect(early.hold(46.2, 4).proven).toBe(true);
    expect(watched('back-off', set, 0).hold(45.6, 6).proven).toBe(false);
  });

  it('proves nothing by a level that is gone', () => {
    const { hold, clock, proof } = watched(
      'back-off',
      upTo('back-off', { 'max-gain': { maxDbmv: 50.2 } }),
      0,
    );
    hold(46.2, 1.5);
    clock.ms += 1500;
    expect(proof.read().proven).toBe(false);
    expect(proof.read().words).toBe('');
  });

  it('walks through the range test and keeps both ranges', () => {
    const { hold, view } = watched('range-test', upTo('range-test', { 'back-off': { setDbmv: 46.2 } }), 0);
    hold(46.2, 3);
    hold(50.2, 3);
    hold(40.2, 3);
    const done = hold(46.2, 4);
    expect(done.proven).toBe(true);
    const values = valuesOf(stepOf('range-test'), done, view.record.plan);
    expect(values).toEqual({ upDb: 4, downDb: 6, returnedDbmv: 46.2 });
    expect(isWhole(stepOf('range-test'), values)).toBe(true);
  });

  it('has no whole answer for today without the temperature: then the step can only be skipped', () => {
    const values = valuesOf(
      stepOf('ambient'),
      { levelDbmv: 46, range: null },
      { pilotMhz: 711, ambientC: null },
    );
    expect(isWhole(stepOf('ambient'), values)).toBe(false);
  });
});
