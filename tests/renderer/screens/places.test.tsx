// @vitest-environment jsdom
import { act, cleanup, fireEvent, screen, waitFor } from '@testing-library/react';
import { afterEach, expect, it, vi } from 'vitest';
import type { LiveRun } from '../../../core/bridge/live-calls.ts';
import type { ConnectedMeter, StationSheet, Sweep } from '../../../core/bridge/records.ts';
import type { SetUpEvent, SetUpRecord } from '../../../core/bridge/set-up-calls.ts';
import { FIRST_SETTINGS } from '../../../core/bridge/settings-calls.ts';
import type { Station } from '../../../core/files/station.ts';
import { setUpPlan } from '../../../core/set-up/plan.ts';
import { createLevelFeed } from '../../../renderer/state/level-feed.ts';
import { plain } from '../plain.ts';
import type { Script } from '../scripted-client.ts';
import { station as plainStation, sheetOf, sweepFrom, sweepOf, visitId } from '../sheet-records.ts';
import { press, showApp } from '../shown-app.tsx';

afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

const controlled: Station = {
  ...plainStation,
  stageInput: {
    port: 'forward input',
    through: ['input pad', 'input equalizer'],
    atMhz: 867,
    minDbmv: 8,
    maxDbmv: 14,
  },
  span: { lossDb: 22, topMhz: 870, perDegreeC: 0.002, sky: 'aerial' },
  gainControl: { mode: 'auto', upDb: 4, downDb: 6, topMhz: 870, setAtC: 20, pilotMhz: 711 },
};
const meter: ConnectedMeter = {
  choice: { kind: 'serial', path: '/dev/ttyUSB0', profile: 'scpi' },
  identity: { maker: 'Quillmere', model: 'Bench meter', serialNumber: '1', firmware: '1' },
  connectedAt: '2026-11-25T09:00:00.000Z',
};
const liveId = '00000000-0000-4000-8000-0000000000aa';

/** A host of one station with a gain control, which is open; what is recorded stays recorded. */
async function host(
  start: Readonly<{ station?: Station; sweeps?: readonly Sweep[]; over?: Partial<StationSheet> }> = {},
) {
  const station = start.station ?? controlled;
  const { sheet, byId } = sheetOf(start.sweeps ?? [], { station, ...start.over });
  const clock = { ms: 0 };
  const kept: { setUp: SetUpRecord | null } = { setUp: null };
  const record = (): SetUpRecord => {
    if (kept.setUp === null) throw new Error('no set-up');
    return kept.setUp;
  };
  const script: Script = {
    'stations.open': () => sheet,
    'sweeps.open': sweepFrom({ byId }),
    'meters.connect': () => meter,
    'live.start': (input): LiveRun => ({
      ...input,
      liveId,
      testPointLossDb: 20,
      startedAt: '2026-11-25T09:00:00.000Z',
    }),
    'live.stop': () => ({}),
    'set-up.open': () => ({ setUp: kept.setUp }),
    'set-up.begin': (input) => {
      const plan = setUpPlan(station, input);
      if (!plan.ok) throw new Error(plan.help);
      kept.setUp = {
        setUpId: '00000000-0000-4000-8000-0000000000bb',
        visitId,
        stationId: station.id,
        revision: 1,
        startedAt: '2026-11-25T09:05:00.000Z',
        plan: plan.value,
        events: [],
        abandoned: null,
      };
      return kept.setUp;
    },
    'set-up.record': ({ visitId: _, ...input }) => {
      const before = record();
      const event: SetUpEvent = { seq: before.events.length, at: '2026-11-25T09:30:00.000Z', ...input };
      kept.setUp = { ...before, events: [...before.events, event] };
      return kept.setUp;
    },
    'set-up.list': () => ({ setUps: kept.setUp === null ? [] : [kept.setUp] }),
    'watch.list': () => ({ watches: [] }),
  };
  const levels = createLevelFeed(
    (callback) => callback(),
    () => clock.ms,
  );
  const bench = await showApp(
    { 'settings.read': () => ({ settings: FIRST_SETTINGS, revision: 1, changedAt: null }), ...script },
    { stationId: station.id, levels },
  );
  const reading = (elapsedMs: number, levelDbmv: number) => {
    clock.ms = elapsedMs;
    bench.emit('live.reading', {
      liveId,
      seq: Math.round(elapsedMs / 100),
      elapsedMs,
      takenAt: '2026-11-25T09:00:00.000Z',
      meterDbmv: levelDbmv - 20,
      testPointLossDb: 20,
    });
  };
  return { ...bench, clock, kept, reading };
}
const choose = (name: string) => press(name, 'radio');
const number = () => document.querySelector('.dial__number')?.textContent;

