import { describe, expect, it } from 'vitest';
import { type NorthAmericanPlan, northAmericanChannels } from '../../../core/channels/north-american.ts';
import published from '../../data/published/north-american-channel-plan.json' with { type: 'json' };

const plans: readonly NorthAmericanPlan[] = ['std', 'irc', 'hrc'];
const channel = (plan: NorthAmericanPlan, number: number) => {
  const made = northAmericanChannels(plan).find(({ label }) => label === String(number));
  if (made === undefined) throw new Error(`no channel ${number} in ${plan}`);
  return made;
};
const rows = published.rows.map((row) => {
  const [number, edgeMhz, std, irc, hrc, centerMhz] = row;
  if (typeof number !== 'number' || typeof edgeMhz !== 'number') throw new Error('not a row');
  return { number, edgeMhz, visual: { std, irc, hrc }, centerMhz };
});

// The table's rows and the tables it was compared with are named in the JSON.
describe('every row of the published table', () => {
  it('has 158 rows, so that none can be missing', () => {
    expect(rows.map((row) => row.number)).toEqual(Array.from({ length: 158 }, (_, i) => i + 1));
  });

  it.each(plans)('gives the visual carrier of %s exactly', (plan) => {
    const made = new Map(northAmericanChannels(plan).map(({ label, visualMhz }) => [label, visualMhz]));
    // Exactly: the number nearest to the decimal, nothing beside it.
    for (const { number, visual } of rows)
      expect([number, made.get(String(number)) ?? null]).toEqual([number, visual[plan]]);
  });

  it('gives the lower edge and the nominal digital centre of STD exactly, channel 1 from the comb', () => {
    for (const row of rows) {
      const made = channel(row.number === 1 ? 'irc' : 'std', row.number);
      expect([row.number, made.lowerEdgeMhz, made.centerMhz]).toEqual([
        row.number,
        row.edgeMhz,
        row.centerMhz,
      ]);
    }
  });
});

// CEA-542-C Table 1 as quoted by Hranac, March 2012; Prentice Hall 2001, Table 1; dtv-scan-tables for 123.0125.
it('gives the spot values that were read in print', () => {
  expect(plans.map((plan) => channel(plan, 2).visualMhz)).toEqual([55.25, 55.2625, 54.0027]);
  expect(plans.map((plan) => channel(plan, 5).visualMhz)).toEqual([77.25, 79.2625, 78.0039]);
  expect(plans.map((plan) => channel(plan, 6).visualMhz)).toEqual([83.25, 85.2625, 84.0042]);
  expect(channel('std', 14).centerWithOffsetMhz).toBe(123.0125);
  expect(channel('std', 14).centerMhz).toBe(123);
});

// 47 CFR 76.605(b)(2): 4.5 MHz, plus or minus 5 kHz.
it.each(plans)('places the sound of %s 4.5 MHz above the picture', (plan) => {
  for (const { visualMhz, auralMhz } of northAmericanChannels(plan))
    expect(Math.abs((auralMhz ?? 0) - (visualMhz ?? 0) - 4.5)).toBeLessThan(1e-9);
});

/**
 * 47 CFR 76.612, written here a second time and in another way: by kilohertz in tenths, from the text of the rule.
 * The navigation grid of 50 kHz is from memory.
 */
function meetsRule(visualMhz: number, isHrc: boolean): boolean {
  const tenths = Math.round(visualMhz * 10_000);
  const away = (grid: number) => Math.min(tenths % grid, grid - (tenths % grid));
  const between = (low: number, high: number) => visualMhz >= low && visualMhz <= high;
  if (between(108, 118) || between(328.6, 335.4)) return Math.abs(away(500) - 250) <= 50;
  if (!(between(118, 137) || between(225, 328.6) || between(335.4, 400))) return true;
  return (isHrc && tenths % 60_003 === 0) || Math.abs(away(250) - 125) <= 50;
}

describe('47 CFR 76.612', () => {
  it('can fail: a carrier on the plain raster does not meet it', () => {
    expect(meetsRule(121.25, false)).toBe(false);
    expect(meetsRule(109.25, false)).toBe(false);
    expect(meetsRule(120.006, false)).toBe(false);
    expect(meetsRule(120.006, true)).toBe(true);
  });

  it.each([
    ['std', []],
    ['irc', []],
    ['hrc', ['42']],
  ] as const)('is met by every channel of %s but those named', (plan, known) => {
    const wrong = northAmericanChannels(plan).filter(
      ({ visualMhz }) => visualMhz === null || !meetsRule(visualMhz, plan === 'hrc'),
    );
    expect(wrong.map(({ label }) => label)).toEqual(known);
  });

  it('moves only the channels of STD that it must', () => {
    const offset = (khz: number) =>
      northAmericanChannels('std')
        .filter((made) => made.visualOffsetKhz === khz)
        .map((made) => Number(made.label));
    expect(offset(25)).toEqual([42, 98, 99]);
    expect(offset(12.5)).toEqual(
      [14, 15, 16, ...Array.from({ length: 17 }, (_, i) => 25 + i)].concat(
        Array.from({ length: 11 }, (_, i) => 43 + i),
      ),
    );
  });
});

it('keeps every HRC carrier but 98 and 99 on the comb of 6.0003 MHz', () => {
  const off = northAmericanChannels('hrc').filter(
    ({ visualMhz }) => Math.round((visualMhz ?? 0) * 1e6) % 6_000_300 !== 0,
  );
  expect(off.map(({ label }) => label)).toEqual(['98', '99']);
});

it.each(plans)('leaves no gap and no overlap between the channels of %s but its known gaps', (plan) => {
  const byEdge = [...northAmericanChannels(plan)].sort((a, b) => a.lowerEdgeMhz - b.lowerEdgeMhz);
  const gaps = byEdge
    .slice(1)
    .map((next, i) => ({
      from: byEdge[i]?.label,
      gap: Math.round((next.lowerEdgeMhz - (byEdge[i]?.upperEdgeMhz ?? 0)) * 1e4) / 1e4,
    }))
    .filter(({ gap }) => Math.abs(gap) > 0.001);
  // 4 to 5 (72 to 76 MHz) and 6 to 95 (88 to 90) in STD only: the FM band is filled by the comb plans from 90 on.
  expect(gaps).toEqual(
    plan === 'std'
      ? [
          { from: '4', gap: 4 },
          { from: '6', gap: 2 },
        ]
      : [],
  );
});

it('has 158 channels, and no channel 1 in STD, whose channel 5 begins at 76 MHz', () => {
  expect(northAmericanChannels('std').map(({ label }) => label)).toEqual(
    Array.from({ length: 157 }, (_, i) => String(i + 2)),
  );
  expect(northAmericanChannels('hrc')).toHaveLength(158);
});
