import { expect, it } from 'vitest';
import { numbersOf, sectionsOf } from '../../../../core/files/touchstone/sections.ts';

// The words are those of the Touchstone File Format Specification 2.0, IBIS Open Forum.
it('cuts a file into its parts and keeps every line at its number', () => {
  const cut = sectionsOf('! a\n# MHz ! b\n57 1 ! c\n\n63 2\n', 'x');
  expect(cut).toMatchObject({
    ok: true,
    value: {
      optionLine: { line: 2, text: '# MHz' },
      network: [
        { line: 3, text: '57 1' },
        { line: 5, text: '63 2' },
      ],
    },
  });
});

it.each([
  ['[Version] 3.0\n', 'version'],
  ['[Version] 2.0\n[Number of Ports] x\n', 'number of ports'],
  ['[Version] 2.0\n[Number of Ports] 2\n', 'Number of Frequencies'],
  ['[Version] 2.0\n[Number of Ports] 1\n[Number of Frequencies] 1\n[Mixed-Mode Order] D2,1\n', 'mixed-mode'],
  [
    '[Version] 2.0\n[Number of Ports] 2\n[Number of Frequencies] 1\n[Two-Port Data Order] 21_12\n[Reference] 75 -1\n',
    'above 0',
  ],
])('refuses %j', (text, word) => {
  const cut = sectionsOf(text, 'x');
  expect(cut.ok ? '' : cut.help).toContain(word);
});

it('reads numbers and nothing else', () => {
  expect(numbersOf({ line: 1, text: ' .5 -1e3 2.D1 7. ' }, 'x')).toEqual({
    ok: true,
    value: [0.5, -1000, 20, 7],
  });
  for (const word of ['0x1', '1e999', 'NaN', '1,5', '--1'])
    expect(numbersOf({ line: 3, text: word }, 'x')).toMatchObject({ ok: false, where: 'x, line 3' });
});
