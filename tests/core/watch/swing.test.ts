import { describe, expect, it } from 'vitest';
import { installedOf } from '../../../core/files/station.ts';
import { simulatedPortDbmv } from '../../../core/simulate/level.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';
import { swingOf } from '../../../core/watch/swing.ts';

const span = { lossDb: 28, topMhz: 870, perDegreeC: 0.002 };
const day = (levelDbmv: (ambientC: number) => number) =>
  Array.from({ length: 25 }, (_, hour) => {
    const ambientC = 5 + 10 * Math.sin((hour * Math.PI) / 12);
    return { ambientC, levelDbmv: levelDbmv(ambientC) };
  });
/** What the span alone makes of a degree at 711 MHz: contract, section 3, "season, exactly". */
const perDegreeDb = -28 * Math.sqrt(711 / 870) * 0.002;

describe('how much of the swing a control took out', () => {
  it.each([
    [1, 0],
    [0, 1],
    [0.25, 0.75],
    [1.5, -0.5],
  ])('where %d of it came out: %d', (left, takenOut) => {
    const swing = swingOf(
      day((c) => 44 + left * perDegreeDb * c),
      711,
      span,
    );
    expect(swing?.takenOut).toBeCloseTo(takenOut, 9);
    expect(swing?.withoutControlDb).toBeCloseTo(perDegreeDb * 20, 6);
    expect(swing?.hottestC).toBeCloseTo(15, 9);
  });

  it('is nearly all at a simulated station in automatic', () => {
    const [demo] = quillmere;
    const own = demo?.station.span;
    if (demo === undefined || own === undefined) throw new Error('no station');
    const points = day((ambientC) => {
      const probe = {
        station: demo.station,
        portName: 'forward output',
        pluggedIn: installedOf(demo.station),
        ambientC,
      };
      return simulatedPortDbmv(demo.scenario, probe, 711) ?? Number.NaN;
    });
    expect(swingOf(points, 711, own)?.takenOut).toBeCloseTo(1, 6);
  });

  it('is not told from a day that was too even, or a span that changes nothing', () => {
    const even = day(() => 44).map((point) => ({ ...point, ambientC: 20 + point.ambientC / 10 }));
    expect(swingOf(even, 711, span)).toBeNull();
    expect(swingOf([], 711, span)).toBeNull();
    expect(
      swingOf(
        day(() => 44),
        711,
        { ...span, lossDb: 0 },
      ),
    ).toBeNull();
  });

  it('takes no reading that is no number', () => {
    expect(() => swingOf([{ ambientC: Number.NaN, levelDbmv: 1 }], 711, span)).toThrow(RangeError);
  });
});
