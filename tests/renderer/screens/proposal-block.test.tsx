// @vitest-environment jsdom
import { screen } from '@testing-library/react';
import { expect, it } from 'vitest';
import { sheetOf, station, sweepOf } from '../sheet-records.ts';
import { calm, showApp } from '../shown-app.tsx';

it('shows no gain where nothing is to be changed: a ripple is said to stay', async () => {
  // A standing wave every 31 MHz, 1.6 dB to either side: no pad and no equalizer changes it.
  const rippled = sweepOf({ n: 1, offDb: (mhz) => 1.6 * Math.sin((2 * Math.PI * mhz) / 31) });
  const { sheet } = sheetOf([rippled]);
  await showApp(
    { ...calm, 'stations.open': () => sheet, 'sweeps.open': () => rippled },
    { stationId: station.id },
  );
  expect(
    screen.getByText('No change of plug-ins is worth it: the worst channel stays 1.6 dB from design.'),
  ).toBeTruthy();
  expect(screen.queryByText(/1\.6 dB → 1\.6 dB/)).toBeNull();
});
