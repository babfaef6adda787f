import { writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { expect, it } from 'vitest';
import { namedFolder } from '../../../electron/backend/services/named-folder.ts';
import { throwAwayFolder } from '../../support/archive.ts';
import { joined, refusalOf } from './joined.ts';

const never = new AbortController().signal;

it('takes the whole path of a folder that is there, and nothing else', () => {
  const stick = throwAwayFolder();
  expect(namedFolder(stick)).toBe(stick);
  const file = join(stick, 'a file');
  writeFileSync(file, '');
  for (const path of ['stick', './stick', '~/stick', relative(process.cwd(), stick)])
    expect(() => namedFolder(path)).toThrow(/say the whole path/);
  for (const path of [file, join(stick, 'no such folder'), join(file, 'below a file')])
    expect(() => namedFolder(path)).toThrow(/the folder isn't there; plug the drive in/);
});

it('puts no backup and no records where nobody named a folder', async () => {
  const { handlers, endOf, start } = await joined();
  await endOf(await start());
  for (const folder of ['mill', join(throwAwayFolder(), 'unplugged')]) {
    expect(await refusalOf(() => handlers['backups.make']({ folder }, never))).toMatchObject({
      code: 'no-folder',
    });
    const what = { kind: 'everything' } as const;
    expect(await refusalOf(() => handlers['transfer.give']({ what, folder }, never))).toMatchObject({
      code: 'no-folder',
    });
  }
});
