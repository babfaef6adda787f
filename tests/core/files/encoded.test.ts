import { expect, it } from 'vitest';
import { encoded, keptAs } from '../../../core/files/encoded.ts';
import { encodingOf } from '../../../core/files/encoding.ts';

// Outside truth: Node's own TextDecoder and Buffer, which follow the WHATWG Encoding Standard.
const decoded = (bytes: Uint8Array) => {
  const encoding = encodingOf(bytes);
  return { encoding, text: new TextDecoder(encoding, { ignoreBOM: true }).decode(bytes) };
};
const text = 'frequency_mhz,level_dbmv\r\n57,−3.1\r\nµ ü € 🟢\n';

it.each([
  ['UTF-8', Buffer.from(text)],
  ['UTF-8 with its byte order mark', Buffer.from(`\uFEFF${text}`)],
  ['UTF-16LE', Buffer.from(`\uFEFF${text}`, 'utf16le')],
  ['UTF-16BE', Buffer.from(`\uFEFF${text}`, 'utf16le').swap16()],
  ['Windows-1252', Buffer.from('Pegel (dB\xb5V)\r\n57;\x96 3,1 \x80\x9f\xff\n', 'latin1')],
  ['every byte of Windows-1252 that is one', Buffer.from(Array.from({ length: 96 }, (_, i) => 0xa0 + i))],
  ['an empty file', Buffer.from('')],
])('%s gives its bytes again', (_what, bytes) => {
  const { encoding, text: read } = decoded(bytes);
  expect(Buffer.from(encoded(read, encoding) ?? [])).toEqual(bytes);
  expect(keptAs(bytes, read, encoding)).toBe(encoding);
});

it('gives every one byte of Windows-1252 again', () => {
  for (let byte = 0x80; byte < 0x100; byte++) {
    const bytes = Uint8Array.of(byte);
    const letter = new TextDecoder('windows-1252').decode(bytes);
    expect(encoded(letter, 'windows-1252')).toEqual(bytes);
  }
});

it('is none where a byte would be another', () => {
  const broken = Buffer.from([0x35, 0xc3]);
  expect(keptAs(broken, new TextDecoder().decode(broken), 'utf-8')).toBeNull();
  const odd = Buffer.from([0xff, 0xfe, 0x35, 0x00, 0x36]);
  expect(keptAs(odd, decoded(odd).text, 'utf-16le')).toBeNull();
  const half = Buffer.from([0xff, 0xfe, 0x00, 0xd8]);
  expect(keptAs(half, decoded(half).text, 'utf-16le')).toBeNull();
  expect(encoded('−', 'windows-1252')).toBeNull();
  expect(encoded('\ud800', 'utf-8')).toBeNull();
});
