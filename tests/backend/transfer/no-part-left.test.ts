import { pbkdf2 } from 'node:crypto';
import { readdirSync } from 'node:fs';
import { promisify } from 'node:util';
import { expect, it } from 'vitest';
import { throwAwayFolder } from '../../support/archive.ts';
import { joined, refusalOf } from '../services/joined.ts';

const work = promisify(pbkdf2);

it('leaves no beginning of a file where nothing is there to give, however late the disk opens it', async () => {
  const { handlers, signal } = await joined();
  const folder = throwAwayFolder();
  const what = { kind: 'period', fromMs: 0, toMs: 1000 } as const;
  for (let n = 0; n < 60; n++) {
    // The threads that open and remove files are given other work, of another length each time.
    const busy = [1, 2, 3].map((one) => work('w', 's', 1 + 400 * ((n + one) % 7), 32, 'sha256'));
    const refused = await refusalOf(() => handlers['transfer.give']({ what, folder }, signal));
    expect(refused).toMatchObject({ code: 'nothing-there' });
    await Promise.all(busy);
    expect(readdirSync(folder)).toEqual([]);
  }
});
