import { mkdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { createBackend } from '../../electron/backend/backend.ts';
import { createMeterShop } from '../../electron/backend/meters/connect.ts';
import { firstCodeForMs } from '../../electron/loopback/server.ts';
import { serveBrowser } from '../../electron/serve-browser.ts';
import packageJson from '../../package.json' with { type: 'json' };
import { createIds } from '../support/clock.ts';
import { root } from '../support/source-files.ts';

/** The morning that every picture shows, as far as clocks go. */
const MORNING = Date.parse('2026-03-02T09:02:00.000Z');
/** One name always, because the settings show it. */
const dataDir = join(tmpdir(), 'tiltwright-screens');

export type ShownWorkbench = Readonly<{ page: Page; close: () => Promise<void> }>;

/**
 * The workbench as `npm start -- --browser` serves it, with an empty archive, but on one and the same morning with one and the same ids,
 * so that pictures of it differ only where the program does. How far a reading has come when it is looked at still differs by moments.
 */
export async function showWorkbench(browser: Browser, viewport: { width: number; height: number }) {
  rmSync(dataDir, { recursive: true, force: true });
  mkdirSync(dataDir, { recursive: true });
  const aheadMs = MORNING - Date.now();
  const now = () => new Date(Date.now() + aheadMs);
  const silent = () => undefined;
  const host = await serveBrowser({
    root,
    dataDir,
    port: 0,
    openBackend: (options) =>
      createBackend({
        ...options,
        version: packageJson.version,
        meters: createMeterShop({ now, find: async () => ({ ports: [], problem: null }) }),
        now,
        newId: createIds(),
        log: { info: silent, warn: silent, error: silent },
      }),
  });
  const context = await browser.newContext({
    viewport,
    locale: 'en-GB',
    timezoneId: 'UTC',
    colorScheme: 'light',
    reducedMotion: 'reduce',
  });
  // The page's clock goes with the backend's.
  await context.addInitScript((ms) => {
    const real = Date.now;
    const ahead = () => real() + ms;
    globalThis.Date = new Proxy(Date, {
      construct: (target, args, as) => Reflect.construct(target, args.length === 0 ? [ahead()] : args, as),
      get: (target, key) => (key === 'now' ? ahead : Reflect.get(target, key)),
    });
  }, aheadMs);
  const page = await context.newPage();
  page.setDefaultTimeout(20_000);
  await page.goto(host.link(firstCodeForMs));
  return {
    page,
    async close() {
      await context.close();
      await host.close();
      rmSync(dataDir, { recursive: true, force: true });
    },
  } satisfies ShownWorkbench;
}
