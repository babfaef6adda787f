// @vitest-environment jsdom
import { act, fireEvent, screen, within } from '@testing-library/react';
import { expect, it } from 'vitest';
import type { StationSheet, Sweep } from '../../../core/bridge/records.ts';
import { FIRST_SETTINGS, type Settings } from '../../../core/bridge/settings-calls.ts';
import type { StationNotes } from '../../../core/files/station-notes.ts';
import type { Truck } from '../../../core/files/truck.ts';
import { plain } from '../plain.ts';
import type { Script } from '../scripted-client.ts';
import { exact, sheetOf, station, sweepOf } from '../sheet-records.ts';
import { press, showApp } from '../shown-app.tsx';

/** A host of one station that keeps what it is told, as the archive does. */
async function host(
  start: Readonly<{
    sweeps: readonly Sweep[];
    over?: Partial<StationSheet>;
    settings?: Settings;
    truck?: Truck;
    notes?: StationNotes;
  }>,
) {
  const state = sheetOf(start.sweeps, start.over);
  const kept = {
    settings: { settings: start.settings ?? exact, revision: 1, changedAt: null as string | null },
    truck: { truck: start.truck ?? null, revision: 1, changedAt: null as string | null },
    notes: {
      stationId: station.id,
      notes: start.notes ?? null,
      revision: 1,
      changedAt: null as string | null,
    },
  };
  const kit = [
    { kind: 'pad' as const, topMhz: null, valuesDb: [0, 1, 2, 4] },
    { kind: 'equalizer' as const, topMhz: 870, valuesDb: [4, 6] },
  ];
  const script: Script = {
    'stations.open': () => state.sheet,
    'sweeps.open': ({ sweepId }) => state.byId[sweepId] as Sweep,
    'settings.read': () => kept.settings,
    'settings.change': ({ settings }) => {
      kept.settings = { settings, revision: kept.settings.revision + 1, changedAt: null };
      return kept.settings;
    },
    'notes.read': () => kept.notes,
    'notes.change': ({ notes }) => {
      kept.notes = { ...kept.notes, notes, revision: kept.notes.revision + 1 };
      return kept.notes;
    },
    'truck.read': () => ({ ...kept.truck, kit }),
    'truck.change': ({ truck }) => {
      kept.truck = { truck, revision: kept.truck.revision + 1, changedAt: null };
      return kept.truck;
    },
  };
  return { ...(await showApp(script, { stationId: station.id })), kept };
}
const high = () => plain(screen.getByRole('row', { name: /Level, high/ }).textContent);

it('shows levels in the unit that was chosen, at once and everywhere on the sheet', async () => {
  const { kept } = await host({ sweeps: [sweepOf({ n: 1, offDb: () => 0 })] });
  expect(high()).toContain('of 46.0 dBmV46.0');
  await press(/^Settings/);
  await press('dB\u00B5V', 'radio');
  await press('\u00B0F', 'radio');
  expect(kept.settings.settings).toMatchObject({ levelUnit: 'dBuV', temperatureUnit: 'F' });
  await press('Close');
  expect(high()).toContain('of 106.0 dB\u00B5V106.0');
  expect(plain(screen.getByRole('button', { name: /A visit is open/ }).textContent)).toContain('54 \u00B0F');
  await press('Table', 'radio');
  expect(screen.getByRole('columnheader', { name: /Level, dB\u00B5V/ })).toBeDefined();
});

it('says undecided with the chance, in the headline, the table and by its own mark', async () => {
  await host({ sweeps: [sweepOf({ n: 1, offDb: () => 0.8 })], settings: FIRST_SETTINGS });
  expect(screen.getByRole('heading', { level: 1 }).textContent).toMatch(
    /^Undecided: 0\.8 dB high at \d+ MHz/,
  );
  const worst = screen.getByRole('row', { name: /Worst channel/ });
  expect(plain(worst.textContent)).toMatch(
    /^Worst channelwithin \u00B11\.0 dB\+0\.8\u00B10\.\d undecided\d\d % inside$/,
  );
  expect(worst.querySelector('.mark--undecided')).not.toBeNull();
});

