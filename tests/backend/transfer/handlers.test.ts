import { randomUUID } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { throwAwayFolder } from '../../support/archive.ts';
import { stick } from '../../support/two-laptops.ts';
import { joined } from '../services/joined.ts';

type Bench = Awaited<ReturnType<typeof joined>>;

async function fetched({ handlers, signal }: Bench, file: string): Promise<Buffer> {
  const parts: Buffer[] = [];
  for (let from = 0; ; ) {
    const { base64 } = await handlers['transfer.part']({ file, from }, signal);
    const part = Buffer.from(base64, 'base64');
    if (part.length === 0) return Buffer.concat(parts);
    parts.push(part);
    from += part.length;
  }
}

describe('a file of records over the bridge', () => {
  it('is fetched in parts from one laptop and brought in parts to another', async () => {
    const [a, b] = [await joined(), await joined({ newId: randomUUID })];
    await a.endOf(await a.start());
    const given = await a.handlers['transfer.give']({ what: { kind: 'everything' }, folder: null }, a.signal);
    expect(given).toMatchObject({ records: 4, sweeps: 1 });
    const bytes = await fetched(a, given.file ?? '');
    expect(bytes).toHaveLength(given.bytes);
    await expect(
      a.handlers['transfer.part']({ file: given.file ?? '', from: 0 }, a.signal),
    ).rejects.toMatchObject({
      refusal: { code: 'no-file' },
    });

    const file = randomUUID();
    const half = bytes.length >> 1;
    for (const part of [bytes.subarray(0, half), bytes.subarray(half)])
      await b.handlers['transfer.put']({ file, base64: part.toString('base64') }, b.signal);
    const from = { kind: 'file', file, fileName: 'from a' } as const;
    const { files } = await b.handlers['transfer.take']({ from, operator: 'R. Voss' }, b.signal);
    expect(files).toMatchObject([{ fileName: 'from a', became: 'taken-in', added: 4, sweeps: 1 }]);
    expect(readdirSync(join(b.folder, 'transfer'))).toEqual([]);
    const look = await b.handlers['transfer.look']({}, b.signal);
    expect(look.files).toMatchObject([{ fileName: 'from a', operator: 'R. Voss', added: 4 }]);
    expect(look.files[0]?.device).toBe(a.archive.head().device);
    expect(b.sent.some(({ name }) => name === 'transfer.progress')).toBe(true);
  });

  it('goes into a folder and comes out of it, with a word for each file', async () => {
    const [a, b, folder] = [await joined(), await joined({ newId: randomUUID }), stick()];
    await a.endOf(await a.start());
    const what = { kind: 'station', stationId: 'slipway' } as const;
    const given = await a.handlers['transfer.give']({ what, folder }, a.signal);
    expect(given.file).toBeNull();
    expect(readdirSync(folder)).toEqual([given.fileName]);
    writeFileSync(join(folder, 'half.records.gz'), '');
    const take = { from: { kind: 'folder', folder }, operator: '' } as const;
    const { files } = await b.handlers['transfer.take'](take, b.signal);
    expect(files.map(({ became }) => became)).toEqual(['incomplete', 'taken-in']);
    const again = await b.handlers['transfer.take'](take, b.signal);
    expect(again.files.map(({ became }) => became)).toEqual(['incomplete', 'before']);
  });

  it('is refused where there is no such folder, and one at a time', async () => {
    const { handlers, signal } = await joined();
    const what = { kind: 'everything' } as const;
    const folder = '/nowhere/at/all';
    await expect(handlers['transfer.give']({ what, folder }, signal)).rejects.toMatchObject({
      refusal: { code: 'no-folder' },
    });
    const take = { from: { kind: 'folder', folder }, operator: '' } as const;
    await expect(handlers['transfer.take'](take, signal)).rejects.toMatchObject({
      refusal: { code: 'no-folder' },
    });
    const first = handlers['transfer.give']({ what, folder: null }, signal);
    await expect(handlers['transfer.give']({ what, folder: null }, signal)).rejects.toMatchObject({
      refusal: { code: 'busy' },
    });
    await first;
  });

  it('leaves nothing behind when it is stopped', async () => {
    const { handlers, folder } = await joined();
    const stopper = new AbortController();
    stopper.abort();
    const drive = stick();
    const what = { kind: 'everything' } as const;
    await handlers['transfer.give']({ what, folder: drive }, stopper.signal).catch(() => undefined);
    expect(readdirSync(drive).filter((name) => name.endsWith('.part'))).toEqual([]);
    expect(existsSync(join(folder, 'transfer'))).toBe(false);
  });

  it('puts away what a killed program left, and leaves alone what others are still writing', async () => {
    const folder = throwAwayFolder();
    const drive = stick();
    mkdirSync(join(folder, 'transfer'));
    writeFileSync(join(folder, 'transfer', randomUUID()), 'half');
    const { handlers, archive, signal } = await joined({ folder });
    expect(existsSync(join(folder, 'transfer'))).toBe(false);

    const partOf = (device: string) =>
      `tiltwright-${device}-everything-20260301T080000Z.records.gz.0123abcd.part`;
    const own = partOf(archive.head().device.slice(0, 8));
    const anothers = partOf('00000000');
    for (const name of [own, anothers]) writeFileSync(join(drive, name), 'half');
    const what = { kind: 'everything' } as const;
    const { fileName } = await handlers['transfer.give']({ what, folder: drive }, signal);
    expect(readdirSync(drive).toSorted()).toEqual([anothers, fileName].toSorted());
  });
});
