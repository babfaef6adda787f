import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, describe, expect, it } from 'vitest';
import { type TextFaults, textFaults } from '../look/measure.ts';
import { launchBrowser } from '../support/browser.ts';
import { type RunningWorkbench, startWorkbench } from '../support/workbench.ts';
import { type Hand, keyboardHand, mouseHand, touchHand, watchPointers } from './hands.ts';

// The whole job with the simulated meter, once for each way to work the page. Each way begins where a newcomer does.
const browser: Browser | null = await launchBrowser();
const patienceMs = 30_000;
/** From the first page to the first proposal: the demo, a station, its cautions, the meter. */
const MOST_ACTIONS = 4;

type Way = Readonly<{ page: Page; pointed: () => Promise<readonly string[]>; complaints: readonly string[] }>;
type Look = (moment: string) => Promise<void>;
const noLook: Look = () => Promise.resolve();

const button = (page: Page, name: string | RegExp) =>
  page.getByRole('button', typeof name === 'string' ? { name, exact: true } : { name }).first();
const headline = (page: Page) => page.getByRole('heading', { level: 1 });

/** First start to the first proposal. Gives the actions that it took. */
async function toTheProposal(page: Page, hand: Hand, look: Look): Promise<number> {
  const before = hand.actions();
  await button(page, 'Try it on the invented network').waitFor();
  await look('first start');
  await hand.press(button(page, 'Try it on the invented network'));
  await headline(page).getByText('6 stations').waitFor();
  await look('stations');
  await hand.press(page.getByRole('row', { name: '07 Mill Lane' }));
  await page.getByText('Line power', { exact: false }).first().waitFor();
  await look('cautions');
  await hand.press(button(page, 'Read them, begin the visit'));
  await look('ready');
  await hand.press(button(page, 'Read forward output'));
  await button(page, 'Parts fitted, read again').waitFor();
  await look('finding');
  return hand.actions() - before;
}

/** From the proposal to the report on disk; what the screens say is held against each other on the way. */
async function proveAndReport(page: Page, hand: Hand, look: Look): Promise<void> {
  expect(await headline(page).textContent()).toMatch(/low at 8\d\d MHz/);
  const swaps = page.locator('[aria-label*=": replace "]');
  expect(await swaps.count()).toBeGreaterThan(0);
  const foundDb = await worstDb(page);
  await hand.press(button(page, 'Parts fitted, read again'));
  await page.getByText(/^As predicted/).waitFor();
  await look('as left');
  expect(await headline(page).textContent()).toMatch(/^On design: worst channel 0\.\d dB$/);
  expect(await worstDb(page)).toBeLessThan(foundDb);
  await page
    .getByRole('option', { name: /As left/ })
    .first()
    .waitFor();
  const download = page.waitForEvent('download');
  await hand.press(button(page, 'Report'));
  const report = await download;
  expect(report.suggestedFilename()).toMatch(/mill-lane.*\.pdf$/i);
  const bytes = readFileSync(await report.path());
  expect(bytes.subarray(0, 5).toString('latin1')).toBe('%PDF-');
  expect(bytes.length).toBeGreaterThan(50_000);
}

/** The worst channel's distance from the design, as the headline says it. */
async function worstDb(page: Page): Promise<number> {
  const [figure] = /\d+\.\d(?= dB)/.exec((await headline(page).textContent()) ?? '') ?? [];
  if (figure === undefined) throw new Error(`no figure in "${await headline(page).textContent()}"`);
  return Number(figure);
}

