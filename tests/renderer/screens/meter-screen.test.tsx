// @vitest-environment jsdom
import { act, fireEvent, screen } from '@testing-library/react';
import { expect, it } from 'vitest';
import type { ConnectedMeter } from '../../../core/bridge/records.ts';
import { plain } from '../plain.ts';
import type { Script } from '../scripted-client.ts';
import { press, showApp } from '../shown-app.tsx';

const meterOn = (sticker: string | null): ConnectedMeter => ({
  choice: { kind: 'serial', path: 'COM3', profile: 'line' },
  identity: {
    maker: 'Quillmere',
    model: 'Bench meter',
    serialNumber: '7',
    firmware: '1',
    ...(sticker === null ? {} : { calibrationDueOn: sticker }),
  },
  connectedAt: '2026-11-25T09:00:00.000Z',
});

/** A meter in hand whose host answers from a script, with its screen open at a part of it. */
async function openAt(part: string) {
  const script: Script = {
    'host.describe': () => ({
      version: '0.1.0',
      host: 'memory',
      archivePath: '/data/tiltwright.sqlite',
      recoveredSweeps: [],
      profiles: [{ name: 'line', title: 'Plain lines' }],
    }),
    'meters.current': () => ({ meter: meterOn(null) }),
    'meters.find': () => ({ ports: [], problem: null }),
    'meters.health': () => ({
      where: 'COM3',
      readingCount: 136,
      readingsPerSecond: 12.4,
      unansweredCount: 2,
      breakCount: 1,
      lastProblem: 'check the cable',
      lastAnswerAgoMs: 4200,
      traffic: [
        { way: 'said', text: 'READ 711.000', agoMs: 4300 },
        { way: 'heard', text: '\\x00 7.11', agoMs: 4200 },
      ],
    }),
    'meters.calibration': ({ dueOn }) => meterOn(dueOn),
    'profiles.check': () => ({
      exchanges: [
        { step: 'level', said: 'READ 300', heard: 'what', understood: null, problem: 'it does not read so' },
      ],
      problemCount: 1,
    }),
    'profiles.save': () => ({ name: 'mine' }),
    'profiles.list': () => ({
      profiles: [{ name: 'mine', title: 'Mine' }],
      broken: [{ fileName: 'old.json', where: 'old.json, colour', help: 'nobody knows this key' }],
      folder: '/data/profiles',
    }),
  };
  const bench = await showApp(script);
  await press(/^Meter:/);
  await press(part, 'radio');
  return bench;
}
const type = (label: string, value: string) =>
  act(async () => {
    fireEvent.change(screen.getByLabelText(label), { target: { value } });
  });

it('shows how the link is and its last lines, the newest first', async () => {
  await openAt('Link and calibration');
  const facts = [...document.querySelectorAll('.link-health > div')].map((one) => plain(one.textContent));
  expect(facts).toEqual([
    'OnCOM3',
    'Readings a second12',
    'Readings136',
    'Errors2 unanswered, 1 broken off',
    'Last answer5 s ago',
  ]);
  expect(screen.getByText(/Last problem: check the cable/)).toBeDefined();
  const lines = [...document.querySelectorAll('.traffic li')].map((one) => one.textContent);
  expect(lines).toEqual(['heard\\x00 7.11', 'saidREAD 711.000']);
});

it('warns of a calibration that is past by the sticker, in the screen and on the chip', async () => {
  const { store } = await openAt('Link and calibration');
  expect(screen.getByText(/calibration date not known/)).toBeDefined();
  await type('Calibration due, says its sticker', '2026-11-25');
  await press('Keep this day');
  expect(screen.queryByText(/Calibration past/)).toBeNull();
  expect(plain(screen.getByText(/calibration counts to/).textContent)).toContain('25 November 2026');
  await type('Calibration due, says its sticker', '2026-11-24');
  await press('Keep this day');
  expect(plain(screen.getByText(/Calibration past/).textContent)).toContain('24 November 2026');
  await press('Close');
  expect(store.getState().dialog).toEqual({ open: 'none' });
  expect(screen.getByRole('button', { name: /^Meter: Bench meter, calibration past since/ })).toBeDefined();
});

it('tries a profile question by question and keeps it', async () => {
  const { inputOf, store } = await openAt('Profiles');
  const broken = screen.getByRole('region', { name: 'Files that are no profiles' });
  expect(plain(broken.textContent)).toContain('in /data/profiles:old.json, colour: nobody knows this key');
  await type('The profile', '{ "name": "mine" }');
  await press('Check it');
  expect(inputOf('profiles.check')).toEqual({
    path: 'COM3',
    text: '{ "name": "mine" }',
    atMhz: 300,
  });
  expect(plain(document.querySelector('.exchanges')?.textContent)).toBe(
    'levelREAD 300what it does not read so',
  );
  await press('Keep this profile');
  expect(screen.getByText(/Kept as mine/)).toBeDefined();
  const { link } = store.getState();
  expect(link.at === 'open' && link.profiles).toEqual([{ name: 'mine', title: 'Mine' }]);
});
