import { expect, it } from 'vitest';
import { withoutMarks } from '../../../../core/files/pasted/marked-up.ts';

it("makes lines of a page's rows, each where it began, and keeps the words between", () => {
  const page =
    '<h2>Levels</h2>\n<table>\n<tr><th>MHz</th><th>Level [dBmV]</th></tr>\n<tr>\n<td><b>57</b></td>\n<td>&minus;1&nbsp;dBmV</td>\n</tr>\n</table>\nend';
  expect(withoutMarks(page).split('\n')).toEqual([
    'Levels',
    '',
    'MHz\tLevel [dBmV]',
    '57\t\u22121\u00A0dBmV',
    '',
    '',
    '',
    '',
    'end',
  ]);
});

it("reads a forum's marks, cells over several columns and rows on one line", () => {
  expect(withoutMarks('[table][tr][td]a[/td][td][b]b[/b][/td][/tr][/table]')).toBe('a\tb');
  expect(withoutMarks('<tr><td colspan=3>a</td><td>b</td></tr><tr><td>&#x3C;c&gt;</td></tr>')).toBe(
    'a\t\t\tb\n<c>',
  );
});

it('leaves what is no such table, and one of which nobody can say which cell is where', () => {
  for (const text of [
    'f_mhz,dBmV\n57,<1',
    '<tr><td rowspan="2">1</td><td>2</td></tr>',
    '<table><tr><td><table><tr><td>1</td></tr></table></td></tr></table>',
    '<tr>no cell</tr>',
    '[b]57[/b]',
  ])
    expect(withoutMarks(text)).toBe(text);
});

it('leaves what is struck out its marks, and passes over comments', () => {
  const row = (cell: string) => `<table><tr><td>57</td><td>${cell}</td></tr></table>`;
  for (const struck of ['<s>31</s>', '<del class="x">31</del>', '<strike>31</strike>'])
    expect(withoutMarks(row(struck)).trim()).toBe(`57\t${struck}`);
  expect(withoutMarks(row('<strong>31</strong><!-- 36 --><span> dBmV</span>')).trim()).toBe('57\t31 dBmV');
});
