import { describe, expect, it } from 'vitest';
import { calls, events } from '../core/bridge/contract.ts';
import { runOutside } from './support/command-line.ts';
import { filesBelow, textOf } from './support/source-files.ts';

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
