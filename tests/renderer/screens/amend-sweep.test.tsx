// @vitest-environment jsdom
import { act, cleanup, fireEvent, screen, within } from '@testing-library/react';
import { expect, it } from 'vitest';
import type { Sweep } from '../../../core/bridge/records.ts';
import type { Station } from '../../../core/files/station.ts';
import { viewSheet } from '../../../renderer/state/sheet-view.ts';
import type { Script } from '../scripted-client.ts';
import { byReading, sheetOf, station, sweepOf } from '../sheet-records.ts';
import { press, showApp } from '../shown-app.tsx';

const good = sweepOf({ n: 1, offDb: () => 0 });
const bad = sweepOf({ n: 2, offDb: () => -3 });
const said = { reason: 'wrong test point', operator: 'R. Voss', at: '2026-11-25T09:40:00.000Z' };
const withOver = (sweep: Sweep, over: Partial<Sweep['summary']>): Sweep => ({
  ...sweep,
  summary: { ...sweep.summary, ...over },
});

async function host(sweeps: readonly Sweep[], at: Station = station, more: Script = {}) {
  const found = sheetOf(sweeps);
  const state = { ...found, sheet: { ...found.sheet, station: at } };
  const script: Script = {
    'stations.open': () => state.sheet,
    'sweeps.open': ({ sweepId }) => state.byId[sweepId] ?? good,
    'sweeps.void': ({ sweepId, reason, operator }) => {
      const sweep = state.byId[sweepId];
      if (sweep === undefined) throw new Error('no such sweep');
      const struck = withOver(sweep, { voided: { reason, operator, at: said.at } });
      state.byId[sweepId] = struck;
      const told = state.sheet.sweeps.map((one) => (one.sweepId === sweepId ? struck.summary : one));
      state.sheet = { ...state.sheet, sweeps: told };
      return struck.summary;
    },
    'sweeps.correct': ({ sweepId }) => withOver(good, { sweepId }).summary,
    ...more,
  };
  return await showApp(script, { stationId: station.id });
}
const openAmend = async () => {
  await press(/^Sweep: correct/);
  await press('Correct, void', 'menuitem');
};

it.each([
  [{ kept: true, byteCount: 2310, same: true }, /^Its bytes say the same, 3\slevels\./, 'news'],
  [{ kept: true, byteCount: 2310, same: false }, /^Its bytes say other levels than the sweep\./, 'problem'],
  [{ kept: false, byteCount: 0, same: false }, /^No bytes are kept with this sweep\./, 'news'],
] as const)('holds a sweep against its bytes, and says what they say: %j', async (found, words, tone) => {
  const { inputOf, store } = await host([good, bad], station, {
    'sweeps.reread': () => ({ ...found, readings: good.readings.slice(0, 3) }),
  });
  await press(/^Sweep: correct/);
  await press('Hold against its bytes', 'menuitem');
  expect(inputOf('sweeps.reread')).toEqual({ sweepId: bad.summary.sweepId });
  expect(store.getState().notice).toMatchObject({ tone, text: expect.stringMatching(words) });
  expect(document.body.textContent).toContain(store.getState().notice?.text);
});

it('declares a sweep void only with a reason, strikes it in the log, and judges the one before', async () => {
  const { inputOf } = await host([good, bad]);
  await openAmend();
  const dialog = within(screen.getByRole('dialog'));
  fireEvent.click(dialog.getByRole('radio', { name: 'Declare it void' }));
  const button = () => dialog.getByRole('button', { name: 'Declare it void' }) as HTMLButtonElement;
  expect(button().disabled).toBe(true);
  expect(dialog.getByText('Say why.')).toBeTruthy();
  fireEvent.change(dialog.getByRole('textbox', { name: /Why/ }), { target: { value: ' wrong test point ' } });
  fireEvent.change(dialog.getByRole('textbox', { name: /Who says so/ }), { target: { value: 'R. Voss' } });
  await act(async () => {
    fireEvent.click(button());
  });
  const { sweepId } = bad.summary;
  expect(inputOf('sweeps.void')).toEqual({
    sweepId,
    reason: 'wrong test point',
    operator: 'R. Voss',
  });
  expect(screen.queryByRole('dialog')).toBeNull();
  const log = screen.getByRole('listbox', { name: /Sweeps and fittings/ });
  const struck = within(log).getByRole('option', { name: /void: wrong test point/ });
  expect(struck.querySelector('s')?.textContent).toBe('As found');
  const chosen = within(log)
    .getAllByRole('option')
    .filter((one) => one.getAttribute('aria-selected') === 'true');
  expect(chosen.map((one) => one.getAttribute('data-key'))).toEqual([good.summary.sweepId]);
});

