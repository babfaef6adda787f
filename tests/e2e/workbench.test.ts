import { mkdtempSync, rmSync, symlinkSync, unlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { quillmere } from '../../core/simulate/quillmere.ts';
import type { Probe } from '../../electron/backend/meters/meter-shop.ts';
import { SimulatedInstrument } from '../../electron/backend/meters/simulated/instrument.ts';
import { openPtyMeter, type PtyMeter } from '../../electron/backend/meters/simulated/pty.ts';
import { createSimulatedPlace } from '../../electron/backend/meters/simulated/source.ts';
import { launchBrowser } from '../support/browser.ts';
import { type RunningWorkbench, startWorkbench } from '../support/workbench.ts';

const millLane = quillmere.find(({ station }) => station.name === '07 Mill Lane')?.station;
if (millLane === undefined) throw new Error('Mill Lane is missing from the demo network');
const asFound: Probe = {
  station: millLane,
  portName: 'forward output',
  pluggedIn: Object.fromEntries(millLane.positions.map(({ name, installed }) => [name, installed])),
  ambientC: 20,
};

/** Mill Lane's amplifier, a meter on its test point, and a hand that plugs parts in; the workbench sees a serial port. */
async function openTestStation(readingMs: number) {
  const place = createSimulatedPlace({ probe: asFound });
  const instrument = new SimulatedInstrument({ source: place.levelAt });
  const meter: PtyMeter = await openPtyMeter(instrument, { messageMs: 0, readingMs });
  return {
    meter,
    plugIn: (values: Probe['pluggedIn']) => place.moveProbe({ ...asFound, pluggedIn: values }),
  };
}

const browser: Browser | null = await launchBrowser();
const wait = { timeout: 20_000 };

describe.skipIf(browser === null)('the main job, in a browser, with a meter on a serial port', () => {
  const dataDir = mkdtempSync(join(tmpdir(), 'tiltwright-e2e-'));
  let workbench: RunningWorkbench;
  let page: Page;
  const complaints: string[] = [];
  let lastPath = '';

  /** A fresh browser profile at the workbench's link, every complaint of the page kept. */
  async function openPage(): Promise<Page> {
    if (browser === null) throw new Error('no browser');
    const context = await browser.newContext({ viewport: { width: 1366, height: 768 } });
    const opened = await context.newPage();
    opened.setDefaultTimeout(wait.timeout);
    opened.on('pageerror', (fault) => complaints.push(fault.message));
    opened.on('console', (message) => {
      if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
    });
    await opened.goto(workbench.url);
    return opened;
  }
  const press = (name: string | RegExp) => page.getByRole('button', { name }).first().click();
  async function connect(path: string) {
    await press(/^Meter:/);
    await page.getByText('Another port').click();
    await page.getByLabel('Path of the port').fill(path);
    await page.getByRole('button', { name: 'Connect', exact: true }).click();
    await page.getByRole('dialog').waitFor({ state: 'detached', ...wait });
  }

  beforeAll(async () => {
    workbench = await startWorkbench(dataDir);
    page = await openPage();
  }, 90_000);
  afterAll(async () => {
    await browser?.close();
    await workbench?.stop();
    rmSync(dataDir, { recursive: true, force: true });
  });

  it('reads a station, says what to change, proves it, and finds both sweeps after a restart', async () => {
    const { meter, plugIn } = await openTestStation(3);
    await press('Try it on the invented network');
    await page.getByText('07 Mill Lane').click();
    await press('Read them, begin the visit');
    await connect(meter.path);
    await press('Read forward output');
    await page.getByRole('button', { name: 'Parts fitted, read again' }).waitFor(wait);
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toMatch(/low at 8\d\d MHz/);

    // What the screen says is what the hand plugs in: nothing here knows the answer beforehand.
    const values: Record<string, number> = { ...asFound.pluggedIn };
    const swaps = page.locator('[aria-label*=": replace "]');
    expect(await swaps.count()).toBeGreaterThan(0);
    for (const label of await swaps.evaluateAll((all) => all.map((one) => one.getAttribute('aria-label')))) {
      const swap = /^(.+): replace ([\d.]+) with ([\d.]+)$/.exec(label ?? '');
      const position = Object.keys(values).find((name) => name.toLowerCase() === swap?.[1]?.toLowerCase());
      if (position === undefined) throw new Error(`not a change of a part: ${label}`);
      expect(values[position]).toBe(Number(swap?.[2]));
      values[position] = Number(swap?.[3]);
    }
    plugIn(values);
    await press('Parts fitted, read again');
    await page.getByText(/^As predicted/).waitFor(wait);
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toMatch(
      /^On design: worst channel 0\.\d dB$/,
    );

    await workbench.stop();
    workbench = await startWorkbench(dataDir);
    page = await openPage();
    await page.getByText('07 Mill Lane').click();
    await page
      .getByRole('option', { name: /As found/ })
      .first()
      .waitFor(wait);
    await page
      .getByRole('option', { name: /As left/ })
      .first()
      .waitFor(wait);
    const archive = new Database(join(dataDir, 'tiltwright.sqlite'), { readonly: true });
    // The network that was loaded has a past of its own before these two.
    const counts = archive.prepare('SELECT reading_count FROM sweep_end ORDER BY rowid DESC LIMIT 2').pluck();
    expect(counts.all()).toEqual([136, 136]);
    archive.close();
    await meter.unplug();
    expect(complaints).toEqual([]);
  }, 120_000);

  it('keeps what was read when the cable is pulled, says so, and goes on with the next meter', async () => {
    const first = await openTestStation(25);
    await connect(first.meter.path);
    await press(/^Read( again|.*forward output)$/);
    await page
      .getByText(/of 136/)
      .first()
      .waitFor(wait);
    await page.waitForTimeout(700);
    await first.meter.unplug();
    // It is looked for; a hand that has no other cable stops, and what was read stays.
    await page.getByText('The meter is gone; it is looked for.').waitFor(wait);
    await press('Stop');
    await page
      .getByText(/partial/)
      .first()
      .waitFor(wait);
    const second = await openTestStation(3);
    lastPath = second.meter.path;
    await connect(lastPath);
    await page
      .getByRole('option', { name: /partial/i })
      .first()
      .waitFor(wait);
    await press(/^Read/);
    const stop = page.getByRole('button', { name: 'Stop' });
    await stop.waitFor(wait);
    await stop.waitFor({ state: 'detached', ...wait });
    await workbench.stop();
    const archive = new Database(join(dataDir, 'tiltwright.sqlite'), { readonly: true });
    const ends = archive.prepare('SELECT state FROM sweep_end ORDER BY rowid DESC LIMIT 4').pluck().all();
    archive.close();
    expect(ends.reverse()).toEqual(['complete', 'complete', 'partial', 'complete']);
    await second.meter.unplug();
  }, 120_000);

  it('finishes the same sweep when the cable is plugged in again', async () => {
    workbench = await startWorkbench(dataDir);
    page = await openPage();
    await page.getByText('07 Mill Lane').click();
    // The meter of the last time lies ready, also after a restart.
    await press(/^Meter:/);
    await page.getByText(/Used last: .* QIW-0042, at /).waitFor(wait);
    expect(await page.getByLabel('Path of the port').inputValue()).toBe(lastPath);
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached', ...wait });
    const sweepCount = () => {
      const archive = new Database(join(dataDir, 'tiltwright.sqlite'), { readonly: true });
      const count = archive.prepare('SELECT count(*) FROM sweep').pluck().get();
      archive.close();
      return Number(count);
    };
    const before = sweepCount();
    // An adapter keeps its name when it is plugged in again; a pseudo-terminal does so through a link of ours.
    const name = join(dataDir, 'meter-port');
    const first = await openTestStation(25);
    symlinkSync(first.meter.path, name);
    await connect(name);
    await press(/^Read/);
    await page
      .getByText(/of 136/)
      .first()
      .waitFor(wait);
    await page.waitForTimeout(700);
    await first.meter.unplug();
    unlinkSync(name);
    await page.getByText('The meter is gone; it is looked for.').waitFor(wait);
    const second = await openTestStation(3);
    symlinkSync(second.meter.path, name);
    await page.getByRole('button', { name: 'Stop' }).waitFor({ state: 'detached', ...wait });
    await workbench.stop();
    const archive = new Database(join(dataDir, 'tiltwright.sqlite'), { readonly: true });
    const last = archive
      .prepare('SELECT state, reading_count FROM sweep_end ORDER BY rowid DESC LIMIT 1')
      .raw()
      .get();
    archive.close();
    expect(last).toEqual(['complete', 136]);
    // One sweep, not what was read before the pull and another one after it.
    expect(sweepCount()).toBe(before + 1);
    await second.meter.unplug();
  }, 120_000);
});
