import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { screenCarriers } from '../../../core/line/screen-carriers.ts';

const frequenciesMhz = Array.from({ length: 137 }, (_, i) => 57 + 6 * i);
const sweep = (levelDbmv: (frequencyMhz: number, i: number) => number) =>
  frequenciesMhz.map((frequencyMhz, i) => ({ frequencyMhz, levelDbmv: levelDbmv(frequencyMhz, i) }));
const ripple = (frequencyMhz: number) => 0.5 * Math.sin(frequencyMhz / 17);
const design = (frequencyMhz: number) => 36 + (10 * (frequencyMhz - 54)) / 816 + ripple(frequencyMhz);
const suckOut = (frequencyMhz: number, centreMhz: number, depthDb: number, widthMhz: number) =>
  -depthDb * Math.exp(-(((frequencyMhz - centreMhz) / widthMhz) ** 2));
const leftOut = (rows: ReturnType<typeof sweep>, shape: 'linear' | 'cable' = 'linear') =>
  screenCarriers(rows, shape).excluded.map(({ frequencyMhz }) => frequencyMhz);

describe('keeps what the station does', () => {
  it.each([
    ['a good sweep', sweep(design)],
    ['a tilt of 30 dB', sweep((f) => 40 - (30 * (f - 54)) / 816 + ripple(f))],
    ['20 dB of cable, bent', sweep((f) => 40 - 20 * Math.sqrt(f / 870) + ripple(f))],
    ['a suck-out 15 dB deep', sweep((f) => design(f) + suckOut(f, 441, 15, 20))],
    ['a suck-out 25 dB deep', sweep((f) => design(f) + suckOut(f, 441, 25, 30))],
    ['a roll-off of 12 dB at the top', sweep((f) => design(f) - (f > 770 ? ((f - 770) / 100) ** 2 * 12 : 0))],
    ['ripple of 8 dB', sweep((f) => design(f) + 4 * Math.sin(f / 9))],
    ['a block 9 dB down', sweep((f) => design(f) - (f > 700 ? 9 : 0))],
    ['three islands', sweep((f) => (f < 300 ? 5 : f < 600 ? -2 : 9) + ripple(f))],
    ['one carrier 6 dB down', sweep((f, i) => design(f) - (i === 50 ? 6 : 0))],
    ['all alike', sweep(() => 5)],
  ])('%s', (_what, rows) => expect(leftOut(rows)).toEqual([]));

  it('QAM carried 10 dB down among analog, every second channel', () => {
    const rows = sweep((f, i) => design(f) - (i % 2 === 1 && i > 90 ? 10 : 0)).map((row, i) => ({
      ...row,
      kind: i % 2 === 1 && i > 90 ? ('qam' as const) : ('analog' as const),
    }));
    expect(screenCarriers(rows, 'linear').excluded).toEqual([]);
  });
});

describe('leaves out what is plainly no carrier, and nothing else', () => {
  it.each([
    ['one missing', [40]],
    ['three missing side by side', [40, 41, 42]],
    ['both ends missing', [0, 136]],
    ['a fifth of the rows', Array.from({ length: 27 }, (_, i) => i * 5 + 1)],
  ])('%s', (_what, missing) => {
    const rows = sweep((f, i) => (missing.includes(i) ? -20 + (i % 3) : design(f)));
    expect(leftOut(rows)).toEqual(missing.map((i) => frequenciesMhz[i]));
  });
  it('in a sweep with 30 dB of tilt and a suck-out', () => {
    const tilted = (f: number) => 40 - (30 * (f - 54)) / 816 + suckOut(f, 441, 12, 20);
    expect(leftOut(sweep((f, i) => (i === 20 ? -25 : tilted(f))))).toEqual([177]);
  });
  it('one 15 dB above the others', () =>
    expect(leftOut(sweep((f, i) => design(f) + (i === 30 ? 15 : 0)))).toEqual([237]));
});

