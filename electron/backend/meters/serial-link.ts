import { stat } from 'node:fs/promises';
import { SerialPort } from 'serialport';
import type { ByteWire, WireEvents } from './byte-wire.ts';
import type { LineLink } from './line-link.ts';
import { createLineLink } from './lines-over-bytes.ts';
import { MeterFault } from './meter-shop.ts';
import type { Profile } from './profile.ts';
import { lostFault, openFault } from './serial-faults.ts';

const OPEN_WITHIN_MS = 5000;
const LOOK_EVERY_MS = 300;

/**
 * A serial port as a line link. Port and splitter are new for every session, so that nothing of an earlier one can be
 * joined to this one; all events of the port end here. Throws `MeterFault`, or the signal's reason.
 */
export async function openSerialLink(path: string, profile: Profile, signal: AbortSignal): Promise<LineLink> {
  signal.throwIfAborted();
  const { baudRate, dataBits, parity, stopBits, flowControl, hangUpOnClose } = profile.serial;
  const port = new SerialPort({
    path,
    baudRate,
    dataBits,
    parity,
    stopBits,
    rtscts: flowControl === 'hardware',
    xon: flowControl === 'software',
    xoff: flowControl === 'software',
    hupcl: hangUpOnClose,
    autoOpen: false,
  });
  let gone: string | null = null;
  let events: WireEvents | null = null;
  const lose = (message: string) => {
    gone ??= message;
    events?.gone(lostFault(path, gone));
  };
  // Before open, and for the port's whole life: an `error` without a listener ends the process, and both can repeat.
  port.on('error', (fault) => lose(fault.message));
  port.on('close', (fault: Error | null | undefined) => lose(fault?.message ?? 'the port was closed'));

  await opened(port, path, signal);
  setLines(port, profile.serial);
  return createLineLink(path, profile.lines, (wireEvents) => {
    events = wireEvents;
    port.on('data', (chunk: Buffer) => wireEvents.bytes(chunk));
    if (gone !== null) queueMicrotask(() => lose('closed while it was being opened'));
    const unwatch = watchNode(path, lose);
    return wireOf(port, lose, unwatch);
  });
}

/** Not every port has these lines (a pseudo-terminal has none), so what can't be set is no reason not to read. */
function setLines(port: SerialPort, { dtr, rts }: Profile['serial']): void {
  if (dtr === null && rts === null) return;
  port.set({ ...(dtr === null ? {} : { dtr }), ...(rts === null ? {} : { rts }) }, () => undefined);
}

/**
 * Looks whether the port's device is still there. The driver alone is not enough: when nothing is being written, it
 * can miss an unplugged device and go on reading its end for ever, without an event and at full load. Windows names
 * no file for a port, so there it is left to the driver.
 */
function watchNode(path: string, lose: (message: string) => void): () => void {
  if (process.platform === 'win32') return () => undefined;
  const look = () =>
    void stat(path).catch((fault: NodeJS.ErrnoException) => {
      if (fault.code === 'ENOENT') lose('its port is no longer there');
    });
  const timer = setInterval(look, LOOK_EVERY_MS);
  timer.unref();
  return () => clearInterval(timer);
}

const wireOf = (port: SerialPort, lose: (message: string) => void, unwatch: () => void): ByteWire => ({
  write(bytes, taken) {
    if (!port.isOpen) return lose('the port is closed');
    port.write(bytes, (fault) => {
      if (fault) lose(fault.message);
      else taken();
    });
  },
  close: () =>
    new Promise((resolve) => {
      unwatch();
      if (port.isOpen) port.close(() => resolve());
      else resolve();
    }),
});

/** Opens it, or says why not. A port that opens after we stopped waiting is closed again. */
function opened(port: SerialPort, path: string, signal: AbortSignal): Promise<void> {
  return new Promise((resolve, reject) => {
    let waiting = true;
    const stopWaiting = (fault: unknown) => {
      waiting = false;
      clearTimeout(timer);
      signal.removeEventListener('abort', stop);
      reject(fault);
    };
    const stop = () => stopWaiting(signal.reason);
    const timer = setTimeout(() => {
      const help = `the port did not open within ${OPEN_WITHIN_MS / 1000} s; unplug and replug the adapter`;
      stopWaiting(new MeterFault('no-such-port', path, help));
    }, OPEN_WITHIN_MS);
    signal.addEventListener('abort', stop, { once: true });
    port.open((fault) => {
      if (!waiting) {
        if (!fault) port.close();
        return;
      }
      if (fault) {
        void openFault(path, fault.message).then(stopWaiting);
        return;
      }
      clearTimeout(timer);
      signal.removeEventListener('abort', stop);
      resolve();
    });
  });
}
