import { existsSync, mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { withBuildLock } from '../../electron/build-lock.ts';
import { type BuiltPart, needsBuild, stamped } from '../../electron/built-from.ts';

let root = '';
const write = (file: string, text: string) => {
  mkdirSync(path.dirname(path.join(root, file)), { recursive: true });
  writeFileSync(path.join(root, file), text);
};

beforeEach(() => {
  root = mkdtempSync(path.join(tmpdir(), 'tiltwright-tree-'));
  for (const folder of ['renderer', 'electron', 'core']) write(`${folder}/tsconfig.json`, '{}');
  write('package.json', '{}');
  write('core/units.ts', '1');
  write('renderer/deep/app.tsx', '1');
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

const build = (part: BuiltPart) =>
  stamped(root, part, async () => {
    write(part === 'page' ? 'dist/renderer/index.html' : 'dist/main/main.mjs', 'built');
  });

describe('a tree', () => {
  it('is built once', async () => {
    expect(needsBuild(root, 'page')).toBe(true);
    await build('page');
    expect(needsBuild(root, 'page')).toBe(false);
    expect(needsBuild(root, 'window')).toBe(true);
    await build('window');
    expect(needsBuild(root, 'window')).toBe(false);
  });

  it.each([
    ['a changed source', () => write('renderer/deep/app.tsx', '2')],
    ['a new source', () => write('core/new.ts', '')],
    ['a source that is gone', () => rmSync(path.join(root, 'core/units.ts'))],
    ['other packages', () => write('package.json', '{"a":1}')],
    ['a product that is gone', () => rmSync(path.join(root, 'dist/renderer/index.html'))],
  ])('is built again after %s', async (_what, change) => {
    await build('page');
    change();
    expect(needsBuild(root, 'page')).toBe(true);
  });

  it('is not built again because of a date, or of the other half', async () => {
    await build('page');
    utimesSync(path.join(root, 'core/units.ts'), new Date(), new Date(Date.now() + 60_000));
    write('electron/main/main.ts', 'changed');
    expect(needsBuild(root, 'page')).toBe(false);
  });

  it('is built again after a build that broke off', async () => {
    await build('page');
    await expect(stamped(root, 'page', () => Promise.reject(new Error('full disk')))).rejects.toThrow();
    expect(needsBuild(root, 'page')).toBe(true);
  });

  it('that changed while it was built is built again', async () => {
    await stamped(root, 'page', async () => {
      write('dist/renderer/index.html', 'built');
      write('core/units.ts', 'edited meanwhile');
    });
    expect(needsBuild(root, 'page')).toBe(true);
  });

  it('without sources, as it is shipped, is never built', async () => {
    rmSync(path.join(root, 'renderer'), { recursive: true });
    expect(needsBuild(root, 'page')).toBe(false);
  });
});

describe('two builds at once', () => {
  it('are done one after the other, and the second only when it is still needed', async () => {
    const log: string[] = [];
    let isBuilt = false;
    const one = (name: string) =>
      withBuildLock(
        root,
        () => !isBuilt,
        async () => {
          log.push(`${name} begins`);
          await new Promise((resolve) => setTimeout(resolve, 50));
          isBuilt = true;
          log.push(`${name} ends`);
        },
      );
    await Promise.all([one('first'), one('second')]);
    expect(log).toEqual(['first begins', 'first ends']);
    expect(existsSync(path.join(root, 'dist/building.lock'))).toBe(false);
  });

  it('do not wait for one whose process died', async () => {
    // No process has this number: the kernel's highest is 4194304 (man 5 proc, pid_max).
    write('dist/building.lock', '4194305');
    let isDone = false;
    await withBuildLock(
      root,
      () => true,
      async () => {
        isDone = true;
      },
    );
    expect(isDone).toBe(true);
  });

  it('leave no lock behind when one fails', async () => {
    const failing = withBuildLock(
      root,
      () => true,
      () => Promise.reject(new Error('full disk')),
    );
    await expect(failing).rejects.toThrow('full disk');
    expect(existsSync(path.join(root, 'dist/building.lock'))).toBe(false);
  });
});
