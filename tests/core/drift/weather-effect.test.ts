import { describe, expect, it } from 'vitest';
import { weatherEffect, weatherOf } from '../../../core/drift/weather-effect.ts';
import type { Station } from '../../../core/files/station.ts';
import { seasonPlan } from '../../../core/season/plan.ts';
import { seasonRow } from '../../../core/season/rows.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';

const mill = quillmere.find(({ station }) => station.name === '07 Mill Lane')?.station;
if (mill === undefined) throw new Error('Mill Lane is gone');
const [output, , back] = mill.ports;
const design = output?.design;
if (output === undefined || back === undefined || design === undefined) throw new Error('no output');

/** The same station with another control; null takes it away. */
const withControl = (gainControl: Partial<NonNullable<Station['gainControl']>> | null): Station => {
  const { gainControl: own, ...rest } = mill;
  return gainControl === null || own === undefined
    ? rest
    : { ...rest, gainControl: { ...own, ...gainControl } };
};

describe('without a control', () => {
  const bare: Station = { ...withControl(null), span: { lossDb: 22, topMhz: 870, perDegreeC: 0.002 } };
  const weather = weatherOf(bare, output);
  if (weather === null) throw new Error('no weather');
  // Contract, section 3, season: 22 dB (1 + 0.002 (T - 20)): ten degrees warmer lose 0.44 dB more.
  it('a warmer span costs its loss at the top, worked by hand', () => {
    expect(weather(870, 30)).toBeCloseTo(-0.44, 12);
    expect(weather(217.5, 30)).toBeCloseTo(-0.22, 12);
    expect(weather(870, 20)).toBe(0);
  });
  it('tilt loses what the top loses more than the low end', () => {
    const { levelDb, tiltDb } = weatherEffect(weather, { lowMhz: 217.5, highMhz: 870 }, 30);
    expect(levelDb).toBeCloseTo(-0.44, 12);
    expect(tiltDb).toBeCloseTo(-0.22, 12);
  });
});

describe('with a control', () => {
  it('an automatic one makes up for it while it reaches', () => {
    const weather = weatherOf(withControl({ mode: 'auto', upDb: 5, downDb: 5, topMhz: 870 }), output);
    expect(weather?.(870, 35)).toBeCloseTo(0, 9);
  });
  it('agrees with the table of the season at both ends, for every mode', () => {
    for (const mode of ['manual', 'auto', 'thermal'] as const) {
      const station = withControl({ mode, upDb: 0.3, downDb: 0.4, thermalTracking: 0.8 });
      const plan = seasonPlan(station);
      const weather = weatherOf(station, output);
      if (!plan.ok || weather === null) throw new Error('no plan');
      for (const ambientC of [-25, 0, 31]) {
        const there = seasonRow(plan.value, ambientC);
        const at20 = seasonRow(plan.value, 20);
        expect(weather(design.highMhz, ambientC)).toBeCloseTo(there.highDbmv - at20.highDbmv, 9);
        expect(weather(design.lowMhz, ambientC)).toBeCloseTo(there.lowDbmv - at20.lowDbmv, 9);
      }
    }
  });
});

describe('tells nothing', () => {
  it('where the station file has no span', () => {
    const { span: _span, ...spanless } = mill;
    expect(weatherOf(spanless, output)).toBeNull();
  });
  it('of a return port, which the span in front does not feed', () =>
    expect(weatherOf(mill, back)).toBeNull());
  it('where a thermal control does not say what it follows', () => {
    const { thermalTracking: _tracking, ...own } = mill.gainControl ?? {
      mode: 'auto',
      upDb: 1,
      downDb: 1,
      topMhz: 870,
      setAtC: 20,
    };
    expect(weatherOf({ ...mill, gainControl: { ...own, mode: 'thermal' } }, output)).toBeNull();
  });
});