it('corrects what was noted, once something is said otherwise', async () => {
  const { inputOf } = await host([good]);
  await openAmend();
  const dialog = within(screen.getByRole('dialog'));
  fireEvent.change(dialog.getByRole('textbox', { name: /Why/ }), {
    target: { value: 'the point has 16 dB' },
  });
  fireEvent.change(dialog.getByRole('textbox', { name: /Who says so/ }), { target: { value: 'R. Voss' } });
  expect(dialog.getByText('Change what was noted wrongly.')).toBeTruthy();
  fireEvent.click(dialog.getByRole('radio', { name: 'As left' }));
  await act(async () => {
    fireEvent.click(dialog.getByRole('button', { name: 'Add the correction' }));
  });
  expect(inputOf('sweeps.correct')).toEqual({
    sweepId: good.summary.sweepId,
    reason: 'the point has 16 dB',
    operator: 'R. Voss',
    testPointLossDb: 20,
    portName: 'forward output',
    purpose: 'as-left',
    ambientC: 12,
  });
});

it('corrects the port, takes the loss of its test point along, and follows the sweep there', async () => {
  const [output, input] = station.ports;
  if (output === undefined || input === undefined) throw new Error('two ports');
  const ports = [output, { ...input, testPointLossDb: 16 }];
  const { inputOf, store } = await host([good], { ...station, ports });
  await openAmend();
  const dialog = within(screen.getByRole('dialog'));
  fireEvent.click(dialog.getByRole('radio', { name: 'Forward input' }));
  fireEvent.change(dialog.getByRole('textbox', { name: /Why/ }), { target: { value: 'the lead was there' } });
  fireEvent.change(dialog.getByRole('textbox', { name: /Who says so/ }), { target: { value: 'R. Voss' } });
  await act(async () => {
    fireEvent.click(dialog.getByRole('button', { name: 'Add the correction' }));
  });
  expect(inputOf('sweeps.correct')).toMatchObject({ portName: 'forward input', testPointLossDb: 16 });
  expect(store.getState().sheet).toMatchObject({ portName: 'forward input' });
});

it('saves a response only where what went in was read in the same visit', async () => {
  const words = async (sweeps: readonly Sweep[]) => {
    await host(sweeps, { ...station, stageInput });
    await press(/^Sweep: correct/);
    const item = screen.getByRole('menuitem', { name: /Save the response/ });
    const said = [item.textContent, item.getAttribute('aria-disabled')];
    cleanup();
    return said;
  };
  const stageInput = {
    port: 'forward input',
    through: ['input pad'],
    atMhz: 870,
    minDbmv: 8,
    maxDbmv: 14,
  };
  const wentIn = withOver(bad, { portName: 'forward input' });
  expect(await words([good])).toEqual(['Save the response, once what went in is read too', 'true']);
  expect(await words([good, wentIn])).toEqual(['Save the response from the forward input, .s2p', null]);
});

it('judges nothing by a void sweep nor by one that was corrected, and says why', () => {
  const view = (over: Partial<Sweep['summary']>) => {
    const { sheet, byId } = sheetOf([good, withOver(bad, over)]);
    const newest = viewSheet(sheet, 'forward output', null, byId, null, byReading);
    const shown = viewSheet(sheet, 'forward output', bad.summary.sweepId, byId, null, byReading);
    return { newest, shown };
  };
  for (const over of [{ voided: said }, { correctedBy: good.summary.sweepId }]) {
    const { newest, shown } = view(over);
    expect(newest?.shown?.summary.sweepId).toBe(good.summary.sweepId);
    expect(newest?.standing?.verdict).toBe('pass');
    expect(newest?.isNewest).toBe(true);
    expect(shown?.standing).toBeNull();
    expect(shown?.proposal).toBeNull();
  }
  expect(view({ voided: said }).shown?.unjudged).toBe('Void: wrong test point (R. Voss)');
});
