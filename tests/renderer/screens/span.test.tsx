// @vitest-environment jsdom
import { cleanup, screen, within } from '@testing-library/react';
import { expect, it } from 'vitest';
import type { CascadeLink } from '../../../core/bridge/cascade-calls.ts';
import type { Sweep } from '../../../core/bridge/records.ts';
import { FIRST_SETTINGS, type Settings } from '../../../core/bridge/settings-calls.ts';
import { cableNamed } from '../../../core/coax/loss.ts';
import { spanLossDb } from '../../../core/coax/span.ts';
import type { StationNotes } from '../../../core/files/station-notes.ts';
import { plain } from '../plain.ts';
import type { Script } from '../scripted-client.ts';
import { installed, station as plainStation, sheetOf, sweepOf } from '../sheet-records.ts';
import { fill, press, showApp } from '../shown-app.tsx';

const format = 'tiltwright-station-notes/1' as const;
const figures: StationNotes = {
  format,
  span: { cable: '.750', lengthM: 379 },
  amplifier: { noiseFigureDb: 9, gainDb: 30, ratedAtDbmv: 46, ctbDbc: -73, csoDbc: -70 },
  cascade: { source: { cnrDb: 52 } },
};
const station = {
  ...plainStation,
  stageInput: {
    ...{ port: 'forward input', through: ['input pad', 'input equalizer'] },
    ...{ atMhz: 867, minDbmv: 8, maxDbmv: 14 },
  },
};

/** A sweep of the input behind so much .750, with so much more lost at every frequency. */
function inputSweep(lengthM: number, moreDb: number): Sweep {
  const cable = cableNamed('.750');
  if (!cable.ok) throw new Error(cable.help);
  const sweep = sweepOf({ n: 1, offDb: () => 0, over: { portName: 'forward input', ambientC: 20 } });
  return {
    ...sweep,
    readings: sweep.readings.map((reading) => {
      const loss = spanLossDb(cable.value, reading.frequencyMhz, lengthM);
      const lossDb = loss.ok ? loss.value + moreDb : 0;
      return { ...reading, meterDbmv: (reading.meterDbmv ?? 0) - lossDb };
    }),
  };
}

/** A host of one station that keeps its notes, as the archive does, and stands in no cascade. */
async function host(
  start: Readonly<{ notes?: StationNotes; input?: Sweep; settings?: Partial<Settings> }> = {},
) {
  const state = sheetOf([], { station });
  const kept = { stationId: station.id, notes: start.notes ?? null, revision: 1, changedAt: null };
  const notes = { current: kept as Omit<typeof kept, 'notes'> & { notes: StationNotes | null } };
  const link = (): CascadeLink => ({
    ...{ station, pluggedIn: installed, notes: notes.current.notes },
    ...{ output: null, input: start.input ?? null },
  });
  const script: Script = {
    'stations.open': () => state.sheet,
    'settings.read': () => ({
      ...{ settings: { ...FIRST_SETTINGS, ...start.settings }, revision: 1, changedAt: null },
    }),
    'notes.read': () => notes.current,
    'notes.change': ({ notes: changed }) => {
      notes.current = { ...notes.current, notes: changed, revision: notes.current.revision + 1 };
      return notes.current;
    },
    'cascade.read': () => ({ links: [link()], unknownId: null }),
  };
  const bench = await showApp(script, { stationId: station.id });
  await press('Span and noise', 'radio');
  return { ...bench, notes };
}
const side = () => within(screen.getByRole('complementary', { name: 'Noise and distortion' }));
const facts = () => plain(screen.getByRole('region', { name: 'The span in figures' }).textContent);

it('says what to enter and where it stands, while nothing is known', async () => {
  await host();
  expect(side().getByRole('heading', { level: 1 }).textContent).toBe(
    'The amplifier’s figures are not entered',
  );
  expect(side().getByText(/data sheet/)).toBeDefined();
  expect(screen.getByText(/Taken for now/)).toBeDefined();
  expect(screen.getByText('Loss table: from memory, unverified.')).toBeDefined();
});

it('gives the loss of a length and the length of a loss, and keeps the span in the notes', async () => {
  const { notes } = await host({ settings: { lengthUnit: 'ft' } });
  // Two-term .750 at 870 MHz: 1.6105 dB in 100 ft.
  await fill('Length', '1000');
  expect(screen.getByLabelText<HTMLInputElement>(/or loss at/).value).toBe('16.1');
  await fill(/or loss at/, '20');
  expect(screen.getByLabelText<HTMLInputElement>('Length').value).toBe('1242');
  await press('0.10 %', 'radio');
  await press('Keep this span');
  expect(notes.current.notes?.span).toEqual({
    ...{ cable: '.750', lengthM: expect.closeTo(378.5, 0), perDegreeF: 0.001 },
  });
  expect(screen.queryByRole('button', { name: 'Keep this span' })).toBeNull();
  expect(plain(document.querySelector('.span-main__head')?.textContent)).toContain('1242 ft of .750');
});

