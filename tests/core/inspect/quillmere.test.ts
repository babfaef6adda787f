import { describe, expect, it } from 'vitest';
import { installedOf } from '../../../core/files/station.ts';
import { simulatedMeterDbmv } from '../../../core/simulate/level.ts';
import { type DemoStation, quillmere } from '../../../core/simulate/quillmere.ts';
import { channels, findingsIn } from './simulated-sweep.ts';

/** A sweep of a demo station's forward output at its own weather, with the simulated meter's noise. */
function sweepOf({ station, scenario }: DemoStation) {
  const probe = { station, portName: 'forward output', pluggedIn: installedOf(station), ambientC: null };
  return channels.map((frequencyMhz) => ({
    frequencyMhz,
    levelDbmv: simulatedMeterDbmv(scenario, probe, frequencyMhz, 1),
  }));
}
const findingsAt = (word: RegExp) => {
  const demo = quillmere.find(({ story }) => word.test(story));
  if (demo === undefined) throw new Error(`no station tells of ${word}`);
  return findingsIn(sweepOf(demo));
};

// What each station has is set in its scenario; the finders don't know it.
describe('the demo network', () => {
  it('has a ripple of 31 MHz behind the wet connector', () => {
    const ripple = findingsAt(/wet|salt water/i).find((one) => one.kind === 'ripple');
    expect(ripple?.kind === 'ripple' && Math.abs(ripple.periodMhz - 31)).toBeLessThan(0.3);
    expect(ripple?.kind === 'ripple' && Math.abs(ripple.peakToPeakDb - 3.2)).toBeLessThan(0.3);
  });

  it('has a suck-out at 615 MHz', () => {
    const notch = findingsAt(/suck-out/i).find((one) => one.kind === 'notch');
    expect(notch?.kind === 'notch' && Math.abs(notch.centerMhz - 615)).toBeLessThan(5);
    expect(notch?.kind === 'notch' && Math.abs(notch.depthDb - 4.5)).toBeLessThan(0.6);
  });

  it('has a bench module that rolls off at the top', () => {
    const found = findingsAt(/bench/i).filter((one) => one.kind === 'rolloff');
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ edge: 'high' });
  });

  it('has a station in order, and one that is only short of reserve, where no fault is found', () => {
    expect(findingsAt(/in order/i)).toEqual([]);
    expect(findingsAt(/frost/i)).toEqual([]);
  });

  it('has no station at which more is found than its story tells', () => {
    for (const demo of quillmere) expect(findingsIn(sweepOf(demo)).length).toBeLessThanOrEqual(1);
  });
});
