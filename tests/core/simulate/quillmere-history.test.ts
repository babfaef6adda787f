import { describe, expect, it } from 'vitest';
import type { SweepFigures } from '../../../core/drift/figures.ts';
import { stationDrift } from '../../../core/drift/station-drift.ts';
import { rowsAtPort } from '../../../core/line/port-level.ts';
import { standingAgainstDesign } from '../../../core/line/standing.ts';
import { BENCH_METER } from '../../../core/simulate/bench-meter.ts';
import { quillmerePast } from '../../../core/simulate/quillmere-history.ts';

const past = quillmerePast();
const port = past.station.ports.find(({ name }) => name === past.portName);
const design = port?.design;
if (port === undefined || design === undefined) throw new Error('no port');

const points = past.visits.map((visit, n): SweepFigures => {
  const readings = visit.readings.map((reading) => ({ ...reading, takenAt: '' }));
  const standing = standingAgainstDesign(rowsAtPort(readings, port.testPointLossDb), design, {
    uncertainty: { meter: BENCH_METER.sheet, ambientC: visit.ambientC },
  });
  if (!standing.ok) throw new Error(standing.code);
  const { verdict, levelHigh, tilt, flatness, worst } = standing.value;
  return {
    sweepId: `${n}`,
    visitId: `${n}`,
    atMs: -visit.daysAgo * 86_400_000,
    purpose: visit.purpose,
    ambientC: visit.ambientC,
    revision: 1,
    pluggedIn: past.pluggedIn,
    verdict,
    levelDb: levelHigh.deviationDb,
    tiltDb: tilt.deviationDb,
    flatnessDb: flatness.valueDb,
    worstDb: worst.deviationDb,
    worstMhz: worst.frequencyMhz,
  };
});

describe('the past of Customs Quay', () => {
  it('is told from the oldest on, the same each time', () => {
    const days = past.visits.map(({ daysAgo }) => daysAgo);
    expect(days).toEqual([...days].sort((a, b) => b - a));
    expect(quillmerePast()).toEqual(past);
  });
  it('began as designed', () => expect(points[0]).toMatchObject({ purpose: 'as-left', verdict: 'pass' }));
  it('shows a drift, and it is the flatness', () => {
    const drift = stationDrift(past.station, port, points);
    expect(drift).toMatchObject({ state: 'drifting', says: 'flatness' });
    expect(drift?.segments).toHaveLength(1);
  });
});
