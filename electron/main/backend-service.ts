import { createBroadcast } from '../../core/bridge/broadcast.ts';
import type { OnFault } from '../../core/bridge/dispatch.ts';
import { serveClient } from '../../core/bridge/serve.ts';
import type { Backend } from '../backend/backend.ts';
import type { OpenBackend } from '../hosts/open-backend.ts';
import { type FromBackend, ToBackend } from './backend-message.ts';

/** `process.parentPort` of the backend's process, or two joined ends in a test. */
export type ParentPort = Readonly<{
  postMessage(message: FromBackend): void;
  onMessage(listener: (message: unknown) => void): void;
}>;

export type BackendServiceOptions = Readonly<{
  port: ParentPort;
  openBackend: OpenBackend;
  dataDir: string;
  onFault: OnFault;
  exit(code: number): void;
}>;

/** Serves the one window from the backend's own process, until it is told to close. */
export async function runBackendService(options: BackendServiceOptions): Promise<void> {
  const { port, openBackend, dataDir, onFault, exit } = options;
  const broadcast = createBroadcast(onFault);
  let backend: Backend;
  try {
    backend = await openBackend({
      dataDir,
      host: 'window',
      emit: broadcast.emit,
      clients: broadcast.count,
    });
  } catch (fault) {
    onFault('open', fault);
    port.postMessage({ kind: 'cannot-open', why: fault instanceof Error ? fault.message : String(fault) });
    exit(3);
    return;
  }

  const send = (frame: unknown) => port.postMessage({ kind: 'frame', frame });
  const newClient = () =>
    serveClient({
      handlers: backend.handlers,
      send,
      onFault,
      newStopper: () => new AbortController(),
    });
  let client = newClient();
  let leave: (() => void) | null = null;

  async function close(): Promise<void> {
    client.close();
    try {
      await backend.close();
    } catch (fault) {
      onFault('close', fault);
    }
    port.postMessage({ kind: 'closed' });
    exit(0);
  }

  port.onMessage((raw) => {
    const read = ToBackend.safeParse(raw);
    if (!read.success) {
      onFault('message', read.error);
      return;
    }
    const message = read.data;
    switch (message.kind) {
      case 'frame':
        // A page that was loaded again is there from its first frame on.
        leave ??= broadcast.join(send);
        client.receive(message.frame);
        break;
      case 'page-gone':
        leave?.();
        leave = null;
        client.close();
        client = newClient();
        break;
      case 'suspend':
      case 'resume':
        void backend[message.kind]().catch((fault: unknown) => onFault(message.kind, fault));
        break;
      case 'close':
        void close();
        break;
    }
  });
  port.postMessage({ kind: 'ready' });
}
