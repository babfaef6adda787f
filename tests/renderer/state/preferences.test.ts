// @vitest-environment jsdom
import { expect, it } from 'vitest';
import { keepPreferences, recallPreferences } from '../../../renderer/state/preferences.ts';
import { createWorkbenchStore } from '../../../renderer/state/store.ts';

const boxWith = (kept: string | null) => {
  const box = {
    kept,
    getItem: () => box.kept,
    setItem: (_key: string, value: string) => {
      box.kept = value;
    },
  };
  return box;
};

it('remembers the theme and the operator, and nothing that was measured or is judged by', () => {
  const box = boxWith(null);
  const page = document.createElement('html');
  const store = createWorkbenchStore();
  keepPreferences(store, box, page);
  store.getState().themeChosen('night');
  store.getState().operatorNamed('R. Ames');
  store.getState().textSizeChosen(150);
  expect(page.dataset.theme).toBe('night');
  expect(page.dataset.text).toBe('150');
  expect(JSON.parse(box.kept ?? '')).toEqual({
    theme: 'night',
    textSize: 150,
    operator: 'R. Ames',
    weather: { sunOffsetC: 15 },
  });
  const next = createWorkbenchStore();
  recallPreferences(next, box, page);
  expect(next.getState()).toMatchObject({ theme: 'night', textSize: 150, operator: 'R. Ames' });
});

it('is as dark as the system until somebody chose, and keeps no theme that nobody chose', () => {
  const box = boxWith(null);
  const page = document.createElement('html');
  const store = createWorkbenchStore();
  recallPreferences(store, box, page, true);
  keepPreferences(store, box, page);
  expect(page.dataset.theme).toBe('night');
  store.getState().textSizeChosen(200);
  expect(JSON.parse(box.kept ?? '')).not.toHaveProperty('theme');
  const byDay = createWorkbenchStore();
  recallPreferences(byDay, box, page, false);
  expect(byDay.getState()).toMatchObject({ theme: 'sun', textSize: 200 });

  // Once it was chosen, the system is not asked again.
  store.getState().themeChosen('sun');
  const next = createWorkbenchStore();
  recallPreferences(next, box, page, true);
  expect(page.dataset.theme).toBe('sun');
  keepPreferences(next, box, page);
  next.getState().operatorNamed('R. Ames');
  expect(JSON.parse(box.kept ?? '')).toMatchObject({ theme: 'sun', operator: 'R. Ames' });
});

it.each([90, 110, '200', null])('takes no text size %j that is not offered', (textSize) => {
  const store = createWorkbenchStore();
  recallPreferences(store, boxWith(JSON.stringify({ textSize })), document.createElement('html'));
  expect(store.getState().textSize).toBe(100);
});

it('remembers the two record temperatures and what the sun adds, but no days of a file', () => {
  const box = boxWith(null);
  const page = document.createElement('html');
  const store = createWorkbenchStore();
  keepPreferences(store, box, page);
  const days = [{ date: '2025-01-13', minC: -31, maxC: -12 }];
  store.getState().weatherSaid({ days, coldestC: -31, hottestC: 38, withoutReading: [] }, 'quillmere.csv');
  store.getState().sunSaid(9);
  const next = createWorkbenchStore();
  recallPreferences(next, box, page);
  expect(next.getState().weather).toEqual({
    climate: { days: [], coldestC: -31, hottestC: 38, withoutReading: [] },
    fileName: null,
    isAssumed: false,
  });
  expect(next.getState().sunOffsetC).toBe(9);
});

it.each([
  '{"weather":{"coldestC":50,"hottestC":-10,"sunOffsetC":-4}}',
  '{"weather":{"coldestC":"cold","hottestC":40,"sunOffsetC":null}}',
  '{"weather":7}',
])('takes no weather from %j that is none', (kept) => {
  const store = createWorkbenchStore();
  const first = store.getState();
  recallPreferences(store, boxWith(kept), document.createElement('html'));
  expect(store.getState()).toMatchObject({ weather: first.weather, sunOffsetC: first.sunOffsetC });
});

it.each(['', '{', 'null', '[]', '{"theme":"blue","operator":7}'])('starts in the sun from %j', (kept) => {
  const store = createWorkbenchStore();
  recallPreferences(store, boxWith(kept), document.createElement('html'));
  expect(store.getState()).toMatchObject({ theme: 'sun', operator: '' });
});

it('works where storage is forbidden', () => {
  const page = document.createElement('html');
  const store = createWorkbenchStore();
  const forbidden = () => {
    throw new DOMException('denied', 'SecurityError');
  };
  recallPreferences(store, { getItem: forbidden }, page);
  keepPreferences(store, { getItem: forbidden, setItem: forbidden }, page);
  store.getState().themeChosen('night');
  expect(page.dataset.theme).toBe('night');
});
