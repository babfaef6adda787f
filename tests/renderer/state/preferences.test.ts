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

it('remembers the theme, the unit of temperature and the operator, and nothing that was measured', () => {
  const box = boxWith(null);
  const page = document.createElement('html');
  const store = createWorkbenchStore();
  keepPreferences(store, box, page);
  store.getState().themeChosen('night');
  store.getState().temperatureUnitChosen('F');
  store.getState().operatorNamed('R. Ames');
  expect(page.dataset.theme).toBe('night');
  expect(JSON.parse(box.kept ?? '')).toEqual({ theme: 'night', temperatureUnit: 'F', operator: 'R. Ames' });
  const next = createWorkbenchStore();
  recallPreferences(next, box, page);
  expect(next.getState()).toMatchObject({ theme: 'night', temperatureUnit: 'F', operator: 'R. Ames' });
});

it.each(['', '{', 'null', '[]', '{"theme":"blue","temperatureUnit":7}'])(
  'starts in the sun from %j',
  (kept) => {
    const store = createWorkbenchStore();
    recallPreferences(store, boxWith(kept), document.createElement('html'));
    expect(store.getState()).toMatchObject({ theme: 'sun', temperatureUnit: 'C', operator: '' });
  },
);

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
