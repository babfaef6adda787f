import fc from 'fast-check';
import { expect, it } from 'vitest';
import { textCell, textOfCell } from '../../../core/files/text-cell.ts';

it.each(['=1+1', '+1', '-1', '@a', '\tx'])('disarms %j', (text) => {
  expect(textCell(text)).toBe(`"'${text}"`);
});

it('leaves plain words plain', () => {
  expect([textCell('channel 2'), textCell('a,b'), textCell('a\r\nb')]).toEqual(['channel 2', '"a,b"', 'a b']);
});

it('is undone by its other half', () => {
  fc.assert(
    fc.property(fc.string({ unit: fc.constantFrom(..."'=+-@\ta ") }), (text) => {
      const cell = textCell(text);
      const bare = cell.startsWith('"') ? cell.slice(1, -1).replaceAll('""', '"') : cell;
      expect(textOfCell(bare)).toBe(text);
    }),
  );
});
