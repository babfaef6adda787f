import { expect, it } from 'vitest';
import { bareCell, undressed } from '../../../../core/files/pasted/dressing.ts';

// RFC 3676, section 4.5: a quoted line begins with one or more ">".
it('takes quotes off where every line has them, and keeps each line its line', () => {
  expect(undressed('> > a;b\n>> 1;2\n\n> 3;4')).toBe('a;b\n1;2\n\n3;4');
  expect(undressed('> a;b\n1;2')).toBe('> a;b\n1;2');
});

it('takes the sign of a list off before a frequency, and never before a level', () => {
  expect(undressed('- 57 MHz 3 dBmV\n* 63 MHz 4 dBmV\n2. 69 MHz 5 dBmV')).toBe(
    '57 MHz 3 dBmV\n63 MHz 4 dBmV\n69 MHz 5 dBmV',
  );
  expect(undressed('- 5.5 dBmV\t57 MHz')).toBe('- 5.5 dBmV\t57 MHz');
});

it('leaves a struck number its signs, and takes those of a bold one inside of a cell', () => {
  expect(bareCell('~~31.0 dBmV~~')).toBe('~~31.0 dBmV~~');
  expect(bareCell('**-9.1** dBmV')).toBe('-9.1 dBmV');
  expect(bareCell('2 ** 3')).toBe('2 ** 3');
});

// CommonMark 0.31, the examples of emphasis and code spans.
it('takes the signs of Markdown off a cell', () => {
  expect(['**Level**', '`57 MHz`', '***x***', '_a_', '-1.5', '**', '*open'].map(bareCell)).toEqual([
    'Level',
    '57 MHz',
    'x',
    'a',
    '-1.5',
    '**',
    '*open',
  ]);
});
