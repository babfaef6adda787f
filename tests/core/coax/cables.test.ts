import { describe, expect, it } from 'vitest';
import { CABLES } from '../../../core/coax/cables.ts';
import published from '../../data/published/coax-attenuation.json' with { type: 'json' };

/** The published tables name thin wall and air disc in brackets. */
const publishedName = (name: string) => name.replace(/^(\S+) (thin-wall|air-disc)$/, '$1 ($2)');
const rowsOf = (name: string, basis: string) =>
  [
    ...(published.tables.find((table) => table.cable === publishedName(name) && table.basis === basis)
      ?.rows ?? []),
  ].sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0));

it('holds every published point, no other, each under its own basis', () => {
  const ours = CABLES.flatMap((cable) =>
    cable.tables.map((table) => ({
      cable: publishedName(cable.name),
      basis: table.basis,
      rows: table.frequenciesMhz.map((mhz, i) => [mhz, table.per100FtDb[i]]),
    })),
  );
  const theirs = published.tables.map((table) => ({
    ...table,
    rows: [...table.rows].sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0)),
  }));
  const key = (table: { cable: string; basis: string }) => `${table.cable} ${table.basis}`;
  const sorted = <T extends { cable: string; basis: string }>(tables: T[]) =>
    tables.sort((a, b) => key(a).localeCompare(key(b)));
  expect(sorted(ours)).toEqual(sorted(theirs));
  expect(ours.reduce((sum, table) => sum + table.rows.length, 0)).toBe(225);
});

/**
 * Least squares by Gram-Schmidt on the two columns: another way than normal equations, from which the stored
 * coefficients came.
 */
function solved(rows: readonly (readonly number[])[]): readonly [number, number, number] {
  const points = rows.map(([mhz = Number.NaN, db = Number.NaN]) => ({ u: Math.sqrt(mhz), v: mhz, db }));
  const dot = (f: (p: (typeof points)[number]) => number) => points.reduce((sum, p) => sum + f(p), 0);
  const across = dot((p) => p.u * p.v) / dot((p) => p.u * p.u);
  const k2 = dot((p) => (p.v - across * p.u) * p.db) / dot((p) => (p.v - across * p.u) ** 2);
  const k1 = dot((p) => p.u * (p.db - k2 * p.v)) / dot((p) => p.u * p.u);
  return [k1, k2, Math.max(...points.map((p) => Math.abs(k1 * p.u + k2 * p.v - p.db)))];
}

const fitted = CABLES.flatMap((cable) =>
  cable.model.kind === 'two-term' ? [{ name: cable.name, ...cable.model }] : [],
);

describe.each(fitted)('two terms of $name', ({ name, k1, k2, fittedTo, maxErrorDb }) => {
  it('come out again when solved afresh from the rows', () => {
    const [again1, again2, error] = solved(rowsOf(name, fittedTo));
    expect(Math.abs(again1 - k1)).toBeLessThan(0.000006);
    expect(Math.abs(again2 - k2)).toBeLessThan(0.0000006);
    expect(Math.abs(error - maxErrorDb)).toBeLessThan(0.0006);
  });

  it('are those that were published, where they were', () => {
    const found = Object.entries(published.fits.cables).find(([cable]) => cable === publishedName(name));
    if (found === undefined)
      return expect(['.412', '1.000', '.500 air-disc', '.750 air-disc']).toContain(name);
    expect([k1, k2]).toEqual(found[1].slice(0, 2));
    expect(Math.abs(maxErrorDb - (found[1][2] ?? 0))).toBeLessThanOrEqual(0.0005);
  });
});

// coax-attenuation: the remembered table equals the spot table at every point that both have.
it('has remembered tables that agree with the spot table wherever both have a point', () => {
  let shared = 0;
  for (const { tables } of CABLES) {
    const spot = tables.find(({ basis }) => basis === 'public spot table');
    const remembered = tables.find(({ basis }) => basis === 'from memory');
    spot?.frequenciesMhz.forEach((mhz, i) => {
      const j = remembered?.frequenciesMhz.indexOf(mhz) ?? -1;
      if (j < 0) return;
      shared += 1;
      expect(remembered?.per100FtDb[j]).toBe(spot.per100FtDb[i]);
    });
  }
  expect(shared).toBe(4 + 4 + 4 + 3 + 4);
});

it('calls no table anything that could be taken for a maker or a standard', () => {
  const bases = new Set(CABLES.flatMap(({ tables }) => tables.map(({ basis }) => basis)));
  expect([...bases].sort()).toEqual([
    'computed',
    'from memory',
    'public repository table',
    'public spot table',
  ]);
});

it('never fits two terms to a centre of copper-clad steel', () => {
  const drop = CABLES.filter(({ construction }) => construction === 'drop, copper-clad steel');
  expect(drop.map(({ name, model }) => [name, model.kind])).toEqual([
    ['RG-59', 'interpolated'],
    ['RG-6', 'interpolated'],
    ['RG-11', 'interpolated'],
  ]);
});
