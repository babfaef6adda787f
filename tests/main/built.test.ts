import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build, type Plugin } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { mainConfig } from '../../electron/builds.ts';
import manifest from '../../package.json' with { type: 'json' };
import { projectRoot } from '../support/fake-electron.ts';
import { filesBelow } from '../support/source-files.ts';

const Line = z.object({ what: z.string(), facts: z.unknown() });

describe('the built main process', () => {
  let dist = '';
  let outDir = '';
  let taken: readonly string[] = [];
  beforeAll(async () => {
    // Inside the project, so that the built files find its packages.
    mkdirSync(path.join(projectRoot, 'dist'), { recursive: true });
    dist = mkdtempSync(path.join(projectRoot, 'dist', 'test-'));
    outDir = path.join(dist, 'main');
    const listed: Plugin = {
      name: 'what-was-taken',
      generateBundle: (_options, bundle) => {
        const ids = Object.values(bundle).flatMap((part) => (part.type === 'chunk' ? part.moduleIds : []));
        taken = ids.map((id) => path.relative(projectRoot, id).replaceAll('\\', '/'));
      },
    };
    await build({ ...mainConfig(projectRoot, outDir), plugins: [listed] });
  });
  afterAll(() => rmSync(dist, { recursive: true, force: true }));

  const filesOf = () => readdirSync(outDir).map((name) => path.join(outDir, name));

  it('has its two entries, made of nothing but our own sources', () => {
    expect(readdirSync(outDir)).toEqual(expect.arrayContaining(['main.mjs', 'backend-process.mjs']));
    expect(taken).toContain('electron/backend/report/pdf.ts');
    expect(taken.filter((name) => !/^((core|electron)\/|package\.json$)/.test(name))).toEqual([]);
    // Larger than the sources it is made of it can only be by what is not ours.
    const ours = ['core', 'electron'].flatMap(filesBelow).map((name) => path.join(projectRoot, name));
    const bytesOf = (files: readonly string[]) => files.reduce((sum, file) => sum + statSync(file).size, 0);
    expect(bytesOf(filesOf())).toBeLessThan(bytesOf(ours));
  });

  const askedBy = (file: string): string[] =>
    [
      ...readFileSync(file, 'utf8').matchAll(
        /^(?:import|export) (?:[^"';]* from )?"([^".][^"]*)";|(?:import|require)\("([^".][^"]*)"\)/gm,
      ),
    ].map((found) => found[1] ?? found[2] ?? '');

  // A bundler that takes them in leaves their native part behind: "No native build was found" (node-serialport #2998).
  it('leaves the packages with a native part outside, whole', () => {
    const asked = new Set(filesOf().flatMap(askedBy));
    for (const name of ['serialport', 'better-sqlite3']) expect(asked).toContain(name);
    const taken = filesOf().filter((file) =>
      /prebuilds|node-gyp-build|bindings-cpp|[\w-]+\.node["'`]/.test(readFileSync(file, 'utf8')),
    );
    expect(taken).toEqual([]);
    expect(readdirSync(outDir, { recursive: true }).filter((name) => String(name).endsWith('.node'))).toEqual(
      [],
    );
  });

  it('takes every package from outside, and no other than the project’s own', () => {
    const asked = filesOf().flatMap(askedBy);
    const known = new Set(['electron', ...Object.keys(manifest.dependencies), ...builtinModules]);
    const packageOf = (name: string) =>
      name
        .split('/')
        .slice(0, name.startsWith('@') ? 2 : 1)
        .join('/');
    expect(asked.length).toBeGreaterThan(5);
    expect(asked).toContain('electron');
    expect(asked.filter((name) => !name.startsWith('node:') && !known.has(packageOf(name)))).toEqual([]);
  });

  it('keeps Electron out of the backend’s process', () => {
    const backend = readFileSync(path.join(outDir, 'backend-process.mjs'), 'utf8');
    expect(backend).not.toMatch(/from "electron"/);
  });

  it('comes up to its window with a stand-in for Electron', () => {
    mkdirSync(path.join(dist, 'renderer'));
    writeFileSync(path.join(dist, 'renderer', 'index.html'), '<!doctype html>');
    const stub = pathToFileURL(path.join(projectRoot, 'tests/support/stub-electron.ts')).href;
    const hook = `import { registerHooks } from 'node:module';
      registerHooks({ resolve: (name, context, next) =>
        name === 'electron' ? { url: ${JSON.stringify(stub)}, shortCircuit: true } : next(name, context) });`;
    const dataDir = path.join(dist, 'data');
    const run = spawnSync(
      process.execPath,
      [
        '--import',
        `data:text/javascript,${encodeURIComponent(hook)}`,
        path.join(outDir, 'main.mjs'),
        '--some-switch-of-electron',
        `--data=${dataDir}`,
      ],
      { encoding: 'utf8', timeout: 15_000 },
    );
    expect(run.stderr).toBe('');
    expect(run.status).toBe(0);
    const lines = run.stdout.trim().split('\n');
    const said = new Map(
      lines.map((line) => Line.parse(JSON.parse(line))).map(({ what, facts }) => [what, facts]),
    );
    expect([...said.keys()].sort()).toEqual(['fork', 'load', 'page', 'window']);
    expect(said.get('page')).toBe(200);
    expect(said.get('load')).toBe('tiltwright://workbench/index.html');
    expect(said.get('fork')).toEqual({
      file: path.join(outDir, 'backend-process.mjs'),
      words: [`--data=${dataDir}`],
    });
    expect(said.get('window')).toMatchObject({
      webPreferences: { sandbox: true, preload: path.join(dist, 'preload', 'preload.cjs') },
    });
  });
});
