import { expect, it } from 'vitest';
import { done, refusalLine, refuse } from '../../core/result.ts';

it('keeps a value and a refusal apart', () => {
  expect(done(3)).toEqual({ ok: true, value: 3 });
  expect(refuse('too-few', '1 usable row', 'measure two')).toEqual({
    ok: false,
    code: 'too-few',
    where: '1 usable row',
    help: 'measure two',
  });
});

it('says a refusal in one line: where, then what would help', () => {
  const line = refusalLine(refuse('bad', 'sweep.csv, line 4', 'give the unit'));
  expect(line).toBe('sweep.csv, line 4: give the unit');
  expect(line).not.toContain('\n');
});
