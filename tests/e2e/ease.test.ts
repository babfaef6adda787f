import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '../support/browser.ts';
import { type RunningWorkbench, startWorkbench } from '../support/workbench.ts';

const browser: Browser | null = await launchBrowser();
const wait = { timeout: 30_000 };
const WIDE = 1366;
const HIGH = 768;

/** A newcomer's first minutes: each test goes on where the one before left off. */
describe.skipIf(browser === null)('a newcomer, from the first start', () => {
  const dataDir = mkdtempSync(join(tmpdir(), 'tiltwright-ease-'));
  let workbench: RunningWorkbench;
  let page: Page;

  /** The one thing to do on this screen, as a thumb at the lower right meets it. */
  const reach = () =>
    page.evaluate(() => {
      const deed = document.querySelector('.button--do');
      if (deed === null) return null;
      const { left, top, width, height } = deed.getBoundingClientRect();
      return {
        words: deed.textContent ?? '',
        x: left + width / 2,
        bottom: top + height,
        middle: top + height / 2,
      };
    });
  const inReach = async (words: RegExp) => {
    const deed = await reach();
    expect(deed?.words).toMatch(words);
    expect(deed?.bottom).toBeLessThanOrEqual(HIGH);
    expect(deed?.x).toBeGreaterThan(WIDE / 2);
    expect(deed?.middle).toBeGreaterThan(HIGH / 2);
  };
  const step = () => page.getByRole('region', { name: 'First steps' }).textContent();

  beforeAll(async () => {
    if (browser === null) return;
    workbench = await startWorkbench(dataDir);
    const context = await browser.newContext({ viewport: { width: WIDE, height: HIGH }, locale: 'en-GB' });
    page = await context.newPage();
    page.setDefaultTimeout(30_000);
    await page.goto(workbench.url);
  }, 120_000);
  afterAll(async () => {
    await browser?.close();
    await workbench?.stop();
    rmSync(dataDir, { recursive: true, force: true });
  });

  it('has the first proposal after four presses, and reads the cautions on the way', async () => {
    let presses = 0;
    const press = async (name: string) => {
      await page.getByRole('button', { name, exact: true }).click();
      presses += 1;
    };
    await press('Try it on the invented network');
    await page.getByText('07 Mill Lane').waitFor(wait);
    expect(await step()).toContain('Open Mill Lane.');
    await page.getByText('07 Mill Lane').click();
    presses += 1;
    await page.getByText(/60 or 90 V AC/).waitFor(wait);
    expect(await step()).toContain('begin the visit');
    await inReach(/begin the visit/);
    await press('Read them, begin the visit');
    await page.getByRole('button', { name: 'Read forward output' }).waitFor(wait);
    expect(await step()).toContain('Read it with the meter.');
    await inReach(/^Read forward output/);
    await press('Read forward output');
    await page.locator('[aria-label*=": replace "]').first().waitFor(wait);
    expect(presses).toBeLessThanOrEqual(4);
    expect(await step()).toContain('Fit what is proposed');
    await inReach(/^Parts fitted, read again/);
  }, 120_000);

  it.each(['100', '125', '150', '175', '200'])(
    'has its bar inside the window at %s %% text',
    async (text) => {
      const overhang = await page.evaluate((size) => {
        const before = document.documentElement.dataset.text;
        document.documentElement.dataset.text = size;
        const bar = document.querySelector('.bar');
        const right = Math.max(
          ...[...(bar?.querySelectorAll('button, .bar__name') ?? [])].map(
            (one) => one.getBoundingClientRect().right,
          ),
        );
        const height = bar?.getBoundingClientRect().height ?? 0;
        document.documentElement.dataset.text = before ?? '100';
        return { right: right - window.innerWidth, height: height / (Number(size) / 100) };
      }, text);
      expect(overhang.right).toBeLessThanOrEqual(0);
      // One row as it is, two calm ones or three of them with large text.
      expect(overhang.height).toBeLessThanOrEqual(text === '100' ? 66 : 160);
    },
  );

  it('ends the first steps by the proof, and they do not come back', async () => {
    await page.getByRole('button', { name: 'Parts fitted, read again' }).click();
    await page.getByText(/^As predicted/).waitFor(wait);
    await page.getByRole('region', { name: 'First steps' }).waitFor({ state: 'detached', ...wait });
    await page.reload();
    await page.getByText('07 Mill Lane').first().waitFor(wait);
    expect(await page.getByRole('region', { name: 'First steps' }).count()).toBe(0);
  }, 60_000);

  it('finds a sweep, a word and a unit by keys alone', async () => {
    const results = page.getByRole('menuitem');
    await page.keyboard.press('Control+k');
    await page.keyboard.type('as left mill');
    await results.filter({ hasText: 'As left, forward output' }).first().waitFor(wait);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { level: 1, name: /^On design/ }).waitFor(wait);
    await page.keyboard.press('/');
    await page.keyboard.type('show levels dbuv');
    await results.filter({ hasText: 'dB\u00B5V' }).first().waitFor(wait);
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: /^Units: dB\u00B5V/ }).waitFor(wait);
    await page.keyboard.press('?');
    await page.keyboard.type('suckout');
    await page.getByRole('region', { name: 'Suck-out, notch' }).waitFor(wait);
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached', ...wait });
  }, 60_000);
});
