import { expect, it } from 'vitest';
import { saysLocked, saysNotLocked, saysPlainlyNotLocked } from '../../../core/files/lock-words.ts';

it.each([
  'Not Locked',
  'not_locked',
  'NOT-LOCKED',
  'unlocked',
  'No',
  'Nicht verbunden',
  'Non verrouill\u00E9',
  'No bloqueado',
  'Niet vergrendeld',
  'Nie po\u0142\u0105czony',
])('%s says that there was no signal, and not that there was', (word) => {
  expect([saysNotLocked(word), saysLocked(word)]).toEqual([true, false]);
});

it.each(['Locked', 'yes', 'Verbunden', 'Verrouill\u00E9', 'Bloqueado', 'Vergrendeld', 'Tak', ''])(
  '"%s" says nothing against the signal',
  (word) => {
    expect([saysNotLocked(word), saysLocked(word)]).toEqual([false, true]);
  },
);

it('knows which words can speak of nothing but the signal', () => {
  expect(['not locked', 'getrennt', 'no', 'down', 'locked', 'perhaps'].map(saysPlainlyNotLocked)).toEqual([
    true,
    true,
    false,
    false,
    false,
    false,
  ]);
});
