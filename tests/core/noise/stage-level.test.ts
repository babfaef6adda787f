import { describe, expect, it } from 'vitest';
import { installedOf } from '../../../core/files/station.ts';
import { forwardOutput, outputLevels, stageLevels } from '../../../core/noise/stage-level.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';

const station = quillmere.find((one) => one.station.id === 'qm4-03-ropewalk')?.station;
if (station === undefined) throw new Error('no station');
const stands = { station, pluggedIn: installedOf(station), outputRows: null, inputRows: null };
const line = (lowDbmv: number, highDbmv: number) =>
  Array.from({ length: 69 }, (_, i) => ({
    frequencyMhz: 54 + 12 * i,
    levelDbmv: lowDbmv + ((highDbmv - lowDbmv) * i) / 68,
  }));

describe('the output', () => {
  it('is that of the sweep, else that of the design', () => {
    expect(outputLevels(stands)).toEqual({ ok: true, value: { lowDbmv: 36, highDbmv: 46, from: 'design' } });
    expect(outputLevels({ ...stands, outputRows: line(35, 44) })).toMatchObject({
      value: { lowDbmv: expect.closeTo(35, 9), highDbmv: expect.closeTo(44, 9), from: 'sweep' },
    });
    const bare = { ...station, ports: station.ports.map(({ design: _, ...port }) => port) };
    expect(outputLevels({ ...stands, station: bare })).toMatchObject({ code: 'no-design' });
    expect(forwardOutput(station)).toMatchObject({ value: { name: 'forward output' } });
  });
});

describe('the level at the first stage', () => {
  // By hand: pad 10; equalizer 14 loses 1 at 870 MHz and 1 + 14 x 0.750864 = 11.5121 at 54 MHz.
  it('is the input less what is plugged in there', () => {
    const told = stageLevels({ ...stands, inputRows: line(30, 24) });
    if (!told.ok) throw new Error(told.help);
    expect(told.value.from).toBe('input sweep');
    expect(told.value.highDbmv).toBeCloseTo(24 - 10 - 1, 9);
    expect(told.value.lowDbmv).toBeCloseTo(30 - 10 - 11.5121, 3);
  });
  // By hand: 46 - 38 + pad 4 + equalizer 6 (1 at the top), 36 - 38 + 4 + 1 + 6 x 0.750864.
  it('is the output less the gain and what stands behind', () => {
    const told = stageLevels({ ...stands, gainDb: 38 });
    if (!told.ok) throw new Error(told.help);
    expect(told.value.from).toBe('output less gain');
    expect(told.value.highDbmv).toBeCloseTo(13, 9);
    expect(told.value.lowDbmv).toBeCloseTo(3 + 4.5052, 3);
  });
  it('is refused where neither is known, with what would help', () =>
    expect(stageLevels(stands)).toMatchObject({
      ...{ ok: false, code: 'no-input-level', help: expect.stringContaining('read the forward input') },
    }));
});
