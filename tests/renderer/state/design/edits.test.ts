import { expect, it } from 'vitest';
import { newDraft, type StationDraft } from '../../../../renderer/state/design/draft.ts';
import {
  newStage,
  withAdded,
  withMoved,
  withOnePort,
  withoutPort,
  withoutPosition,
  withPort,
  withPosition,
} from '../../../../renderer/state/design/edits.ts';

const way = ({ ports, positions }: StationDraft, portKey = 0) =>
  ports
    .find(({ key }) => key === portKey)
    ?.through.map((wanted) => positions.find(({ key }) => key === wanted)?.name);

it('puts a plug-in in where it belongs, named by the words of the trade, with the kit of its kind', () => {
  const kit = { fromDb: 0, toDb: 20, stepDb: 1, also: [] };
  const first = withPosition(newDraft(), 0, { kit });
  const pad = withAdded(first, 0, 2, 'pad');
  expect(way(pad.draft)).toEqual(['input pad', 'input equalizer', 'interstage pad']);
  expect(pad.draft.positions.find(({ key }) => key === pad.key)).toMatchObject({ kit, installedDb: null });
  const simulator = withAdded(pad.draft, 0, 0, 'cable-simulator');
  expect(way(simulator.draft)?.[0]).toBe('input cable simulator');
  const names = [1, 2, 3].reduce((draft) => withAdded(draft, 0, 0, 'pad').draft, pad.draft);
  expect(way(names)?.slice(0, 3)).toEqual(['pad 3', 'pad 2', 'output pad']);
  expect(new Set(names.positions.map(({ name }) => name)).size).toBe(names.positions.length);
});

it('moves a plug-in along its way, and no further than its ends', () => {
  expect(way(withMoved(newDraft(), 0, 0, 1))).toEqual(['input equalizer', 'input pad']);
  expect(withMoved(newDraft(), 0, 0, -1)).toEqual(newDraft());
  expect(withMoved(newDraft(), 0, 1, 1)).toEqual(newDraft());
});

it('takes a plug-in off every way and out of the stage', () => {
  const draft = { ...newDraft(), stage: newStage(newDraft()) };
  const without = withoutPosition(withPort(draft, 1, { through: [0] }), 0);
  expect(way(without)).toEqual(['input equalizer']);
  expect(way(without, 1)).toEqual([]);
  expect(without.stage?.through).toEqual([1]);
});

it('takes a port out with what only it passed, and a stage that was read there', () => {
  const { draft, key } = withOnePort(newDraft(), 'return output');
  expect(draft.ports.at(-1)).toMatchObject({ key: 2, name: 'return output', direction: 'return' });
  const pads = withAdded(draft, key, 0, 'pad').draft;
  expect(way(pads, key)).toEqual(['return pad']);
  expect(withoutPort(pads, key)).toEqual(newDraft());
  const staged = { ...newDraft(), stage: newStage(newDraft()) };
  expect(withoutPort(staged, 1).stage).toBeNull();
  expect(withoutPort(staged, 0).positions).toHaveLength(2);
});

it('names a second port of a kind apart from the first', () => {
  const { draft, key } = withOnePort(newDraft(), 'forward output');
  expect(draft.ports.find((port) => port.key === key)?.name).toBe('forward output 2');
});