it('asks before a span that nothing has kept is left, and keeps it on the word', async () => {
  const { notes } = await host({ notes: figures });
  await press('Peaking', 'radio');
  await press('Span and noise', 'radio');
  await fill('Length', '400');
  await press('Peaking', 'radio');
  expect(screen.getByRole('alertdialog', { name: 'Keep the changes?' })).toBeDefined();
  await press('Go on editing');
  expect(screen.getByLabelText<HTMLInputElement>('Length').value).toBe('400');
  await press('Back to the stations');
  await press('Go on editing');
  await press('Peaking', 'radio');
  await press('Keep');
  expect(notes.current.notes?.span).toEqual({ cable: '.750', lengthM: 400 });
  expect(screen.queryByRole('region', { name: 'The span in front of this station' })).toBeNull();
});

it('holds a sweep of the input against the cable, and says what is wrong with it', async () => {
  await host({ notes: figures, input: inputSweep(379, 0) });
  expect(facts()).toContain('Loses what it should');
  cleanup();
  await host({ notes: figures, input: inputSweep(430, 0) });
  expect(facts()).toContain('dB more at 867 MHz');
  expect(facts()).toContain('As 430 m of .750 would lose instead of 379 m');
  cleanup();
  await host({ notes: figures, input: inputSweep(379, 3.5) });
  expect(facts()).toContain('3.5 dB more, all along the band');
  await press(/^3\.5.dB more.*How it was computed/);
  const how = within(await screen.findByRole('dialog', { name: 'Measured loss of the span' }));
  expect(how.getByText(/quoting SCTE 270/)).toBeDefined();
});

it('tells noise and distortion with limits, formula and source', async () => {
  await host({ notes: figures });
  const row = side().getByRole('row', { name: /Triple beat/ });
  expect(plain(row.textContent)).toMatch(/here −73\.0, limit −53\.0 dBc.*−73\.0.*good/);
  expect(plain(side().getByRole('row', { name: /Carrier to noise/ }).textContent)).toContain('no limit');
  await press(/^Carrier to noise, .*How it was computed/);
  const how = within(await screen.findByRole('dialog', { name: 'Carrier to noise behind the cascade' }));
  expect(plain(how.getByText(/The noises of all stations/).textContent)).toContain('noise figure of 9.0 dB');
  expect(how.getByText(/1\.380649e-23/)).toBeDefined();
  expect(how.getByText('source')).toBeDefined();
});

it('decides nothing within the doubt of a data sheet, and says which limit holds and why', async () => {
  const amplifier = { noiseFigureDb: 9, gainDb: 38, ratedAtDbmv: 46, ctbDbc: -51.5, csoDbc: -70 };
  const analog = { kind: 'analog' as const, widthMhz: 6, offsetDb: 0 };
  const lineUp = [55.25, 61.25].map((frequencyMhz, i) => ({
    channelLabel: `${i + 2}`,
    frequencyMhz,
    ...analog,
  }));
  await host({ notes: { format, lineUp, amplifier } });
  expect(plain(side().getByRole('heading', { level: 1 }).textContent)).toBe(
    'Undecided: CTB is within 2.0 dB of its limit',
  );
  const row = side().getByRole('row', { name: /Triple beat/ });
  expect(plain(row.textContent)).toMatch(/limit −51\.0 dBc.*undecidedby 0\.5 dB/);
  // Two carriers at the low end of the design line, 36 dBmV at 54 MHz: 10 log 2 = 3.0 dB more than one.
  expect(plain(side().getByRole('button', { name: /^All carriers together/ }).textContent)).toBe(
    'All carriers together are to put out 39.1 dBmV.',
  );
  await press(/^Triple beat, .*How it was computed/);
  const how = within(await screen.findByRole('dialog', { name: 'Triple beat, CTB behind the cascade' }));
  const judged = plain(how.getByText(/subscriber’s terminal/).textContent);
  expect(judged).toContain('because the analog carriers stand on STD, which is no comb.');
  expect(judged).toContain('an amplifier may lie 2.0 dB from it');
});

it('takes the figures of a data sheet, and refuses in words what can’t be', async () => {
  const { notes } = await host();
  await press('Enter the figures');
  await press('Keep these figures');
  expect(screen.getByText(/noise figure is what everything else rests on/)).toBeDefined();
  await fill('Noise figure', '8.5');
  await fill('CTB', '74', 0);
  await press('Keep these figures');
  expect(screen.getByText(/at which output level/)).toBeDefined();
  await fill('Distortion is rated at', '46');
  await press('Keep these figures');
  expect(notes.current.notes).toEqual({
    ...{ format, amplifier: { noiseFigureDb: 8.5, ratedAtDbmv: 46, ctbDbc: -74 } },
  });
  expect(side().getByText(/read the forward input, or enter the gain/)).toBeDefined();
});
