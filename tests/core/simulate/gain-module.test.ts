import { describe, expect, it } from 'vitest';
import {
  type GainModule,
  LOOP_S,
  type ModuleHand,
  moduleAfter,
  moduleAfterHands,
  moduleLater,
  modulePositionDb,
  settledModule,
  WAKE_DB,
} from '../../../core/simulate/gain-module.ts';

const reach = { upDb: 4, downDb: 6 };
const settled = (demandDb: number) => settledModule(reach, demandDb, 0);
const hand = (module: GainModule, did: ModuleHand, demandDb = 0) => moduleAfter(module, did, demandDb);
const positionAfter = (module: GainModule, seconds: number, demandDb = 0) =>
  modulePositionDb(moduleLater(module, demandDb, module.atMs + seconds * 1000));

describe('a module that no hand has touched', () => {
  it.each([
    [1.5, 1.5],
    [-2, -2],
    [9, 4],
    [-9, -6],
  ])('asked for %d dB stands at %d dB and stays there', (demandDb, positionDb) => {
    expect(modulePositionDb(settled(demandDb))).toBe(positionDb);
    expect(positionAfter(settled(demandDb), 1000, demandDb)).toBe(positionDb);
  });
});

describe('in automatic', () => {
  const pulled = hand(settled(0), { act: 'turn', turnDb: -3 });

  it('gives way to the hand at once, and then works against it', () => {
    expect(modulePositionDb(pulled)).toBe(-3);
    // A loop of first order: after one time constant 1/e of the way is left (textbook, from memory).
    expect(positionAfter(pulled, LOOP_S)).toBeCloseTo(-3 / Math.E, 10);
    expect(positionAfter(pulled, 20 * LOOP_S)).toBeCloseTo(0, 6);
  });

  it('follows the cable as far as it reaches, slowly', () => {
    expect(positionAfter(settled(0), LOOP_S, 2)).toBeCloseTo(2 * (1 - 1 / Math.E), 10);
    expect(positionAfter(settled(0), 100 * LOOP_S, 9)).toBeCloseTo(4, 6);
  });

  it('turns up to its end when the pilot is gone, and comes back with it', () => {
    const deaf = hand(settled(0), { act: 'pilot', present: false });
    expect(modulePositionDb(deaf)).toBe(0);
    const up = moduleLater(deaf, 0, 60_000);
    expect(modulePositionDb(up)).toBeCloseTo(4, 4);
    expect(positionAfter(hand(up, { act: 'pilot', present: true }), 60)).toBeCloseTo(0, 4);
  });
});

describe('in manual', () => {
  const manual = hand(settled(1.5), { act: 'mode', mode: 'manual' });

  it('stands where the hand puts it, between its ends, whatever the cable does', () => {
    expect(modulePositionDb(manual)).toBe(0);
    const up = hand(manual, { act: 'turn', turnDb: 50 });
    expect(modulePositionDb(up)).toBe(4);
    expect(positionAfter(up, 100, -5)).toBe(4);
    expect(modulePositionDb(hand(up, { act: 'turn', turnDb: -50 }))).toBe(-6);
  });

  it('goes on holding that level in automatic, after a short dip, and follows the cable from there', () => {
    const set = hand(manual, { act: 'turn', turnDb: -1.8 }, -2.1);
    const auto = hand(set, { act: 'mode', mode: 'auto' }, -2.1);
    expect(modulePositionDb(auto)).toBeCloseTo(-1.8 + WAKE_DB, 10);
    expect(positionAfter(auto, 60, -2.1)).toBeCloseTo(-1.8, 4);
    expect(positionAfter(auto, 60, 0)).toBeCloseTo(0.3, 4);
  });

  it('changes nothing when it is switched to what it is', () => {
    expect(hand(manual, { act: 'mode', mode: 'manual' })).toBe(manual);
  });
});

it('comes new with another reach, in manual, at its low end', () => {
  const fresh = hand(settled(0), { act: 'exchange', upDb: 4.2, downDb: 6.3 });
  expect(fresh.mode).toBe('manual');
  expect(modulePositionDb(fresh)).toBe(-6.3);
  expect(modulePositionDb(hand(fresh, { act: 'turn', turnDb: 99 }))).toBe(4.2);
});

it('does not go back in time', () => {
  const module = settledModule(reach, 0, 5000);
  expect(moduleLater(module, 3, 1000)).toBe(module);
});

describe('after many hands', () => {
  const demand = (ambientC: number) => 0.05 * (ambientC - 20);
  const at = (seconds: number, did: ModuleHand) => ({ hand: did, atMs: seconds * 1000, ambientC: 20 });

  it('is none before the first', () => {
    expect(moduleAfterHands(reach, [], demand)).toBeNull();
  });

  it('is the same however often it is asked', () => {
    const hands = [
      at(0, { act: 'turn', turnDb: -3 }),
      at(2, { act: 'turn', turnDb: -1 }),
      at(9, { act: 'mode', mode: 'manual' }),
      at(10, { act: 'turn', turnDb: 2.5 }),
      at(20, { act: 'mode', mode: 'auto' }),
    ];
    const once = moduleAfterHands(reach, hands, demand);
    expect(moduleAfterHands(reach, hands, demand)).toEqual(once);
    expect(once?.handDb).toBeCloseTo(-1.5, 10);
  });

  it('lets the weather that a hand made work from then on', () => {
    const hands = [at(0, { act: 'weather', ambientC: 60 }), at(1000, { act: 'turn', turnDb: 0 })];
    const module = moduleAfterHands(reach, hands, demand);
    expect(module === null ? null : modulePositionDb(module)).toBeCloseTo(2, 6);
  });
});
