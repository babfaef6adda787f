import path from 'node:path';
import { createBroadcast } from '../core/bridge/broadcast.ts';
import { createLog } from './backend/log.ts';
import { faultsTo } from './hosts/fault-log.ts';
import type { OpenBackend } from './hosts/open-backend.ts';
import { type Loopback, startLoopback } from './loopback/server.ts';

export type BrowserHost = Pick<Loopback, 'link' | 'port'> & Readonly<{ close(): Promise<void> }>;

/** The backend and the local server together, closed in the order that lets nothing be lost. */
export async function serveBrowser(
  options: Readonly<{ root: string; dataDir: string; port: number | null; openBackend: OpenBackend }>,
): Promise<BrowserHost> {
  const { root, dataDir, port, openBackend } = options;
  const onFault = faultsTo(createLog(dataDir));
  const broadcast = createBroadcast(onFault);
  const backend = await openBackend({
    dataDir,
    host: 'browser',
    emit: broadcast.emit,
    clients: broadcast.count,
  });
  try {
    const pageDir = path.join(root, 'dist', 'renderer');
    const server = await startLoopback({ pageDir, port, handlers: backend.handlers, broadcast, onFault });
    return {
      port: server.port,
      link: server.link,
      async close() {
        await server.close();
        await backend.close();
      },
    };
  } catch (fault) {
    await backend.close();
    throw fault;
  }
}