it('tells on a press how a number was computed, what it is uncertain by and from which source', async () => {
  await host({ sweeps: [sweepOf({ n: 1, offDb: () => -2 })], settings: FIRST_SETTINGS });
  await press(/^Level, high, .*How it was computed/);
  const how = within(await screen.findByRole('dialog', { name: 'Level, high' }));
  const text = plain(how.getByText(/straight line through/).parentElement?.textContent);
  expect(text).toContain('44.0 dBmV \u00B10.');
  expect(text).toContain('(f \u2212 54) / (870 \u2212 54)');
  expect(text).toContain('lies inside is 2 in 1000');
  expect(text).toContain('meter accuracy');
  expect(text).toContain('Ordinary least squares'.toLowerCase());
  expect(text).toContain('JCGM 106:2012');
  expect(text).toContain('no sheet of its own');
});

it('keeps a meter’s own sheet, and says what a level is then good to', async () => {
  const { kept } = await host({ sweeps: [sweepOf({ n: 1, offDb: () => 0 })], settings: FIRST_SETTINGS });
  await press(/^Settings/);
  const section = screen.getByRole('region', { name: 'What the meter is good to' });
  const before = plain(section.textContent);
  const accuracy = within(section).getByLabelText('Accuracy');
  await act(async () => {
    fireEvent.change(accuracy, { target: { value: '0.1' } });
    fireEvent.blur(accuracy);
  });
  const goodTo = (text: string) => Number(/good to \u00B1([\d.]+) dB/.exec(text)?.[1]);
  expect(goodTo(plain(section.textContent))).toBeLessThan(goodTo(before));
  await press('Keep these numbers');
  expect(kept.settings.settings.meter.accuracyDb).toBe(0.1);
});

it('counts the truck by steppers, and proposes only what is there', async () => {
  const { kept } = await host({ sweeps: [sweepOf({ n: 1, offDb: () => -2 })] });
  expect(screen.getByLabelText('Input pad: replace 6 with 4')).toBeDefined();
  await press('Truck: parts in the truck');
  await press('Count the truck');
  await press('one pad 2 more');
  await press('one pad 2 more');
  await press('one pad 2 less');
  await press('That is what is there');
  expect(kept.truck.truck?.parts).toEqual([{ kind: 'pad', valueDb: 2, count: 1 }]);
  expect(screen.queryByLabelText('Input pad: replace 6 with 4')).toBeNull();
});

it('asks before a chosen part that nobody has noted is gone, and never about one that was only proposed', async () => {
  const { asked } = await host({ sweeps: [sweepOf({ n: 1, offDb: () => -2 })] });
  await press(/^input pad: 6 is in.*Change what is in\.$/i);
  await press('Close');
  expect(screen.queryByRole('dialog')).toBeNull();
  await press(/^input pad: 6 is in.*Change what is in\.$/i);
  await act(async () => fireEvent.click(screen.getByRole('option', { name: '3' })));
  await press('Close');
  expect(screen.getByRole('alertdialog', { name: 'Keep the changes?' })).toBeDefined();
  await press('Discard');
  expect(screen.queryByRole('dialog')).toBeNull();
  expect(asked.map(({ name }) => name)).not.toContain('parts.fit');
});

