import { expect, it } from 'vitest';
import { readTraceList } from '../../../core/meters/trace-list.ts';

it('gives the numbers of the line, in every form that IEEE 488.2 has', () => {
  const read = readTraceList('1,-2.5, +3.0E+1 ,.5', ',', 4);
  expect(read).toEqual({ ok: true, value: [1, -2.5, 30, 0.5] });
});

it.each(['1,2', '1,2,3,4', '1,2,', '1,,3', '1,2,x', '1,2,NaN', '1,2,1E999', '1;2;3', '', '1,2,0x3'])(
  'refuses "%s" where three were asked for',
  (line) => expect(readTraceList(line, ',', 3)).toMatchObject({ ok: false, code: 'not-a-trace' }),
);
