// @vitest-environment jsdom
import { cleanup, screen } from '@testing-library/react';
import type { ReactNode } from 'react';
import { expect, it, vi } from 'vitest';
import type { MeterIdentity } from '../../../core/bridge/records.ts';
import type { WatchSummary } from '../../../core/bridge/watch-calls.ts';
import { PeakingScreen } from '../../../renderer/screens/PeakingScreen.tsx';
import { WatchSide } from '../../../renderer/screens/WatchSide.tsx';
import type { OpenSheet } from '../../../renderer/state/sheet-slice.ts';
import { viewWatch } from '../../../renderer/state/watch-view.ts';
import { benchOver } from '../bench-over.ts';
import { plain } from '../plain.ts';
import { sheetOf } from '../sheet-records.ts';
import { show } from '../shown-app.tsx';

vi.stubGlobal('matchMedia', () => ({ matches: false, addEventListener() {}, removeEventListener() {} }));

const { sheet } = sheetOf([]);
const open: OpenSheet = {
  at: 'open',
  sheet,
  portName: 'forward output',
  chosenSweepId: null,
  sweeps: {},
  picked: null,
};
const identity: MeterIdentity = { maker: 'Quillmere', model: 'Bench', serialNumber: '7', firmware: '1' };
const dueOn = (calibrationDueOn: string): MeterIdentity => ({ ...identity, calibrationDueOn });

async function shown(what: ReactNode, meter: MeterIdentity | null) {
  const bench = benchOver({});
  if (meter !== null)
    bench.store.getState().meterConnected({
      choice: { kind: 'serial', path: 'COM3', profile: 'line' },
      identity: meter,
      connectedAt: '2026-11-25T09:00:00.000Z',
    });
  await show(bench, what);
  return plain(document.querySelector('.calibration-past')?.textContent).trim();
}

const watchOf = (meter: MeterIdentity): WatchSummary => ({
  watchId: '00000000-0000-4000-8000-000000000009',
  stationId: sheet.station.id,
  visitId: null,
  portName: 'forward output',
  testPointLossDb: 20,
  frequenciesMhz: [711],
  pilotMhz: 711,
  everyS: 600,
  forS: null,
  startedAt: '2026-11-25T00:00:00.000Z',
  state: 'running',
  endedAt: null,
  endReason: null,
  roundCount: 0,
  missedCount: 0,
  meter: { choice: { kind: 'serial', path: 'COM3', profile: 'line' }, identity: meter },
});
const watching = (meter: MeterIdentity) => {
  const watch = { watch: watchOf(meter), rounds: [], temperatures: [] };
  return <WatchSide open={open} shown={watch} view={viewWatch(watch, sheet.station)} />;
};

it('warns beside a watch that its meter was past its calibration when it began, by its own record', async () => {
  expect(await shown(watching(dueOn('2026-11-24')), null)).toBe('Calibration past since 24 November 2026');
  cleanup();
  expect(await shown(watching(dueOn('2026-11-25')), dueOn('2020-01-01'))).toBe('');
  cleanup();
  expect(await shown(watching(identity), null)).toBe('');
});

it('warns beside a live level that the meter in hand is past its calibration', async () => {
  expect(await shown(<PeakingScreen open={open} />, dueOn('2026-11-24'))).toBe(
    'Calibration past since 24 November 2026',
  );
  expect(screen.getByRole('button', { name: /calibration past since/ })).toBeDefined();
  cleanup();
  expect(await shown(<PeakingScreen open={open} />, dueOn('2026-11-26'))).toBe('');
});
