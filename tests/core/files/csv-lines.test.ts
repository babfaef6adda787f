import { expect, it } from 'vitest';
import { firstRow, plainText, splitRows } from '../../../core/files/csv-lines.ts';

it('makes text plain and keeps every line at its number', () => {
  const plain = plainText('\uFEFFa,b\r\n# c\r\n"#1\n# in",2', 'x.csv');
  expect(plain).toMatchObject({
    ok: true,
    value: { text: 'a,b\n\n"#1\n# in",2', toldSeparator: null, unended: true },
  });
});

it('hears the separator that a spreadsheet tells', () => {
  expect(plainText('sep=;\na;b\n', 'x')).toMatchObject({
    ok: true,
    value: { text: '\na;b\n', toldSeparator: ';' },
  });
});

it('splits rows as RFC 4180 has them, blank ones left out', () => {
  expect(splitRows('a,b\n\n" x ""y""\nz", 2 \n', ',', 'x')).toEqual({
    ok: true,
    value: [
      { line: 1, cells: ['a', 'b'] },
      { line: 3, cells: ['x "y"\nz', '2'] },
    ],
  });
});

it('refuses what is no text by its line', () => {
  expect(plainText('a\nb\u0007', 'x')).toMatchObject({ ok: false, code: 'not-text', where: 'x, line 2' });
  expect(plainText('\uFFFD', 'x')).toMatchObject({ ok: false, code: 'not-text', where: 'x, line 1' });
  expect(plainText('#\n \n', 'x')).toMatchObject({ ok: false, code: 'empty' });
  expect(splitRows('a\n"b', ',', 'x')).toMatchObject({ ok: false, code: 'bad-quotes', where: 'x, line 2' });
});

it('tries a separator on the first row alone', () => {
  expect(firstRow('\n \n"a\nb"; c ;\n"open', ';')).toEqual({ line: 3, cells: ['a\nb', 'c', ''] });
  expect(firstRow('\n\tf\tg\n', '\t')).toEqual({ line: 2, cells: ['', 'f', 'g'] });
  expect(firstRow(' \n', ',')).toEqual({ line: 1, cells: [] });
});
