import { expect, it } from 'vitest';
import { fileText } from '../../renderer/read-file-text.ts';

it('tells in which letters a file is kept with every byte', async () => {
  const table = 'MHz;dBµV\r\n54;96,1\r\n';
  const read = async (bytes: Uint8Array<ArrayBuffer>) => await fileText(new Blob([bytes]));
  expect(await read(Buffer.from(`\uFEFF${table}`))).toEqual({
    text: `\uFEFF${table}`,
    note: null,
    encoding: 'utf-8',
  });
  expect(await read(Buffer.from(`\uFEFF${table}`, 'utf16le'))).toMatchObject({
    text: `\uFEFF${table}`,
    encoding: 'utf-16le',
  });
  const old = await read(Buffer.from(table, 'latin1'));
  expect(old).toMatchObject({ text: table, encoding: 'windows-1252' });
  expect(old.note).toContain('Windows-1252');
  // A letter that is cut off is none that could be written again.
  expect(await read(Buffer.from([0x35, 0xc3]))).toMatchObject({ text: '5\uFFFD', encoding: null });
});
