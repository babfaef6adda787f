// @vitest-environment jsdom
import { act, cleanup, renderHook } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import { inksOf, useDress } from '../../../renderer/charts/inks.ts';

afterEach(() => {
  cleanup();
  delete document.documentElement.dataset.theme;
});

it('tells a canvas whenever the page is dressed anew, whoever does it', async () => {
  document.documentElement.dataset.theme = 'sun';
  const { result } = renderHook(useDress);
  const before = result.current;
  await act(async () => {
    document.documentElement.dataset.theme = 'night';
  });
  expect(result.current).not.toBe(before);
  await act(async () => {
    document.documentElement.dataset.theme = 'sun';
  });
  expect(result.current).toBe(before);
});

it('takes the inks that hold where the canvas stands', () => {
  const box = document.createElement('div');
  box.style.setProperty('--ink', ' black ');
  box.style.setProperty('--found', 'blue');
  document.body.append(box);
  expect(inksOf(box)).toMatchObject({ ink: 'black', trace: 'blue' });
});