it('offers only the screens that the station’s file can fill', async () => {
  await host({ station: plainStation });
  expect(screen.queryByRole('radio', { name: 'Season' })).toBeNull();
  expect(screen.queryByRole('radio', { name: 'Gain control' })).toBeNull();
  expect(screen.getByRole('radio', { name: 'Peaking' })).toBeDefined();
  cleanup();
  await host();
  for (const name of ['Station', 'Peaking', 'Gain control', 'Season'])
    expect(screen.getByRole('radio', { name })).toBeDefined();
});

it('peaks the pilot: number, distance, held, and dashes once the readings stay away', async () => {
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
  const { workbench, reading, clock, inputOf } = await host();
  await act(() => workbench.connectMeter(meter.choice).then(() => {}));
  await choose('Peaking');
  expect(number()).toBe('––.–');
  expect(screen.getByRole('button', { name: 'Sound is off' })).toBeDefined();
  await press('Start');
  expect(inputOf('live.start')).toMatchObject({ portName: 'forward output', frequencyMhz: 711, visitId });
  // The design at 711 MHz: 36 + 10 (711 - 54) / 816 = 44.05 dBmV.
  for (let i = 0; i <= 40; i++) reading(i * 100, 45 - 0.02 * i);
  expect(number()).toBe('44.2');
  expect(document.querySelector('.dial__distance')?.textContent).toBe('on target');
  expect(screen.getByRole('button', { name: /hold anew$/ }).textContent).toContain('highest 45.0');
  clock.ms += 1100;
  act(() => vi.advanceTimersByTime(100));
  expect(number()).toBe('––.–');
  expect(screen.getByText('no reading: take the hand off')).toBeDefined();
});

it('speaks at most every two seconds', async () => {
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
  const { workbench, reading } = await host();
  await act(() => workbench.connectMeter(meter.choice).then(() => {}));
  await choose('Peaking');
  await press('Start');
  const spoken = () => document.querySelector('.peaking__main [role="status"]')?.textContent;
  for (let i = 0; i < 20; i++) reading(i * 100, 46);
  expect(spoken()).toBe('');
  act(() => vi.advanceTimersByTime(2000));
  expect(spoken()).toMatch(/^46\.0, 1\.9 down/);
  reading(2000, 45);
  act(() => vi.advanceTimersByTime(1900));
  expect(spoken()).toMatch(/^46\.0/);
});

