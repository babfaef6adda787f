import { mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { launchBrowser } from '../support/browser.ts';
import { root } from '../support/source-files.ts';
import { picturesOf, SCREENS, type Theme, withGallery } from './gallery.ts';
import { showWorkbench } from './shown-workbench.ts';
import { stops } from './walk.ts';

/* `npm run screenshots`: walks the workbench, takes each picture of the README anew, and writes the table that shows them. */
const WINDOW = { width: 1366, height: 768 } as const;
/** How much of what is behind a dialog its picture shows, px. */
const AROUND_PX = 24;
/** A chart takes its size a moment after its frame has its own. */
const SETTLED_MS = 400;

const dress = (page: Page, theme: Theme) =>
  page.evaluate((chosen) => {
    document.documentElement.dataset.theme = chosen;
  }, theme);

/** A dialog is shown without the screen behind it, which has a picture of its own. */
async function framed(page: Page) {
  const box =
    (await page.getByRole('dialog').count()) === 0 ? null : await page.getByRole('dialog').boundingBox();
  if (box === null) return { x: 0, y: 0, ...WINDOW };
  const x = Math.max(0, box.x - AROUND_PX);
  const y = Math.max(0, box.y - AROUND_PX);
  return {
    x,
    y,
    width: Math.min(WINDOW.width, box.x + box.width + AROUND_PX) - x,
    height: Math.min(WINDOW.height, box.y + box.height + AROUND_PX) - y,
  };
}

const browser = await launchBrowser();
if (browser === null)
  throw new Error('the pictures need a browser: install Chrome, or run this on Linux x64');
rmSync(join(root, SCREENS), { recursive: true, force: true });
mkdirSync(join(root, SCREENS), { recursive: true });
const { page, close } = await showWorkbench(browser, WINDOW);
let bytes = 0;
let count = 0;
try {
  for (const stop of stops) {
    await stop.arrive(page);
    const pictures = picturesOf([stop]);
    if (pictures.length === 0) continue;
    await page.waitForTimeout(SETTLED_MS);
    for (const { theme, path } of pictures) {
      await dress(page, theme);
      await page.screenshot({ path: join(root, path), clip: await framed(page), caret: 'hide' });
      bytes += statSync(join(root, path)).size;
      count += 1;
    }
    await dress(page, 'sun');
  }
} finally {
  await close();
  await browser.close();
}
const readme = join(root, 'README.md');
writeFileSync(readme, withGallery(readFileSync(readme, 'utf8'), stops));
process.stdout.write(`${count} pictures in ${SCREENS}, ${(bytes / 1e6).toFixed(1)} MB.\n`);
