import { expect, it } from 'vitest';
import { conditionsOf, meterSheet } from '../../../core/bridge/conditions.ts';
import { FIRST_SETTINGS, Settings } from '../../../core/bridge/settings-calls.ts';
import { MeterUncertainty } from '../../../core/files/meter-uncertainty.ts';
import type { StationNotes } from '../../../core/files/station-notes.ts';

const sheet = (accuracyDb: number) => MeterUncertainty.parse({ accuracyDb });
const settings: Settings = { ...FIRST_SETTINGS, meter: sheet(0.5), sheets: { 'Model A': sheet(0.2) } };
const notes: StationNotes = { format: 'tiltwright-station-notes/1', meter: sheet(0.9) };
const identity = { maker: 'M', model: 'Model A', serialNumber: '1', firmware: '1' };

// Common practice, no published source: the nearer word goes first.
it('takes the word of the station before that of the meter, and that before the defaults', () => {
  expect(meterSheet(settings, notes, 'Model A')).toEqual({ sheet: sheet(0.9), source: { from: 'station' } });
  expect(meterSheet(settings, null, 'Model A')).toEqual({
    sheet: sheet(0.2),
    source: { from: 'model', model: 'Model A' },
  });
  expect(meterSheet(settings, null, 'Model B').source).toEqual({ from: 'defaults' });
  expect(meterSheet(settings, null, null).sheet).toEqual(sheet(0.5));
  expect(meterSheet(settings, null, 'constructor').source).toEqual({ from: 'defaults' });
});

it('passes the temperature on, and leaves an unknown one unknown', () => {
  expect(conditionsOf(settings, null, { meter: identity, ambientC: -8 })).toEqual({
    meter: sheet(0.2),
    ambientC: -8,
  });
  expect(conditionsOf(settings, null, { meter: null, ambientC: null }).ambientC).toBeNull();
});

it('starts from settings that are settings', () => {
  expect(Settings.parse(FIRST_SETTINGS)).toEqual(FIRST_SETTINGS);
});
