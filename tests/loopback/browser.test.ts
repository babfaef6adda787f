import { once } from 'node:events';
import { createServer } from 'node:http';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { browserIsCarried, launchBrowser } from '../support/browser.ts';
import { type TestLoopback, testLoopback } from '../support/loopback-host.ts';
import { plainHandlers } from '../support/plain-handlers.ts';

let browser: Browser | null = null;
let host: TestLoopback;
beforeAll(async () => {
  browser = await launchBrowser();
  host = await testLoopback(plainHandlers({}));
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await host.close();
});

/** A browser of its own: what it complained about, and a page. */
async function freshPage() {
  const context = await browser?.newContext();
  const page = await context?.newPage();
  if (page === undefined) throw new Error('no browser');
  const complaints: string[] = [];
  page.on('console', (message) => complaints.push(message.text()));
  page.on('pageerror', (fault) => complaints.push(fault.message));
  return { page, complaints };
}

describe.runIf(browserIsCarried)('in a real browser', () => {
  it('a click on the link opens the workbench, the code leaves the address, and loading again works', async () => {
    const { page, complaints } = await freshPage();
    const workbench = `http://127.0.0.1:${host.port}/workbench/`;
    await page.goto(host.link(60_000));
    await page.waitForURL(workbench);
    expect(await page.title()).toBe('the page');
    await page.reload();
    expect(await page.title()).toBe('the page');
    expect(await page.evaluate(() => document.cookie)).toBe('');
    await page.goto(`http://127.0.0.1:${host.port}/`);
    await page.waitForURL(workbench);
    expect(complaints).toEqual([]);
  });

  it('a second browser, or a link that was used, sees what to do', async () => {
    const link = host.link(60_000);
    const first = await freshPage();
    await first.page.goto(link);
    await first.page.waitForURL('**/workbench/');
    const second = await freshPage();
    await second.page.goto(link);
    await second.page.getByText('Open it with the link').waitFor({ state: 'visible' });
    await second.page.goto(`http://127.0.0.1:${host.port}/workbench/`);
    await second.page.getByText('Open it with the link').waitFor({ state: 'visible' });
    expect(new URL(second.page.url()).hash).toBe('');
  });

  it('another page gets nothing: no answer, no socket, no frame, no session', async () => {
    const { page } = await freshPage();
    await page.goto(host.link(60_000));
    await page.waitForURL('**/workbench/');
    const stranger = createServer((_request, answer) => {
      answer.setHeader('content-type', 'text/html').end('<!doctype html><title>stranger</title>');
    }).listen(0, '127.0.0.1');
    await once(stranger, 'listening');
    const address = stranger.address();
    const port = typeof address === 'object' && address !== null ? address.port : 0;
    // The same browser, so that the cookie is there: a neighbour's port counts as the same site for cookies.
    await page.goto(`http://127.0.0.1:${port}/`);
    const got = await page.evaluate(async (target) => {
      const read = await fetch(`http://${target}/session`).then(
        () => 'answered',
        () => 'refused',
      );
      const code = { method: 'POST', mode: 'no-cors', body: '{"code":"x"}' } as const;
      await fetch(`http://${target}/session`, code).catch(() => null);
      const socket = await new Promise((resolve) => {
        const opened = new WebSocket(`ws://${target}/socket`);
        opened.onopen = () => resolve('opened');
        opened.onerror = () => resolve('refused');
      });
      return { read, socket };
    }, `127.0.0.1:${host.port}`);
    expect(got).toEqual({ read: 'refused', socket: 'refused' });
    const why = host.faults.map(String).join('\n');
    expect(why).toMatch(/POST \/session: another page/);
    expect(why).toMatch(/GET \/socket: another page/);
    stranger.close();
  });
});
