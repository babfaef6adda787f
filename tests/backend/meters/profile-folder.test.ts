import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { profileFolder } from '../../../electron/backend/meters/profile-folder.ts';
import { throwAwayFolder } from '../../support/archive.ts';

const line = JSON.parse(readFileSync('electron/backend/meters/profiles/line.json', 'utf8'));
const written = (name: string) => JSON.stringify({ ...line, name });

it('has no profiles where there is no folder', () => {
  expect(profileFolder(throwAwayFolder(), []).read()).toEqual({ profiles: [], broken: [] });
});

it('reads every profile, names the broken ones, and is kept from none by them', () => {
  const data = throwAwayFolder();
  mkdirSync(join(data, 'profiles'));
  const put = (name: string, text: string) => writeFileSync(join(data, 'profiles', name), text);
  put('a.json', written('mine'));
  put('b.json', '{');
  put('c.json', written('mine'));
  put('d.json', written('line'));
  put('e.json', JSON.stringify({ ...line, name: 'other', colour: 'red' }));
  put('notes.txt', 'not looked at');
  const { profiles, broken } = profileFolder(data, ['line']).read();
  expect(profiles.map(({ name }) => name)).toEqual(['mine']);
  expect(broken.map(({ fileName }) => fileName)).toEqual(['b.json', 'c.json', 'd.json', 'e.json']);
  expect(broken[3]?.help).toContain('"colour"');
});

it('keeps a profile that is one, under its own name, and nothing else', () => {
  const data = throwAwayFolder();
  const folder = profileFolder(data, ['line']);
  expect(folder.save('{')).toMatchObject({ ok: false, code: 'not-json' });
  expect(folder.save(written('line'))).toMatchObject({ ok: false, code: 'name-taken' });
  expect(folder.save(written('mine')).ok).toBe(true);
  expect(folder.save(written('mine')).ok).toBe(true);
  expect(readdirSync(join(data, 'profiles'))).toEqual(['mine.json']);
  expect(folder.read().profiles.map(({ name }) => name)).toEqual(['mine']);
});
