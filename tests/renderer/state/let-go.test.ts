import { expect, it } from 'vitest';
import { letNewsGo } from '../../../renderer/state/let-go.ts';
import { createWorkbenchStore } from '../../../renderer/state/store.ts';

const news = { tone: 'news', text: 'The last reading was cut short.', help: 'All 7 are kept.' } as const;
const problem = { ...news, tone: 'problem' } as const;
const plan = {
  stationId: 'slipway',
  portName: 'forward output',
  purpose: 'as-found',
  plannedCount: 3,
  lowMhz: 54,
  highMhz: 870,
} as const;

function bench() {
  const store = createWorkbenchStore();
  const end = letNewsGo(store);
  const state = () => store.getState();
  return { state, end };
}

it('lets news go when another screen or station is opened, or the next sweep begins', () => {
  const { state } = bench();
  const goes = [
    () => state().placeChosen('peaking'),
    () => state().sheetOpening('slipway'),
    () => state().sheetOpening('mill-lane'),
    () => state().runStarting(plan),
  ];
  for (const go of goes) {
    state().noticed(news);
    go();
    expect(state().notice).toBeNull();
  }
});

it('keeps news that comes with the move, and a problem until somebody puts it away', () => {
  const { state } = bench();
  state().sheetOpening('slipway');
  state().noticed(news);
  state().faceChosen('table');
  state().sheetOpening('slipway');
  expect(state().notice).toEqual(news);
  state().noticed(problem);
  state().placeChosen('peaking');
  expect(state().notice).toEqual(problem);
});

it('lets go of nothing after its end', () => {
  const { state, end } = bench();
  end();
  state().noticed(news);
  state().placeChosen('season');
  expect(state().notice).toEqual(news);
});
