// @vitest-environment jsdom
import { act, fireEvent, screen, within } from '@testing-library/react';
import { expect, it } from 'vitest';
import { installedOf, type PluggedIn, Station } from '../../../core/files/station.ts';
import type { Script } from '../scripted-client.ts';
import { installed, sheetOf, station, sweepFrom, sweepOf } from '../sheet-records.ts';
import { press, showApp } from '../shown-app.tsx';

/** Half a dB more than the label says at the low end, and no less at the high one. */
const measured = (gain: (share: number) => number, ohm = 75) =>
  new File(
    [
      `# MHz S DB R ${ohm}\n${[50, 460, 900].map((f, i) => `${f} -60 0 ${gain(i / 2)} 0 -60 0 -60 0`).join('\n')}\n`,
    ],
    'eight.s2p',
  );

async function host(pluggedIn: PluggedIn = installed) {
  const found = sheetOf([sweepOf({ n: 1, offDb: () => 0 })]);
  const kept = { sheet: { ...found.sheet, pluggedIn } };
  const script: Script = {
    'stations.open': () => kept.sheet,
    'sweeps.open': sweepFrom(found),
    'stations.import': ({ text }) => {
      const revision = kept.sheet.revision + 1;
      kept.sheet = { ...kept.sheet, revision, station: Station.parse(JSON.parse(text)) };
      return { stationId: station.id, revision };
    },
  };
  const { store } = await showApp(script, { stationId: station.id });
  await act(async () => store.getState().dialogOpened({ open: 'position', position: 'input equalizer' }));
  const curves = () => kept.sheet.station.positions.find(({ name }) => name === 'input equalizer')?.curves;
  return { store, curves, plugged: () => installedOf(kept.sheet.station) };
}
const dialog = () => within(screen.getByRole('dialog'));
const choose = (file: File) =>
  act(async () => {
    const input = document.querySelector('input[type=file][accept=".s2p,.ts"]');
    if (input === null) throw new Error('nothing to choose a file with');
    fireEvent.change(input, { target: { files: [file] } });
    await new Promise((resolve) => setTimeout(resolve, 20));
  });

it('shows a measured loss at three frequencies before anything is computed with it, and takes it back', async () => {
  const { store, curves } = await host();
  expect(dialog().getByRole('region', { name: 'Loss of 8' }).textContent).toMatch(/^8 by its label: /);
  await choose(measured((share) => -9 + 8 * share));
  const rows = dialog()
    .getAllByRole('row')
    .map((row) => [...row.children].map((cell) => cell.textContent));
  expect(rows.map(([mhz]) => mhz)).toEqual(['MHz', '54', '462', '870']);
  // 9 dB at 50 MHz, 5 at 460, 1 at 900, straight between.
  expect(rows.slice(1).map(([, , now]) => now)).toEqual(['9.0', '5.0', '1.3']);
  expect(curves()).toBeUndefined();
  await press('Compute with it');
  expect(curves()).toEqual({
    '8': [
      [50, 9],
      [460, 5],
      [900, 1],
    ],
  });
  expect(dialog().getByRole('region', { name: 'Loss of 8' }).textContent).toMatch(
    /^8 as measured, 3.points: /,
  );
  const { notice } = store.getState();
  expect(notice?.text).toBe('The measured loss of 8 is kept.');
  await act(async () => notice?.undo?.go());
  expect(curves()).toBeUndefined();
});

it('goes back to the label, and leaves a draft that is not wanted', async () => {
  const { curves } = await host();
  await choose(measured(() => -7));
  await press('Not this one');
  expect(curves()).toBeUndefined();
  await choose(measured(() => -7));
  await press('Compute with it');
  expect(curves()).toBeDefined();
  await press('By its label again');
  expect(curves()).toBeUndefined();
});

it('leaves in what was fitted since the design was written', async () => {
  const fitted = { 'input pad': 2, 'input equalizer': 8 };
  const { curves, plugged } = await host(fitted);
  await choose(measured(() => -7));
  await press('Compute with it');
  expect(curves()).toBeDefined();
  expect(plugged()).toEqual(fitted);
});

const said = () => within(dialog().getByRole('region', { name: 'Loss of 8' })).getByRole('alert');

it('says why a file is no loss of a plug-in, and keeps nothing of it', async () => {
  const { curves } = await host();
  await choose(measured(() => 20));
  expect(said().textContent).toBe('eight.s2p, 50 MHz: S21 is a gain of 20.0 dB; a plug-in has a loss');
  expect(dialog().queryByRole('button', { name: 'Compute with it' })).toBeNull();
  await choose(new File(['not a measurement'], 'x.s2p'));
  expect(said().textContent).toMatch(/^x\.s2p/);
  expect(curves()).toBeUndefined();
});
