import { existsSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import manifest from '../package.json' with { type: 'json' };
import { filesBelow, type Import, importsOf, root, textOf } from './support/source-files.ts';

/** Where a file stands decides what it may import: folders of ours by prefix, foreign packages by name. */
type Layer = Readonly<{ under: string; ours: readonly string[]; foreign: readonly string[] | 'any' }>;

/** The first layer whose prefix fits rules; a source file that no layer names fails. */
const layers: readonly Layer[] = [
  { under: 'core/bridge/', ours: ['core/'], foreign: ['zod'] },
  {
    under: 'core/files/',
    ours: [
      'core/files/',
      'core/line/',
      'core/channels/',
      'core/plug-ins/',
      'core/coax/cables',
      'core/records/',
      'core/result',
      'core/units',
      'core/interpolate',
    ],
    foreign: ['zod', 'papaparse'],
  },
  {
    under: 'core/line/',
    ours: [
      'core/line/',
      'core/channels/',
      'core/uncertainty/',
      'core/files/station',
      'core/result',
      'core/units',
      'core/interpolate',
    ],
    foreign: [],
  },
  {
    under: 'core/plug-ins/',
    ours: ['core/plug-ins/', 'core/files/station', 'core/result', 'core/units', 'core/interpolate'],
    foreign: [],
  },
  { under: 'core/fourier/', ours: ['core/fourier/'], foreign: ['fourier-transform'] },
  { under: 'core/', ours: ['core/'], foreign: [] },
  {
    under: 'electron/main/',
    ours: ['electron/main/', 'electron/hosts/', 'electron/backend/', 'core/'],
    foreign: 'any',
  },
  { under: 'electron/preload/', ours: ['electron/preload/', 'core/bridge/'], foreign: ['electron'] },
  {
    under: 'electron/loopback/',
    ours: ['electron/loopback/', 'electron/hosts/', 'electron/backend/', 'core/', 'package.json'],
    foreign: 'any',
  },
  { under: 'electron/hosts/', ours: ['electron/hosts/', 'electron/backend/', 'core/'], foreign: 'any' },
  { under: 'electron/cli/', ours: ['electron/', 'core/', 'package.json'], foreign: 'any' },
  {
    under: 'electron/backend/archive/',
    ours: ['electron/backend/archive/', 'core/'],
    foreign: 'any',
  },
  {
    under: 'electron/backend/meters/',
    ours: ['electron/backend/meters/', 'core/'],
    foreign: 'any',
  },
  { under: 'electron/backend/', ours: ['electron/backend/', 'core/', 'package.json'], foreign: 'any' },
  {
    under: 'electron/',
    ours: ['electron/', 'core/', 'package.json', 'renderer/vite.config'],
    foreign: 'any',
  },
  { under: 'renderer/', ours: ['renderer/', 'core/'], foreign: 'any' },
];

const isSource = (path: string) => /\.(ts|tsx|mts|cts)$/.test(path);
const sources = ['core', 'electron', 'renderer'].flatMap(filesBelow).filter(isSource);
const layerOf = (path: string) => layers.find((layer) => path.startsWith(layer.under));
/** A file without its comments, so that prose may say what code may not do. */
const codeOf = (path: string) => textOf(path).replace(/\/\*[\s\S]*?\*\/|(^|\s)\/\/.*$/gm, '$1');
const parsed: readonly Import[] = sources.flatMap(importsOf);

describe('layers', () => {
  it('cover every source file', () => {
    expect(sources.length).toBeGreaterThan(20);
    expect(sources.filter((path) => layerOf(path) === undefined)).toEqual([]);
  });

  it('see the imports of every file (the reader of imports is not blind)', () => {
    expect(parsed.length).toBeGreaterThan(100);
    expect(parsed).toContainEqual({ file: 'core/files/station.ts', target: 'zod', foreign: true });
    expect(parsed).toContainEqual({
      file: 'core/bridge/records.ts',
      target: 'core/files/station.ts',
      foreign: false,
    });
  });

  it('point one way', () => {
    const wrong = parsed.filter(({ file, target, foreign }) => {
      const layer = layerOf(file);
      if (layer === undefined) return true;
      if (foreign) return layer.foreign !== 'any' && !layer.foreign.includes(target);
      return !layer.ours.some((prefix) => target.startsWith(prefix));
    });
    expect(wrong).toEqual([]);
  });

  it('let no file but the bridge itself look into the bridge from inside core', () => {
    const wrong = parsed.filter(
      ({ file, target }) =>
        file.startsWith('core/') && !file.startsWith('core/bridge/') && target.startsWith('core/bridge/'),
    );
    expect(wrong).toEqual([]);
  });

  it('need nothing that an installation without the tools of development lacks', () => {
    const kept = new Set([...Object.keys(manifest.dependencies), ...builtinModules]);
    // The builds are made where the tools are; Electron is the runtime, fetched or not there.
    const apart = (file: string, target: string) => file === 'electron/builds.ts' || target === 'electron';
    const wrong = parsed.filter(
      ({ file, target, foreign }) =>
        foreign &&
        !file.startsWith('renderer/') &&
        !target.startsWith('node:') &&
        !kept.has(target) &&
        !apart(file, target) &&
        !new RegExp(`^import type [^;]* from '${target}';$`, 'm').test(textOf(file)),
    );
    expect(wrong).toEqual([]);
  });

  it('keep Electron inside the shell', () => {
    const users = parsed
      .filter(({ target, foreign }) => foreign && target === 'electron')
      .map(({ file }) => file);
    expect(users.filter((file) => !/^electron\/(main|preload)\//.test(file))).toEqual([]);
  });

  it('keep parts and charts free of the store and the bridge', () => {
    const wrong = parsed.filter(
      ({ file, target }) =>
        /^renderer\/(parts|charts)\//.test(file) && /^renderer\/(state\/|screens\/|bridge)/.test(target),
    );
    expect(wrong).toEqual([]);
  });
});

describe('core', () => {
  const core = sources.filter((path) => path.startsWith('core/') && !path.endsWith('.d.ts'));

  it.each([
    ['a clock', /\bDate\.now\b|\bnew Date\(\s*\)|\bperformance\b/],
    ['chance', /\bMath\.random\b|\brandomUUID\b/],
    ['the environment', /\bprocess\.|\bglobalThis\b|\bconsole\./],
    ['a default branch in a switch', /^\s*default:/m],
  ])('has no %s', (_what, pattern) => {
    expect(core.filter((path) => pattern.test(codeOf(path)))).toEqual([]);
  });

  it('names the unit of every number parameter', () => {
    const bare = /[(,]\s*(level|frequency|loss|temperature|tilt|distance|length)\s*:\s*number/;
    expect(core.filter((path) => bare.test(textOf(path)))).toEqual([]);
  });

  it('has a test file of the same name for every file that computes', () => {
    const computes = core.filter((path) =>
      /^export (async )?function|^export const \w+ = (<|\(|async)/m.test(textOf(path)),
    );
    const missing = computes.filter(
      (path) => !existsSync(join(root, 'tests', path.replace(/\.tsx?$/, '.test.ts'))),
    );
    expect(computes.length).toBeGreaterThan(10);
    expect(missing).toEqual([]);
  });

  it('exports no function that only its own test uses', () => {
    const others = filesBelow('tests').filter(isSource);
    const codes = [...sources, ...others].map((path) => ({ path, code: codeOf(path) }));
    const unused = codes
      .filter(({ path }) => core.includes(path))
      .flatMap(({ path, code }) => {
        const own = `tests/${path.replace(/\.ts$/, '.test.ts')}`;
        return [...code.matchAll(/^export (?:async )?(?:function\*? (\w+)|const (\w+) = (?:<|\(|async))/gm)]
          .map((match) => match[1] ?? match[2] ?? '')
          .filter((name) => {
            const word = new RegExp(`\\b${name}\\b`, 'g');
            // Its own file names it once where it makes it; a second time is a use.
            return !codes.some(
              (one) => one.path !== own && (one.code.match(word) ?? []).length > (one.path === path ? 1 : 0),
            );
          })
          .map((name) => `${path}: ${name}`);
      });
    expect(unused).toEqual([]);
  });

  it('says the source in the docstring of every exported function', () => {
    const silent = core.flatMap((path) => {
      const text = textOf(path);
      return [...text.matchAll(/^export (?:async )?(?:function\*? (\w+)|const (\w+) = (?:<|\(|async))/gm)]
        .filter((match) => {
          const before = text.slice(0, match.index).trimEnd();
          const docstring = before.endsWith('*/') ? before.slice(before.lastIndexOf('/**')) : '';
          return !docstring.includes('@source');
        })
        .map((match) => `${path}: ${match[1] ?? match[2]}`);
    });
    expect(silent).toEqual([]);
  });
});

// Nobody of us could open the JCGM documents: other programs that cite 100:2008, 4.3.7, 5.2.2 and H.1 and 106:2012, 7.3 confirm
// these; a section beside them is told from memory, and says so where it is told.
it('no section of a standard that nobody read is cited as if somebody had', () => {
  const told = /JCGM[^`]{0,400}?\b(5\.1\.2|6\.2\.1|7\.2|7\.4|8\.2|8\.3)\b/;
  const cites = ['core', 'renderer/how', 'renderer/help']
    .flatMap(filesBelow)
    .filter(isSource)
    .flatMap((path) =>
      textOf(path)
        .split(/\*\/|;\n|`,\n|',\n/)
        .filter((piece) => told.test(piece.slice(piece.indexOf('JCGM'))) && piece.includes('JCGM'))
        .map((piece) => ({ path, piece })),
    );
  expect(cites.length).toBeGreaterThan(10);
  expect(cites.filter(({ piece }) => !piece.includes('memory')).map(({ path }) => path)).toEqual([]);
});

describe('every file', () => {
  const tests = filesBelow('tests').filter(isSource);
  const bench = existsSync(join(root, 'bench')) ? filesBelow('bench').filter(isSource) : [];
  const all = [...sources, ...tests, ...bench];
  const linesOf = (path: string) => textOf(path).split('\n').length - 1;

  it('is at most 300 lines long, a test at most 500', () => {
    const long = all.filter((path) => linesOf(path) > (path.startsWith('tests/') ? 500 : 300));
    expect(long.map((path) => `${path}: ${linesOf(path)}`)).toEqual([]);
  });

  it('switches no rule off', () => {
    const marks = new RegExp(
      ['biome-' + 'ignore', '@ts-' + '(ignore|expect-error|nocheck)', 'eslint-' + 'disable'].join('|'),
    );
    expect(all.filter((path) => marks.test(textOf(path)))).toEqual([]);
  });

  it('lives in a folder named after what it does', () => {
    expect(all.filter((path) => /\/(utils?|helpers?|common|types|misc)\//.test(path))).toEqual([]);
  });

  it('has a name in kebab-case, or PascalCase for a component', () => {
    const odd = all.filter((path) => {
      const name = path
        .slice(path.lastIndexOf('/') + 1)
        .replace(/(\.(test|build|d|config|bench))?\.(ts|tsx)$/, '');
      return path.endsWith('.tsx') && !path.startsWith('tests/')
        ? !/^([A-Z][A-Za-z0-9]*|main|app)$/.test(name)
        : !/^([a-z0-9]+(-[a-z0-9]+)*|[A-Z][A-Za-z0-9]*)$/.test(name);
    });
    expect(odd).toEqual([]);
  });

  it('of published values names its source', () => {
    const published = filesBelow('tests/data/published').filter((path) => path.endsWith('.json'));
    const silent = published.filter((path) => typeof JSON.parse(textOf(path)).source !== 'string');
    expect(published.length).toBeGreaterThan(0);
    expect(silent).toEqual([]);
  });
});
