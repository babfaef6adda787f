import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createBroadcast } from '../core/bridge/broadcast.ts';
import { createClient } from '../core/bridge/client.ts';
import { createBackend } from '../electron/backend/backend.ts';
import { createMeterShop } from '../electron/backend/meters/connect.ts';
import { SimulatedInstrument } from '../electron/backend/meters/simulated/instrument.ts';
import { openPtyMeter } from '../electron/backend/meters/simulated/pty.ts';
import { startLoopback } from '../electron/loopback/server.ts';
import { enter, openSocketWire } from '../tests/support/loopback-client.ts';

export type LatencyBench = Readonly<{
  readings: number;
  perSecond: number;
  p50Ms: number;
  p95Ms: number;
  worstMs: number;
}>;

const READINGS = 300;
const onFault = (_where: string, fault: unknown) => {
  throw fault;
};

/** The instrument notes when it answers; the level that it tells says which answer it is, in hundredths of a dB. */
function tellingInstrument() {
  const answeredMs: number[] = [];
  const instrument = new SimulatedInstrument({
    source: (_frequencyMhz, draw) => {
      answeredMs[draw] = performance.now();
      return draw / 100;
    },
  });
  return { instrument, answeredMs };
}

/**
 * From the answer of a meter on a real pseudo-terminal to the event at a client: the serial port's driver, the meter's
 * grammar, the commit to the archive, the WebSocket and the client's check of the event. All of it in this one process,
 * the meter's millisecond of timer included.
 */
export async function liveBench(): Promise<LatencyBench> {
  const folder = mkdtempSync(join(tmpdir(), 'tiltwright-bench-'));
  const { instrument, answeredMs } = tellingInstrument();
  const meter = await openPtyMeter(instrument, { messageMs: 0, readingMs: 0 });
  const broadcast = createBroadcast(onFault);
  const now = () => new Date();
  const backend = await createBackend({
    dataDir: join(folder, 'data'),
    host: 'browser',
    version: '0',
    meters: createMeterShop({ now }),
    emit: broadcast.emit,
    now,
    newId: () => crypto.randomUUID(),
    log: { info: () => undefined, warn: () => undefined, error: console.error },
    clients: broadcast.count,
  });
  const server = await startLoopback({
    pageDir: folder,
    port: 0,
    handlers: backend.handlers,
    broadcast,
    onFault,
  });
  try {
    const { wire } = await openSocketWire(server.port, await enter(server.link(60_000)));
    const client = createClient(wire);
    const { stationIds } = await client.call('demo.load', {});
    await client.call('meters.connect', { kind: 'serial', path: meter.path, profile: 'scpi' });
    const latencyMs: number[] = [];
    const all = Promise.withResolvers<void>();
    let firstMs = 0;
    client.on('live.reading', ({ meterDbmv }) => {
      const nowMs = performance.now();
      const answered = answeredMs[Math.round((meterDbmv ?? Number.NaN) * 100)];
      if (answered === undefined) throw new Error(`a reading of ${meterDbmv} dBmV was never answered`);
      if (latencyMs.length === 0) firstMs = nowMs;
      latencyMs.push(nowMs - answered);
      if (latencyMs.length === READINGS) all.resolve();
    });
    const { liveId } = await client.call('live.start', {
      stationId: stationIds[0] ?? '',
      visitId: null,
      portName: 'forward output',
      frequencyMhz: 711,
    });
    await all.promise;
    const perSecond = (READINGS - 1) / ((performance.now() - firstMs) / 1000);
    await client.call('live.stop', { liveId });
    client.close();
    const sorted = latencyMs.slice(0, READINGS).sort((a, b) => a - b);
    const at = (part: number) => sorted[Math.min(READINGS - 1, Math.floor(part * READINGS))] ?? Number.NaN;
    return { readings: READINGS, perSecond, p50Ms: at(0.5), p95Ms: at(0.95), worstMs: at(1) };
  } finally {
    await server.close();
    await backend.close();
    await meter.unplug();
    rmSync(folder, { recursive: true, force: true });
  }
}
