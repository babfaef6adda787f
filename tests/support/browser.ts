import { existsSync, mkdirSync, mkdtempSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { inflate } from '@sparticuz/chromium';
import { type Browser, chromium } from 'playwright-core';
import { root } from './source-files.ts';

const cache = join(root, 'node_modules/.cache/tiltwright-chromium');
const packed = join(root, 'node_modules/@sparticuz/chromium/bin');
/** Not the package's own list: that one switches web security off, and what we test relies on it. */
const args = [
  '--no-sandbox',
  '--no-zygote',
  '--disable-gpu',
  '--disable-quic',
  '--disable-background-networking',
];

/** The browser that npm carries, unpacked once beside the packages; a half-written one is never taken for whole. */
async function unpacked(): Promise<string> {
  if (existsSync(join(cache, 'chromium'))) return cache;
  mkdirSync(join(cache, '..'), { recursive: true });
  const fresh = mkdtempSync(`${cache}-`);
  const temporary = process.env.TMPDIR;
  process.env.TMPDIR = fresh; // inflate() writes into os.tmpdir()
  try {
    for (const part of ['chromium.br', 'fonts.tar.br', 'swiftshader.tar.br', 'al2023.tar.br'])
      await inflate(join(packed, part));
  } finally {
    if (temporary === undefined) delete process.env.TMPDIR;
    else process.env.TMPDIR = temporary;
  }
  try {
    renameSync(fresh, cache);
  } catch {
    rmSync(fresh, { recursive: true, force: true }); // another test was first
  }
  return cache;
}

async function launchPacked(): Promise<Browser> {
  const folder = await unpacked();
  const executablePath = join(folder, 'chromium');
  const env = { ...process.env, FONTCONFIG_PATH: join(folder, 'fonts') };
  try {
    return await chromium.launch({ executablePath, args });
  } catch {
    // A bare server lacks NSS and its like; the package brings them, for this one process only.
    return await chromium.launch({
      executablePath,
      args,
      env: { ...env, LD_LIBRARY_PATH: join(folder, 'al2023/lib') },
    });
  }
}

/** True where the browser tests must run: Linux x64 carries its browser in npm. */
export const browserIsCarried = process.platform === 'linux' && process.arch === 'x64';

/** A browser from npm on Linux x64; elsewhere an installed Chrome, or null where there is none. */
export async function launchBrowser(): Promise<Browser | null> {
  if (browserIsCarried) return await launchPacked();
  try {
    return await chromium.launch({ channel: 'chrome' });
  } catch {
    process.stdout.write('No Chrome is installed here: the browser tests are skipped.\n');
    return null;
  }
}