it('learns a line-up from the sweep, lets many channels be told at once, and judges by it', async () => {
  const carried = sweepOf({ n: 1, offDb: () => -10 });
  const { kept } = await host({ sweeps: [carried] });
  expect(screen.getByRole('heading', { level: 1 }).textContent).toMatch(/10\.0 dB low/);
  await press('Line-up');
  expect(screen.getByText(/Learned from the shown sweep/).textContent).toContain('guessed');
  await press('All 136');
  await press('64-QAM', 'radio');
  expect(screen.getAllByRole('row', { name: '2' })[0]?.textContent).toContain('64-QAM\u221210.0');
  await press('Judge by this line-up');
  expect(kept.notes.notes?.lineUp).toHaveLength(136);
  expect(kept.notes.notes?.lineUp?.[0]).toMatchObject({ kind: 'qam', qamOrder: 64, offsetDb: -10 });
  expect(screen.getByRole('heading', { level: 1 }).textContent).toMatch(/^On design/);
  expect(screen.getByText(/as the line-up says/)).toBeDefined();
});

it('asks before a count of the truck is gone, and takes what its parts may lie off their labels', async () => {
  const { kept } = await host({ sweeps: [sweepOf({ n: 1, offDb: () => -2 })] });
  const open = async () => {
    await press('Truck: parts in the truck');
    await press('Count the truck');
    await press('one pad 2 more');
  };
  await open();
  await press('Close');
  await press('Discard');
  expect(kept.truck.truck).toBeNull();
  await open();
  const field = screen.getByRole('textbox', { name: /^by up to/ });
  await act(async () => {
    fireEvent.change(field, { target: { value: '0.1' } });
    fireEvent.blur(field);
  });
  await press('Close');
  await press('Keep');
  expect(screen.queryByRole('dialog')).toBeNull();
  expect(kept.truck.truck?.parts).toContainEqual({ kind: 'pad', valueDb: 2, count: 1, toleranceDb: 0.1 });
  expect(kept.truck.truck?.parts).toContainEqual({ kind: 'pad', valueDb: 4, count: 0, toleranceDb: 0.1 });
});

it('proposes a trim in words once the plug-ins are in', async () => {
  const trims = [
    { name: 'output gain', kind: 'gain' as const, rangeDb: [-2, 2] as [number, number], atMhz: 867 },
  ];
  await host({
    sweeps: [sweepOf({ n: 1, offDb: () => 0.7 })],
    notes: { format: 'tiltwright-station-notes/1', trims },
  });
  const list = within(screen.getByRole('list', { name: 'Trims to turn' }));
  expect(plain(list.getByRole('listitem').textContent)).toBe('Output gainturn down 0.7 dB at 867 MHz');
  expect(screen.getByRole('button', { name: 'Trims turned, read again' })).toBeDefined();
});

it('says that plug-ins can not mend it when that is the truth', async () => {
  await host({ sweeps: [sweepOf({ n: 1, offDb: (f) => (Math.abs(f - 609) <= 15 ? -5 : 0) })] });
  expect(screen.getByText(/cannot be mended by plug-ins/)).toBeDefined();
});

it('takes the meter’s numbers of this station before those for any meter, and forgets them again', async () => {
  const { kept } = await host({ sweeps: [sweepOf({ n: 1, offDb: () => 0.8 })], settings: FIRST_SETTINGS });
  await press(/^Settings/);
  await press('At this station', 'radio');
  const section = screen.getByRole('region', { name: 'What the meter is good to' });
  for (const name of ['Accuracy', 'End against end', 'Repeatability', 'Test point', 'Drift']) {
    const field = within(section).getByLabelText(name);
    await act(async () => {
      fireEvent.change(field, { target: { value: '0' } });
      fireEvent.blur(field);
    });
  }
  await press('Keep these numbers');
  expect(kept.notes.notes?.meter).toMatchObject({ accuracyDb: 0, repeatabilityDb: 0 });
  await press('Close');
  expect(screen.getByRole('heading', { level: 1 }).textContent).toMatch(/^On design/);
  await press(/^Settings/);
  await press('Forget these');
  expect(kept.notes.notes?.meter).toBeUndefined();
  await press('Close');
  expect(screen.getByRole('heading', { level: 1 }).textContent).toMatch(/^Undecided/);
});