describe.skipIf(browser === null)('the main job, from first start to the report', () => {
  const folders: string[] = [];
  const running: RunningWorkbench[] = [];

  /** A workbench that was never started before, in a browser that never saw it. */
  async function begin(options: BrowserContextOptions): Promise<Way> {
    if (browser === null) throw new Error('no browser');
    const folder = mkdtempSync(join(tmpdir(), 'tiltwright-job-'));
    folders.push(folder);
    const workbench = await startWorkbench(folder);
    running.push(workbench);
    const context = await browser.newContext({
      viewport: { width: 1366, height: 768 },
      locale: 'en-GB',
      ...options,
    });
    const page = await context.newPage();
    page.setDefaultTimeout(patienceMs);
    const complaints: string[] = [];
    page.on('pageerror', (fault) => complaints.push(fault.message));
    page.on('console', (message) => {
      if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
    });
    const pointed = await watchPointers(page);
    await page.goto(workbench.url);
    return { page, pointed, complaints };
  }
  const themeOf = (page: Page) => page.evaluate(() => document.documentElement.dataset.theme);
  /** For whoever looks: how long a newcomer's way is. No test fails by it, since a busy machine is slow. */
  const say = (way: string, hand: Hand, actions: number, sinceMs: number) => {
    const seconds = ((performance.now() - sinceMs) / 1000).toFixed(1);
    const keys = hand.keys() > 0 ? `, ${hand.keys()} keys` : '';
    process.stdout.write(`First start to first proposal, ${way}: ${actions} actions${keys}, ${seconds} s\n`);
  };

  afterAll(async () => {
    await browser?.close();
    for (const workbench of running) await workbench.stop();
    for (const folder of folders) rmSync(folder, { recursive: true, force: true });
  });

  it('is done by keyboard alone, in the sun', async () => {
    const { page, pointed, complaints } = await begin({ colorScheme: 'light' });
    const hand = keyboardHand(page);
    const since = performance.now();
    const actions = await toTheProposal(page, hand, noLook);
    say('by keyboard', hand, actions, since);
    expect(actions).toBeLessThanOrEqual(MOST_ACTIONS);
    expect(await themeOf(page)).toBe('sun');
    await proveAndReport(page, hand, noLook);
    expect(await pointed()).toEqual([]);
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 120_000);

  it('is done by touch alone, at night, on targets for a glove', async () => {
    const { page, pointed, complaints } = await begin({
      colorScheme: 'dark',
      hasTouch: true,
      isMobile: true,
    });
    const hand = touchHand({ visit: 56, usual: 44 });
    const since = performance.now();
    const actions = await toTheProposal(page, hand, noLook);
    say('by touch', hand, actions, since);
    expect(await page.evaluate(() => matchMedia('(hover: hover), (any-hover: hover)').matches)).toBe(false);
    expect(actions).toBeLessThanOrEqual(MOST_ACTIONS);
    expect(await themeOf(page)).toBe('night');
    await proveAndReport(page, hand, noLook);
    expect(await pointed()).toEqual(['touch']);
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 120_000);

  it('is done with text at twice its size, chosen in the settings, with nothing cut off', async () => {
    const { page, complaints } = await begin({ colorScheme: 'light' });
    const hand = mouseHand();
    await hand.press(button(page, /^Settings/));
    await hand.press(page.getByText('200\u00A0%', { exact: true }));
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    expect(await page.evaluate(() => document.documentElement.dataset.text)).toBe('200');
    const faults: string[] = [];
    const look: Look = async (moment) => {
      let seen: TextFaults = await textFaults(page);
      // A chart follows a changed page a moment later: a fault counts when it stays.
      for (let tries = 0; tries < 20 && seen.sidewaysPx + seen.cut.length > 0; tries += 1) {
        await page.waitForTimeout(100);
        seen = await textFaults(page);
      }
      faults.push(...[...seen.cut, ...seen.small].map((words) => `${moment}: ${words}`));
      if (seen.sidewaysPx > 0) faults.push(`${moment}: ${seen.sidewaysPx} px sideways`);
    };
    const since = performance.now();
    const actions = await toTheProposal(page, hand, look);
    say('at 200 %', hand, actions, since);
    expect(actions).toBeLessThanOrEqual(MOST_ACTIONS);
    await proveAndReport(page, hand, look);
    expect(faults).toEqual([]);
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 120_000);
});