it('says why in words, with the dB', () => {
  const { excluded } = screenCarriers(
    sweep((f, i) => (i === 40 ? -20 : design(f))),
    'linear',
  );
  expect(excluded[0]?.reason).toMatch(/^\d\d\.\d dB below the line of the others: no carrier/);
});
it('leaves out what the source calls unlocked, or gives a reason for', () => {
  const rows = [
    ...sweep(design),
    { frequencyMhz: 900, levelDbmv: 46, unlocked: true },
    { frequencyMhz: 906, levelDbmv: 46, reason: 'a whole block' },
  ];
  expect(screenCarriers(rows, 'linear').excluded).toEqual([
    { frequencyMhz: 900, reason: expect.stringContaining('not locked') },
    { frequencyMhz: 906, reason: 'a whole block' },
  ]);
});
it('can not tell among four rows, and does not guess', () =>
  expect(leftOut(sweep((f, i) => (i === 1 ? -30 : design(f))).slice(0, 4))).toEqual([]));
it('finds missing carriers at random places on random lines', () => {
  const missing = fc.uniqueArray(fc.integer({ min: 0, max: 136 }), { maxLength: 20 });
  fc.assert(
    fc.property(fc.double({ min: -25, max: 25, noNaN: true }), missing, (tiltDb, places) => {
      const rows = sweep(
        (f, i) => 30 + (tiltDb * (f - 54)) / 816 + ripple(f) - (places.includes(i) ? 30 : 0),
      );
      const wanted = places.map((i) => frequenciesMhz[i] ?? 0).sort((a, b) => a - b);
      expect(leftOut(rows)).toEqual(wanted);
    }),
  );
});

describe('breakdown', () => {
  // Siegel 1982: the line holds while fewer than floor(n / 2) of n rows are no carriers, wherever they lie.
  const mostWrong = Math.floor(137 / 2) - 1;
  const wrongRows = (count: number, where: string): ReadonlySet<number> => {
    const first = Array.from({ length: count }, (_, i) => i);
    switch (where) {
      case 'at the low end':
        return new Set(first);
      case 'at the high end':
        return new Set(first.map((i) => 136 - i));
      default:
        return new Set(first.map((i) => Math.floor((i * 137) / count)));
    }
  };
  const cases = [13, 27, 45, 46, 55, 62, mostWrong].flatMap((count) =>
    ['at the low end', 'at the high end', 'spread'].map((where) => [count, where] as const),
  );
  it.each(cases)('%d of 137 rows at the noise floor, %s, are left out, and no good one', (count, where) => {
    const wrong = wrongRows(count, where);
    const rows = sweep((f, i) =>
      wrong.has(i) ? -24 + 3 * Math.sin(i) : 36 + (25 * (f - 54)) / 816 + ripple(f),
    );
    const { excluded, farOff } = screenCarriers(rows, 'linear');
    expect(excluded.map(({ frequencyMhz }) => frequencyMhz)).toEqual(
      frequenciesMhz.filter((_, i) => wrong.has(i)),
    );
    expect(farOff).toBeNull();
  });

  it('keeps every row where most are no carriers, and says how many are far off', () => {
    const wrong = wrongRows(90, 'spread');
    const rows = sweep((f, i) => (wrong.has(i) ? -24 + 3 * Math.sin(i) : design(f)));
    const { excluded, farOff } = screenCarriers(rows, 'linear');
    expect(excluded).toEqual([]);
    expect(farOff?.count).toBe(137 - 90);
  });

  it('keeps more than a third that are far off, but not where nothing is carried', () => {
    const rows = sweep((f, i) => design(f) - (i % 5 < 2 ? 9 + 5 * (i % 2) : 0));
    const { excluded, farOff } = screenCarriers(rows, 'linear');
    expect(excluded).toEqual([]);
    expect(farOff).toEqual({ count: 56, fromDb: 8 });
  });
  it('throws no good row out for any tilt with one deep notch anywhere', () => {
    const place = fc.integer({ min: 57, max: 873 });
    fc.assert(
      fc.property(
        fc.double({ min: -35, max: 35, noNaN: true }),
        place,
        fc.integer({ min: 10, max: 40 }),
        (tilt, at, depth) => {
          const rows = sweep((f) => 36 + (tilt * (f - 54)) / 816 + ripple(f) + suckOut(f, at, depth, 18));
          const bad = leftOut(rows).filter((f) => Math.abs((f ?? 0) - at) > 45);
          expect(bad).toEqual([]);
        },
      ),
    );
  });
});
