// @vitest-environment jsdom
import { act, cleanup, screen } from '@testing-library/react';
import { StrictMode } from 'react';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { CancelSignal } from '../../../core/bridge/client.ts';
import type { Output } from '../../../core/bridge/contract.ts';
import type { FoundPort } from '../../../core/bridge/records.ts';
import { MeterChooser } from '../../../renderer/screens/MeterChooser.tsx';
import { benchOver } from '../bench-over.ts';
import { press, show } from '../shown-app.tsx';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

const usb: FoundPort = { path: '/dev/ttyUSB0', label: 'Harbour A17', likely: true };
const connected = {
  choice: { kind: 'serial', path: '/dev/ttyUSB0', profile: 'line' },
  identity: { maker: 'Quillmere', model: 'Bench meter', serialNumber: '7', firmware: '1' },
  connectedAt: '2026-11-25T09:00:00.000Z',
} as const;

/** The chooser over a host whose ports a test changes, and whose connecting a test ends. */
async function opened(last: () => Output<'meters.last'>['last'] = () => null, around?: typeof StrictMode) {
  const ports: FoundPort[] = [];
  const answer = Promise.withResolvers<typeof connected>();
  const signals: CancelSignal[] = [];
  const bench = benchOver({
    'meters.find': () => ({ ports: [...ports], problem: null }),
    'meters.last': () => ({ last: last() }),
    'meters.connect': (_, signal) => {
      if (signal !== undefined) {
        signals.push(signal);
        signal.addEventListener('abort', () => answer.reject(new Error('cancelled')));
      }
      return answer.promise;
    },
  });
  bench.store.getState().linkBecame({
    at: 'open',
    version: '0',
    archivePath: '/data',
    profiles: [
      { name: 'scpi', title: 'Standard commands' },
      { name: 'line', title: 'Plain lines' },
    ],
  });
  await show(bench, <MeterChooser />, around);
  const looked = () => bench.names().filter((name) => name === 'meters.find').length;
  const pass = (ms: number) =>
    act(async () => {
      await vi.advanceTimersByTimeAsync(ms);
    });
  return { ...bench, ports, answer, signals, looked, pass };
}

it('shows an adapter that is plugged in while the list is open, and looks no more once a meter is in hand', async () => {
  const { ports, pass, looked, answer } = await opened();
  expect(screen.getByText(/No port found/)).toBeDefined();
  ports.push(usb);
  await pass(2100);
  await press('/dev/ttyUSB0Harbour A17', 'radio');
  await press('Connect');
  const before = looked();
  await pass(10_000);
  expect(looked()).toBe(before);
  await act(async () => answer.resolve(connected));
  await pass(10_000);
  expect(looked()).toBe(before);
});

it('says what it waits for at a port that was plugged in just now, and gives up when it is told to', async () => {
  const { ports, pass, emit, signals, store } = await opened();
  ports.push(usb);
  await pass(2100);
  await press('/dev/ttyUSB0Harbour A17', 'radio');
  await press('Connect');
  await act(async () =>
    emit('meter.link', { link: 'waiting', why: 'the system still has it', afterMs: null, leftMs: 28_300 }),
  );
  expect(screen.getByRole('status').textContent).toContain(
    'The port was plugged in just now: the system still has it. It is tried again, for 29 s at most.',
  );
  await press('Stop trying');
  expect(signals[0]?.aborted).toBe(true);
  expect(store.getState().meter).toEqual({ at: 'none' });
  expect(screen.queryByText(/plugged in just now/)).toBeNull();
  expect(screen.queryByRole('button', { name: 'Stop trying' })).toBeNull();
});

const lastAt = (path: string | null): NonNullable<Output<'meters.last'>['last']> => ({
  ...connected,
  now: path === null ? null : { ...connected.choice, path },
  moved: path !== null && path !== connected.choice.path,
});
const chosenWay = () => screen.getAllByRole<HTMLInputElement>('radio').find(({ checked }) => checked)?.value;

it('has the meter that was used last ready to connect, wherever its adapter is by now', async () => {
  let place: string | null = null;
  const one = await opened(() => lastAt(place));
  expect(screen.getByText(/Used last: Quillmere Bench meter 7, its adapter is not plugged in/)).toBeDefined();
  expect(chosenWay()).toBe(':simulated');
  place = '/dev/ttyUSB3';
  one.ports.push({ path: '/dev/ttyUSB0', label: 'Other', likely: true }, { ...usb, path: '/dev/ttyUSB3' });
  await one.pass(2100);
  expect(screen.getByText(/its adapter is at \/dev\/ttyUSB3 now, it was at \/dev\/ttyUSB0/)).toBeDefined();
  expect(chosenWay()).toBe('/dev/ttyUSB3');
  await press('Connect');
  expect(one.inputOf('meters.connect')).toEqual({ kind: 'serial', path: '/dev/ttyUSB3', profile: 'line' });
});

it('has a path ready that was typed last time, and changes nothing under a hand that chose', async () => {
  const one = await opened(() => lastAt('/dev/pts/7'));
  expect(chosenWay()).toBe(':typed');
  expect(screen.getByLabelText<HTMLInputElement>('Path of the port').value).toBe('/dev/pts/7');
  await press(/^Simulated meter/, 'radio');
  one.ports.push(usb);
  await one.pass(2100);
  expect(chosenWay()).toBe(':simulated');
});

it('opens no port by being shown, though every effect of it runs twice (React, StrictMode)', async () => {
  const one = await opened(() => lastAt('/dev/ttyUSB0'), StrictMode);
  expect(one.looked()).toBe(2);
  one.ports.push(usb);
  await one.pass(10_000);
  expect(one.looked()).toBeGreaterThan(2);
  expect(one.names()).not.toContain('meters.connect');
  await press('Connect');
  expect(one.names().filter((name) => name === 'meters.connect')).toHaveLength(1);
});
