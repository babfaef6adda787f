// @vitest-environment jsdom
import { screen } from '@testing-library/react';
import { afterEach, expect, it, vi } from 'vitest';
import type { Script } from '../scripted-client.ts';
import { sheetOf, station } from '../sheet-records.ts';
import { press, showApp } from '../shown-app.tsx';

afterEach(() => vi.restoreAllMocks());

it('leaves no page blank where a screen fails, and leads back to the stations', async () => {
  vi.spyOn(console, 'error').mockImplementation(() => {});
  const { sheet } = sheetOf([]);
  const script: Script = {
    // A sheet as only a fault of the program could make one.
    'stations.open': () => ({ ...sheet, sweeps: [{}] as never, visits: null as never }),
  };
  await showApp(script, { stationId: station.id });
  expect(screen.getByRole('heading', { level: 1 }).textContent).toBe('This screen could not be drawn.');
  await press('Back to the stations');
  expect(screen.getByRole('heading', { level: 1 }).textContent).toMatch(/^Read the station/);
});
