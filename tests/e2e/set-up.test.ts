import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '../support/browser.ts';
import { type RunningWorkbench, startWorkbench } from '../support/workbench.ts';

const browser: Browser | null = await launchBrowser();
const patience = { timeout: 45_000 };

describe.skipIf(browser === null)('the guided set-up, in a browser, with the simulated meter', () => {
  const dataDir = mkdtempSync(join(tmpdir(), 'tiltwright-set-up-'));
  let workbench: RunningWorkbench;
  let page: Page;
  const complaints: string[] = [];

  async function openPage(): Promise<Page> {
    if (browser === null) throw new Error('no browser');
    const context = await browser.newContext({ viewport: { width: 1366, height: 768 } });
    const opened = await context.newPage();
    opened.setDefaultTimeout(patience.timeout);
    opened.on('pageerror', (fault) => complaints.push(fault.message));
    opened.on('console', (message) => {
      // A host that is killed leaves its socket broken: that is what this test does, and no fault of the page.
      const broken = /WebSocket|ERR_CONNECTION|Failed to load resource/.test(message.text());
      if (message.type() === 'error' && !broken) complaints.push(message.text());
    });
    await opened.goto(workbench.url);
    return opened;
  }
  const press = (name: string | RegExp) =>
    page
      .getByRole('button', typeof name === 'string' ? { name, exact: true } : { name })
      .first()
      .click();
  const choose = (name: string) => page.getByRole('radio', { name, exact: true }).click();
  const step = (title: string | RegExp) =>
    page.getByRole('heading', { level: 1, name: title }).waitFor(patience);
  const readHere = async () => {
    await press(/^Probe on the /);
    await page.getByText(/readings a second/).waitFor(patience);
  };
  /** The number on the screen is that of the present: it has dashes where there is none. */
  const levelNow = async () => Number(await page.locator('.dial__number').textContent());

  beforeAll(async () => {
    workbench = await startWorkbench(dataDir);
    page = await openPage();
  }, 90_000);
  afterAll(async () => {
    await browser?.close();
    await workbench?.kill();
    rmSync(dataDir, { recursive: true, force: true });
  });

  it('goes through every step of a new module, is killed in the middle, and goes on where it was', async () => {
    await press('Try it on the invented network');
    await page.getByText('03 Ropewalk').click();
    await page.getByLabel(/^Ambient/).fill('31');
    await press('Read them, begin the visit');
    await choose('Gain control');
    await page.getByText(/operator's own procedure rules/).waitFor(patience);
    await page.getByText('interpolated between numbers of common practice, no published source').waitFor();
    await press('Begin the set-up');

    await step('Sweep as found');
    await press('Sweep forward output');
    // Done by itself, because a whole sweep proves it.
    await step('Control to its low end');
    await readHere();
    const before = await levelNow();
    await press('Turn down to the end');
    await page.waitForFunction(
      (from) => Number(document.querySelector('.dial__number')?.textContent) < from - 2,
      before,
    );
    await press('It is at its low end');
    await step('To manual');
    await choose('Manual');
    await press('It is in manual');
    await step('Exchange module and pad');
    await press('Exchange module');
    await press('Module and pad are in');

    // The probe has to be moved: no number may stand there meanwhile.
    await step('Input level to design');
    await expect.poll(() => page.locator('.dial__number').textContent()).toMatch(/–/);
    await press('Skip');
    await page.getByLabel('Why it is skipped').fill('no test point at this input');
    await press('Skip it');
    await step('Find the maximum gain');
    await readHere();
    await page.waitForTimeout(1500);
    await press('Turn up to the end');
    await step('Back off by the reserve');
    expect(await page.getByText(/less the reserve of 4\.0 dB/).count()).toBeGreaterThan(0);

    // The laptop dies with the control at its maximum and the meter reading.
    await workbench.kill();
    workbench = await startWorkbench(dataDir);
    page = await openPage();
    await press(/^Meter:/);
    await page.getByText('Simulated meter', { exact: true }).last().click();
    await press('Connect');
    await page.getByRole('dialog').waitFor({ state: 'detached', ...patience });
    await page.getByText('03 Ropewalk').click();
    await choose('Gain control');
    await step('Back off by the reserve');
    await page.getByRole('button', { name: /Input level to design: skipped, no test point/ }).waitFor();
    await readHere();
    await press('Turn down by 3 dB');
    await press('Turn down by 1 dB');

    await step('Range test, when wanted');
    await page.getByText(/^turn up to the end/).waitFor(patience);
    await press('Turn up to the end');
    await page.getByText(/if that is the end, turn down/).waitFor(patience);
    await press('Turn down to the end');
    await page.getByText(/if that is the end, turn back/).waitFor(patience);
    await press('Turn up to the end');
    await press('Turn down by 3 dB');
    await press('Turn down by 1 dB');
    await step(/^Compensate/);
    await press('Turn up by 1 dB');

    await step('Rebalance to design');
    await press('Sweep forward output');
    await press('Parts fitted, sweep again');
    await step('To automatic');
    await choose('Auto');
    await press('It is in automatic');
    await step('Wait while it settles');
    await readHere();
    // Settling, and the pilot on its design level, need no hand.
    await step('Sweep as left');
    await press('Sweep forward output');
    await step(/^Set, with 3\.\d dB of reserve/);
    expect(await page.getByText(/Range in order/).count()).toBe(1);
    await page.getByText('Input level to design: no test point at this input').waitFor();
    await press('See the year ahead');
    await step(/^Holds all year/);
    expect(complaints).toEqual([]);

    await workbench.stop();
    const archive = new Database(join(dataDir, 'tiltwright.sqlite'), { readonly: true });
    const events = archive
      .prepare<[], { step: string; outcome: string; by: string }>(
        'SELECT step, outcome, by FROM set_up_event ORDER BY place',
      )
      .all();
    const lives = archive.prepare('SELECT count(*) FROM live_reading').pluck().get();
    archive.close();
    expect(events.map((event) => `${event.step} ${event.outcome} ${event.by}`)).toEqual([
      'sweep-as-found done reading',
      'control-low done hand',
      'manual done hand',
      'exchange done hand',
      'input-level skipped hand',
      'max-gain done reading',
      'back-off done reading',
      'range-test done reading',
      'ambient done reading',
      'rebalance done reading',
      'automatic done hand',
      'settle done reading',
      'pilot done reading',
      'sweep-as-left done reading',
    ]);
    expect(Number(lives)).toBeGreaterThan(300);
  }, 300_000);
});
