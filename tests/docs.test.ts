import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { calls, events } from '../core/bridge/contract.ts';
import { galleryOf, picturesOf, SCREENS } from './look/gallery.ts';
import { stops } from './look/walk.ts';
import { runOutside } from './support/command-line.ts';
import { filesBelow, root, textOf } from './support/source-files.ts';

const readme = textOf('README.md');
const developers = textOf('DEVELOPERS.md');

describe('the documents', () => {
  it('name every verb of the command line', () => {
    // A folder beside a verb holds its parts: archive/verify.ts is `archive verify`.
    const verbs = filesBelow('electron/cli/verbs').map((path) =>
      path.replace(/^electron\/cli\/verbs\/|\.ts$/g, '').replace('/', ' '),
    );
    expect(verbs).toContain('propose');
    expect(
      verbs.filter((verb) => !readme.includes(`| \`${verb} `) && !readme.includes(`| \`${verb}\``)),
    ).toEqual([]);
  });

  it('name every call and event of the bridge', () => {
    const names = [...Object.keys(calls), ...Object.keys(events)];
    expect(names.filter((name) => !developers.includes(`\`${name}\``))).toEqual([]);
  });

  it('say why each place, verb and file format has its name', () => {
    const reasons = /\n### Names\n([\s\S]*?)\n## /.exec(developers)?.[1] ?? '';
    const sources = ['core', 'electron'].flatMap(filesBelow).map(textOf).join('\n');
    const formats = new Set([...sources.matchAll(/tiltwright-[a-z-]+\/\d/g)].map(([name]) => `\`${name}\``));
    const verbs = filesBelow('electron/cli/verbs').map(
      (path) => `\`${path.replace(/^electron\/cli\/verbs\/|\.ts$/g, '').replace('/', ' ')}\``,
    );
    const screens = [...textOf('renderer/state/place-slice.ts').matchAll(/name: '([^']+)'/g)];
    expect(formats.size).toBeGreaterThan(5);
    expect(screens.length).toBeGreaterThan(4);
    const names = [...formats, ...verbs, ...screens.map((match) => `*${match[1] ?? ''}*`)];
    expect(names.filter((name) => !reasons.includes(name))).toEqual([]);
  });

  it('give the two commands of a fresh machine', () => {
    expect(readme).toContain('npm ci && npm start');
    expect(readme).toContain('npm ci && npm test');
  });

  it('point only to files that are there', () => {
    const paths = [
      ...`${readme}${developers}`.matchAll(
        /`((?:core|electron|renderer|tests|sample-sweeps)\/[\w./-]+\.\w+)`/g,
      ),
    ];
    const all = new Set(['core', 'electron', 'renderer', 'tests', 'sample-sweeps'].flatMap(filesBelow));
    expect(paths.length).toBeGreaterThan(10);
    expect(paths.map((match) => match[1] ?? '').filter((path) => !all.has(path))).toEqual([]);
  });

  it('show each picture that the walk asks for, and keep no other', () => {
    const pictures = picturesOf(stops);
    expect(pictures.length).toBeGreaterThan(25);
    expect(readme).toContain(galleryOf(stops));
    expect(filesBelow(SCREENS).toSorted()).toEqual(pictures.map(({ path }) => path).toSorted());
    const bytes = pictures.map(({ path }) => readFileSync(join(root, path)));
    for (const picture of bytes) expect(picture.subarray(1, 4).toString()).toBe('PNG');
    expect(bytes.reduce((sum, { length }) => sum + length, 0)).toBeLessThan(3e6);
  });

  const examples = [...readme.matchAll(/```console\n\$ npm run -s tiltwright -- (.+)\n([\s\S]*?)```/g)];
  it('show at least one run of the command line', () => expect(examples.length).toBeGreaterThan(0));
  it.each(examples.map((match) => [match[1] ?? '', match[2] ?? '']))(
    'show what `%s` prints',
    async (line, shown) => {
      const { stdout } = await runOutside(line.split(' '));
      expect(stdout.trimEnd()).toBe(shown.trimEnd());
    },
  );
});
