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
  expect(page.dataset.theme).toBe('night');
  expect(JSON.parse(box.kept ?? '')).toEqual({ theme: 'night', operator: 'R. Ames' });
  const next = createWorkbenchStore();
  recallPreferences(next, box, page);
  expect(next.getState()).toMatchObject({ theme: 'night', operator: 'R. Ames' });
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
  keepPreferences(store, { setItem: forbidden }, page);
  store.getState().themeChosen('night');
  expect(page.dataset.theme).toBe('night');
});