it('shows the cautions first, records what a sweep proves by itself, and keeps the reason of a skipped step', async () => {
  const { workbench, inputOf, kept } = await host({ sweeps: [sweepOf({ n: 1, offDb: () => 0 })] });
  await act(() => workbench.connectMeter(meter.choice).then(() => {}));
  await choose('Gain control');
  expect(await screen.findByText(/operator's own procedure rules/)).toBeDefined();
  expect(screen.getAllByText('common practice, no published source').length).toBeGreaterThan(0);
  await press('Begin the set-up');
  // The visit has a sweep as found already: nothing has to be read twice.
  await screen.findByRole('heading', { level: 1, name: 'Control to its low end' });
  expect(kept.setUp?.events[0]).toMatchObject({ step: 'sweep-as-found', outcome: 'done', by: 'reading' });
  await press('Skip');
  const skip = await screen.findByRole('button', { name: 'Skip it' });
  expect(skip.hasAttribute('disabled') || skip.getAttribute('data-disabled') !== null).toBe(true);
  fireEvent.change(screen.getByLabelText('Why it is skipped'), { target: { value: 'the control is worn' } });
  await press('Close');
  expect(screen.getByRole('alertdialog').textContent).toContain('goes into the record with “Skip it”');
  expect(kept.setUp?.events).toHaveLength(1);
  await press('Go on editing');
  await press('Skip it');
  expect(inputOf('set-up.record')).toMatchObject({
    step: 'control-low',
    outcome: 'skipped',
    reason: 'the control is worn',
  });
  await screen.findByRole('heading', { level: 1, name: 'To manual' });
});

it('has no number on the screen while the probe moves to another test point', async () => {
  const { workbench, reading, kept, names } = await host({ sweeps: [sweepOf({ n: 1, offDb: () => 0 })] });
  await act(() => workbench.connectMeter(meter.choice).then(() => {}));
  await choose('Gain control');
  await press('Begin the set-up');
  await screen.findByRole('heading', { level: 1, name: 'Control to its low end' });
  await press('Probe on the forward output: read');
  act(() => reading(0, 42));
  await press('It is at its low end');
  await press('It is in manual');
  act(() => reading(100, 40));
  await waitFor(() => expect(number()).toBe('40.0'));
  await press('Module and pad are in');
  await screen.findByRole('heading', { level: 1, name: 'Input level to design' });
  act(() => reading(200, 40));
  expect(number()).toBe('––.–');
  expect(names().filter((name) => name === 'live.stop').length).toBeGreaterThan(0);
  expect(screen.getByRole('button', { name: 'Probe on the forward input: read' })).toBeDefined();
  expect(kept.setUp?.events.map(({ step }) => step)).toContain('exchange');
});

it('says where rule and physics disagree by more than a decibel', async () => {
  const long: Station = {
    ...controlled,
    span: { lossDb: 60, topMhz: 870, perDegreeC: 0.002, sky: 'aerial' },
  };
  await host({ station: long });
  await choose('Gain control');
  // 60 dB, 0.002 a degree: 12 °C is 3.6 below 15.6 and gives 0.4 dB; the rule says none.
  expect(screen.queryByText(/disagree by/)).toBeNull();
  const air = await screen.findByLabelText(/^Air/);
  await act(async () => {
    fireEvent.change(air, { target: { value: '-7' } });
    fireEvent.blur(air);
  });
  // −7 °C lies below 20 °F, so the rule says −2; physics −2.7: still within one decibel. At −30 °C it is −5.5.
  expect(screen.queryByText(/disagree by/)).toBeNull();
  await act(async () => {
    fireEvent.change(air, { target: { value: '-30' } });
    fireEvent.blur(air);
  });
  expect(screen.getByText(/disagree by 3\.5/)).toBeDefined();
});

it('shows the year and says how sure it is; the picture has its numbers beside it', async () => {
  await host();
  await choose('Season');
  expect(plain(screen.getByRole('heading', { level: 1 }).textContent)).toBe(
    'Holds all year, \u221230 to 45 °C',
  );
  const chance = await screen.findByRole('button', { name: /^over 99\u00A0%/ });
  expect(chance.textContent).toBe('over 99\u00A0%');
  expect(screen.getByRole('rowheader', { name: '20' })).toBeDefined();
  await choose('Watch');
  expect(await screen.findByText(/^Nothing was watched here yet\./)).toBeDefined();
  expect(screen.getByText('every six hours, five rounds')).toBeDefined();
});

it('says the verdict of the range in its own step, as soon as both ends are measured', async () => {
  const { workbench, reading, kept } = await host({ sweeps: [sweepOf({ n: 1, offDb: () => 0 })] });
  await act(() => workbench.connectMeter(meter.choice).then(() => {}));
  await choose('Gain control');
  await press('Begin the set-up');
  await screen.findByRole('heading', { level: 1, name: 'Control to its low end' });
  const before = ['control-low', 'manual', 'exchange', 'input-level', 'max-gain', 'back-off'] as const;
  for (const step of before)
    await act(async () => {
      await workbench.recordStep({
        step,
        outcome: 'done',
        by: 'hand',
        reason: null,
        values: step === 'max-gain' ? { maxDbmv: 46 } : step === 'back-off' ? { setDbmv: 42 } : {},
        liveId: null,
      });
    });
  await screen.findByRole('heading', { level: 1, name: 'Range test, when wanted' });
  await press('Probe on the forward output: read');
  let ms = 0;
  const hold = (levelDbmv: number) =>
    act(() => {
      for (let i = 0; i < 30; i++) {
        ms += 100;
        reading(ms, levelDbmv);
      }
    });
  hold(42);
  expect(screen.queryByText(/^Range (so far|in order|undecided|out)/)).toBeNull();
  hold(46);
  expect(screen.getByText(/^Range so far/).textContent).toMatch(/^Range so far: up 4\.0/);
  // 4.0 up and 7.4 down: the way down is outside by less than the meter's half a decibel.
  hold(34.6);
  hold(38);
  const said = screen.getByRole('button', { name: /^Range undecided/ });
  const sentence =
    'Range undecided: up 4.0, down 7.4, in all 11.4 dB. Outside by no more than the meter’s ±0.5 dB.';
  expect(plain(said.textContent)).toBe(sentence);
  expect(plain(said.getAttribute('aria-label'))).toBe(`${sentence} How it was computed.`);
  expect(said.closest('[role=status]')).not.toBeNull();
  expect(kept.setUp?.events.at(-1)?.step).toBe('back-off');
});
