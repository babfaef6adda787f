import { describe, expect, it } from 'vitest';
import { installedOf } from '../../../core/files/station.ts';
import { choiceOf, objectiveOf } from '../../../core/propose/objective.ts';
import { rows, station } from './mill-lane.ts';

const port = station.ports[0];
if (port?.design === undefined) throw new Error('no design');
const { design } = port;
const objective = objectiveOf(rows, station, port, design, installedOf(station), null);
const now = objective.free.map(({ nowIndex }) => nowIndex);

describe('objectiveOf', () => {
  it('frees the positions of the path, what is in now always among their values', () => {
    expect(objective.free.map(({ name }) => name)).toEqual(port.through);
    const odd = { ...installedOf(station), 'input pad': 6.5 };
    const pad = objectiveOf(rows, station, port, design, odd, null).free[0];
    expect(pad?.valuesDb[pad.nowIndex]).toBe(6.5);
    expect(pad?.valuesDb).toHaveLength(22);
  });
  it('frees the positions of the stage input only where its limit is applied', () => {
    const bare = { ...port, through: ['interstage pad'] };
    const input = { through: ['input pad'], atMhz: 870 };
    const names = (of: typeof input | null) =>
      objectiveOf(rows, station, bare, design, installedOf(station), of).free.map(({ name }) => name);
    expect(names(null)).toEqual(['interstage pad']);
    expect(names(input)).toEqual(['input pad', 'interstage pad']);
  });
  it('counts a position that the path passes twice, twice', () => {
    const twice = { ...port, through: ['input pad', 'input pad'] };
    const [pad] = objectiveOf(rows, station, twice, design, installedOf(station), null).free;
    expect(pad?.pathLossDb[3]?.[0]).toBe(6);
  });
  it('throws when nothing is known of a position', () =>
    expect(() => objectiveOf(rows, station, port, design, {}, null)).toThrow(RangeError));
});

describe('choiceOf', () => {
  it('with nothing changed is the sweep as it is', () => {
    const choice = choiceOf(objective, now);
    if (!choice.ok) throw new Error(choice.code);
    expect(choice.value.changes).toEqual([]);
    expect(choice.value.values).toEqual(installedOf(station));
    expect(choice.value.fit.tiltDb).toBeCloseTo(8.0, 0);
  });
  it('one pad less lifts the whole line by one dB and leaves flatness', () => {
    const before = choiceOf(objective, now);
    const after = choiceOf(objective, [5, ...now.slice(1)]);
    if (!before.ok || !after.ok) throw new Error('refused');
    expect(after.value.changes).toEqual([{ position: 'input pad', from: 6, to: 5 }]);
    expect(after.value.fit.lowDbmv - before.value.fit.lowDbmv).toBeCloseTo(1, 9);
    expect(after.value.fit.tiltDb).toBeCloseTo(before.value.fit.tiltDb, 9);
    expect(after.value.flatnessDb).toBeCloseTo(before.value.flatnessDb, 9);
  });
  it('throws for a candidate that is none', () =>
    expect(() => choiceOf(objective, [99, 0, 0, 0])).toThrow(RangeError));
});
