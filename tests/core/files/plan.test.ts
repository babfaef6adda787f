import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPlan } from '../../../core/files/plan.ts';
import { refusalLine } from '../../../core/result.ts';

const planOf = (text: string) => {
  const plan = readPlan(text, 'p.txt');
  if (!plan.ok) throw new Error(refusalLine(plan));
  return plan.value;
};
const refusalOf = (text: string) => {
  const plan = readPlan(text, 'p.txt');
  if (plan.ok) throw new Error(`read as ${JSON.stringify(plan.value)}`);
  return refusalLine(plan);
};

describe('a plan', () => {
  it.each([
    ['JSON', '{"format":"tiltwright-plan/1","frequenciesMhz":[57,63.5]}'],
    ['a bare list', '\uFEFF [57, 63.5]'],
    ['a sweep', 'frequency_mhz,level_dbmv\n57,36\n63.5,\n'],
    ['a sweep with rows without frequency', 'frequency_mhz,level_dbmv\n,3\n57,36\n0,0\n63.5,1\n'],
    ['a column of its own', 'frequency_khz\n57000\n63500\n'],
    ['one a line with units', '57 MHz\n# two\n63500 kHz\n'],
    ['one a line, bare', '57\n63.5\n'],
    ['one a line with decimal commas', '57,0 MHz\n63,5 MHz\n'],
  ])('is read from %s', (_what, text) => {
    expect(planOf(text)).toEqual({
      format: 'tiltwright-plan/1',
      frequenciesMhz: [57, 63.5],
      testPointLossDb: 0,
    });
  });

  it('keeps its test point loss', () => {
    expect(planOf('{"format":"tiltwright-plan/1","frequenciesMhz":[57],"testPointLossDb":20}')).toMatchObject(
      {
        testPointLossDb: 20,
      },
    );
  });

  it.each([
    ['an unknown key', '{"format":"tiltwright-plan/1","frequenciesMhz":[57],"steps":3}', /p\.txt: .*"steps"/],
    ['no frequencies', '[]', /p\.txt, frequenciesMhz/],
    ['a frequency of 0', '[0]', /frequenciesMhz\.0/],
    ['too many', JSON.stringify(Array.from({ length: 2001 }, (_, i) => i + 1)), /1 to 2000/],
    ['half a file', '[57, 63', /not a JSON file/],
    ['words', '57 MHz\nand so on\n', /line 2: "and so on"/],
    ['an uncertain unit', '1200\n2500\n', /frequency_mhz/],
    ['nothing', '', /empty/],
  ])('refuses %s', (_what, text, line) => {
    expect(refusalOf(text)).toMatch(line);
  });

  it('never throws', () => {
    const text = fc.oneof(
      fc.array(fc.nat(0xffff)).map((all) => String.fromCharCode(...all)),
      fc.json(),
      fc.string().map((some) => `frequency\n${some}`),
    );
    fc.assert(
      fc.property(text, (some) => typeof readPlan(some, 'p').ok === 'boolean'),
      { numRuns: 200 },
    );
  });
});
