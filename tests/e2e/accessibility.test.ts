import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFinds } from '../look/axe.ts';
import {
  besideTheDeed,
  controlsOf,
  type TextFaults,
  textFaults,
  tooClose,
  tooSmall,
} from '../look/measure.ts';
import { apart, beforeAndAfter, type Eye, eyes, lineIn, type Picture, seenBy } from '../look/vision.ts';
import { stops } from '../look/walk.ts';
import { launchBrowser } from '../support/browser.ts';
import { type RunningWorkbench, startWorkbench } from '../support/workbench.ts';

const browser: Browser | null = await launchBrowser();

type Lines = Awaited<ReturnType<typeof beforeAndAfter>>;

/** Each screen is met once, and everything is measured there; the tests after the walk say what was found. */
describe.skipIf(browser === null)('every screen, in a browser', () => {
  const dataDir = mkdtempSync(join(tmpdir(), 'tiltwright-look-'));
  let workbench: RunningWorkbench;
  let page: Page;
  const found = new Map<string, string[]>();
  const pictures = new Map<Eye, Picture>();
  let lines: Lines = { before: [], after: [] };
  let planted: Picture | null = null;
  let passed = 0;

  const note = (kind: string, stop: string, faults: readonly string[]) => {
    const list = found.get(kind) ?? [];
    list.push(...faults.map((fault) => `${stop}: ${fault}`));
    found.set(kind, list);
  };
  const dress = (theme: 'sun' | 'night', text: '100' | '200') =>
    page.evaluate(
      ([theme, text]) => {
        document.documentElement.dataset.theme = theme;
        document.documentElement.dataset.text = text;
      },
      [theme, text],
    );
  /** The text of a page whose size was changed: charts follow a moment later, so a fault counts when it stays. */
  async function faultsAtRest(): Promise<TextFaults> {
    let faults = await textFaults(page);
    for (let tries = 0; tries < 20 && faults.sidewaysPx + faults.cut.length > 0; tries += 1) {
      await page.waitForTimeout(100);
      faults = await textFaults(page);
    }
    return faults;
  }

  async function measure(stop: string): Promise<void> {
    const controls = await controlsOf(page);
    note('small', stop, tooSmall(controls));
    note('close', stop, tooClose(controls));
    const deed = await page.evaluate(() => document.querySelector('.button--do')?.textContent?.trim() ?? '');
    note('destructive', stop, besideTheDeed(controls, deed));
    const usual = await faultsAtRest();
    note('type', stop, usual.small);
    note('cut', stop, usual.cut);
    note('axe', stop, await axeFinds(page));
    await dress('night', '100');
    note('axe at night', stop, await axeFinds(page, ['color-contrast']));
    await dress('sun', '200');
    const large = await faultsAtRest();
    note('cut at 200 %', stop, large.cut);
    note('sideways at 200 %', stop, large.sidewaysPx > 0 ? [`${large.sidewaysPx} px`] : []);
    await dress('sun', '100');
  }

  async function see(): Promise<void> {
    const devTools = await page.context().newCDPSession(page);
    await page.mouse.move(0, 0);
    await page.waitForTimeout(300);
    lines = await beforeAndAfter(page);
    for (const eye of eyes) pictures.set(eye, await seenBy(page, devTools, eye));
    // The same picture with one line drawn like the other: what the test below must be able to see.
    await page.evaluate(() => {
      const sheet = new CSSStyleSheet();
      sheet.replaceSync(
        '.trace--before path { stroke: var(--left) !important; stroke-dasharray: none !important; }',
      );
      document.adoptedStyleSheets = [sheet];
    });
    planted = await seenBy(page, devTools, 'none');
    await page.evaluate(() => {
      document.adoptedStyleSheets = [];
    });
    await devTools.detach();
  }

  beforeAll(async () => {
    if (browser === null) return;
    workbench = await startWorkbench(dataDir);
    const context = await browser.newContext({
      viewport: { width: 1366, height: 768 },
      locale: 'en-GB',
      colorScheme: 'light',
    });
    page = await context.newPage();
    page.setDefaultTimeout(20_000);
    await page.goto(workbench.url);
    for (const { name, arrive } of stops) {
      await arrive(page);
      if (name === 'proved, as left') await see();
      await measure(name);
      passed += 1;
    }
  }, 480_000);
  afterAll(async () => {
    await browser?.close();
    await workbench?.stop();
    rmSync(dataDir, { recursive: true, force: true });
  });

  it('was walked to the last stop', () => {
    expect(passed).toBe(stops.length);
  });

  it.each([
    ['axe', 'has nothing that axe minds'],
    ['axe at night', 'has the contrast that axe asks for at night too'],
    ['small', 'has targets of 44 px, and of 56 px for the actions of a visit'],
    ['close', 'keeps 8 px between targets'],
    ['destructive', 'keeps what takes something away apart from the one thing to do'],
    ['type', 'has no text under 14 px'],
    ['cut', 'cuts no text off'],
    ['cut at 200 %', 'cuts no text off at twice its size'],
    ['sideways at 200 %', 'is never moved sideways at twice its size'],
  ])('%s: %s', (kind) => {
    expect(found.get(kind)).toEqual([]);
  });

  describe('the lines before and after', () => {
    const seen = (eye: Eye) => {
      const picture = pictures.get(eye);
      if (picture === undefined) throw new Error(`no picture for ${eye}`);
      return { before: lineIn(picture, lines.before), after: lineIn(picture, lines.after) };
    };

    it('are measured where each is alone, on enough of their way', () => {
      expect(lines.before.length).toBeGreaterThan(150);
      expect(lines.after.length).toBeGreaterThan(150);
    });

    it.each(eyes)('are told apart by stroke and by grey with %s', (eye) => {
      const { before, after } = seen(eye);
      expect(before.contrast).toBeGreaterThan(3);
      expect(after.contrast).toBeGreaterThan(3);
      expect(after.inked).toBeGreaterThan(0.97);
      expect(before.inked).toBeLessThan(0.9);
      expect(apart(before, after).pattern).toBeGreaterThan(0.1);
      expect(apart(before, after).grey).toBeGreaterThan(1.4);
    });

    it('are seen through other eyes, and not through the same five times', () => {
      const grey = pictures.get('achromatopsia');
      const usual = pictures.get('none');
      if (grey === undefined || usual === undefined) throw new Error('no pictures');
      const coloured = (picture: Picture) => {
        let count = 0;
        for (let at = 0; at < picture.rgba.length; at += 4)
          if (Math.abs((picture.rgba[at] ?? 0) - (picture.rgba[at + 2] ?? 0)) > 30) count += 1;
        return count;
      };
      expect(coloured(usual)).toBeGreaterThan(1000);
      expect(coloured(grey)).toBe(0);
      for (const eye of ['deuteranopia', 'protanopia', 'tritanopia'] as const)
        expect(Buffer.compare(pictures.get(eye)?.rgba ?? new Uint8Array(), usual.rgba), eye).not.toBe(0);
    });

    it('would be missed if one were drawn like the other', () => {
      if (planted === null) throw new Error('no picture');
      const before = lineIn(planted, lines.before);
      const after = lineIn(planted, lines.after);
      expect(apart(before, after).pattern).toBeLessThan(0.1);
      expect(apart(before, after).grey).toBeLessThan(1.4);
    });
  });
});
