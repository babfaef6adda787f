import { type LevelSource, SimulatedInstrument } from '../../electron/backend/meters/simulated/instrument.ts';
import { openPtyMeter, type PtyMeter } from '../../electron/backend/meters/simulated/pty.ts';

/** A level that says at which frequency it was read: 711 MHz reads 7.11 dBmV. */
export const tellingSource: LevelSource = (frequencyMhz) => frequencyMhz / 100;

/** A simulated meter on a real pseudo-terminal. Unplug it when done. */
export const openTestPty = (source: LevelSource = tellingSource, readingMs = 0): Promise<PtyMeter> =>
  openPtyMeter(new SimulatedInstrument({ source }), { messageMs: 0, readingMs });
