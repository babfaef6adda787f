import type { StateCreator } from 'zustand/vanilla';
import type { ConnectedMeter, FoundPort, MeterChoice } from '../../core/bridge/records.ts';

export type Meter =
  | Readonly<{ at: 'none' }>
  /** `waits`: its port was plugged in just now and is tried again, for this reason. */
  | Readonly<{ at: 'connecting'; choice: MeterChoice; waits: string | null }>
  | Readonly<{ at: 'connected'; meter: ConnectedMeter }>
  | Readonly<{ at: 'refused'; help: string }>
  | Readonly<{ at: 'lost'; help: string }>;

export type Ports =
  | Readonly<{ at: 'unknown' }>
  | Readonly<{ at: 'looking' }>
  | Readonly<{ at: 'found'; ports: readonly FoundPort[]; problem: string | null }>;

export type MeterSlice = {
  meter: Meter;
  ports: Ports;
  meterConnecting(choice: MeterChoice): void;
  meterWaits(why: string): void;
  /** The person gave up connecting it. */
  meterForgone(): void;
  meterConnected(meter: ConnectedMeter): void;
  meterRefused(help: string): void;
  meterGone(lost: string | null): void;
  portsLooking(): void;
  portsFound(ports: readonly FoundPort[], problem: string | null): void;
};

export const createMeterSlice: StateCreator<MeterSlice> = (set) => ({
  meter: { at: 'none' },
  ports: { at: 'unknown' },
  meterConnecting: (choice) => set({ meter: { at: 'connecting', choice, waits: null } }),
  meterWaits: (why) =>
    set(({ meter }) => (meter.at === 'connecting' ? { meter: { ...meter, waits: why } } : {})),
  meterForgone: () => set(({ meter }) => (meter.at === 'connecting' ? { meter: { at: 'none' } } : {})),
  meterConnected: (meter) => set({ meter: { at: 'connected', meter } }),
  meterRefused: (help) =>
    set(({ meter }) => (meter.at === 'connecting' ? { meter: { at: 'refused', help } } : {})),
  // While another meter is being opened, the end of the old one is no news.
  meterGone: (lost) =>
    set(({ meter }) => {
      if (meter.at === 'connecting') return {};
      return { meter: lost === null ? { at: 'none' } : { at: 'lost', help: lost } };
    }),
  portsLooking: () => set({ ports: { at: 'looking' } }),
  portsFound: (ports, problem) => set({ ports: { at: 'found', ports, problem } }),
});
