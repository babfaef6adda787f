import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '../support/browser.ts';
import { root } from '../support/source-files.ts';
import { type RunningWorkbench, startWorkbench } from '../support/workbench.ts';

// A technician with a station of his own, no file for it, and a table from his meter: drawn, pasted, proposed, kept.
const browser = await launchBrowser();
const folder = mkdtempSync(join(tmpdir(), 'tiltwright-own-'));
const running: RunningWorkbench[] = [];

const button = (page: Page, name: string | RegExp) =>
  page.getByRole('button', typeof name === 'string' ? { name, exact: true } : { name }).first();
/** As a person types: into the field, then on to the next. */
async function type(page: Page, said: readonly (readonly [string, string, number?])[]): Promise<void> {
  for (const [label, text, at = 0] of said) {
    const field = page.getByLabel(label, { exact: true }).nth(at);
    await field.fill(text);
    await field.press('Tab');
  }
}

async function open(): Promise<{ page: Page; complaints: readonly string[] }> {
  if (browser === null) throw new Error('no browser');
  const workbench = await startWorkbench(folder);
  running.push(workbench);
  const page = await browser.newPage({ viewport: { width: 1366, height: 768 }, locale: 'en-GB' });
  page.setDefaultTimeout(30_000);
  const complaints: string[] = [];
  page.on('pageerror', (fault) => complaints.push(fault.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  await page.goto(workbench.url);
  return { page, complaints };
}

afterAll(async () => {
  await browser?.close();
  for (const workbench of running) await workbench.stop();
  rmSync(folder, { recursive: true, force: true });
});

describe.skipIf(browser === null)('a station of one’s own, without a file', () => {
  it('is drawn, read from a pasted table, and told what to change', async () => {
    const { page, complaints } = await open();
    await button(page, 'New station').click();
    await type(page, [
      ['Name of the station', '09 Tar Steps'],
      ['Test point loss', '20'],
      ['Low end', '54'],
      ['level there', '36', 0],
      ['High end', '870'],
      // As a hand that knows the comma types it.
      ['level there', '46,0', 1],
      ['A channel within ±', '1'],
      ['Flatness up to', '2.5'],
    ]);
    await button(page, /^input pad/).click();
    await type(page, [
      ['In it now', '12'],
      ['From', '0'],
      ['to', '20'],
      ['every', '1'],
    ]);
    await button(page, /^input equalizer/).click();
    await type(page, [
      ['In it now', '12'],
      ['From', '0'],
      ['to', '24'],
      ['every', '2'],
      ['Insertion loss', '1'],
    ]);
    await button(page, 'Keep this station').click();
    // The input was not said yet: its field waits.
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.closest('.quantity')?.textContent ?? ''))
      .toMatch(/^Test point loss/);
    await type(page, [['Test point loss', '20']]);
    await button(page, 'Keep this station').click();
    await page.getByText('09 Tar Steps is in the archive.').waitFor();
    await button(page, 'Read them, begin the visit').click();
    await button(page, 'A pasted table').click();
    const table = readFileSync(join(root, 'sample-sweeps/07-mill-lane.as-found.csv'), 'utf8');
    await page.getByLabel(/^Paste a table/).fill(table);
    await button(page, 'Take it into the visit').click();
    // The same answer that the command line gives for the same sweep and kit, less the interstage plug-ins.
    await page.getByRole('heading', { level: 1, name: /low at 8\d\d MHz/ }).waitFor();
    await page.locator('[aria-label^="Input pad: replace 12 with 10"]').waitFor();
    await page.locator('[aria-label^="Input equalizer: replace 12 with 14"]').waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('is there after a restart, can be changed, and the change taken back', async () => {
    await running.at(-1)?.stop();
    const { page, complaints } = await open();
    await page.getByRole('row', { name: '09 Tar Steps' }).click();
    await button(page, 'Design').click();
    await button(page, 'Put a plug-in in').click();
    await page.getByRole('menuitem', { name: 'A pad' }).click();
    await type(page, [['In it now', '3']]);
    await button(page, 'Keep this design').click();
    await page.getByText('The design of 09 Tar Steps is kept.').waitFor();
    await button(page, /^interstage pad: 3 is in/).waitFor();
    await page.keyboard.press('Control+z');
    await page.getByText('The design of 09 Tar Steps is what it was.').waitFor();
    await button(page, /^interstage pad/).waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
    await page.close();
  });
});
