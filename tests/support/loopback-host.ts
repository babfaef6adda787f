import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createBroadcast } from '../../core/bridge/broadcast.ts';
import type { Emit, Handlers } from '../../core/bridge/contract.ts';
import { type Loopback, startLoopback } from '../../electron/loopback/server.ts';

export type TestLoopback = Loopback & Readonly<{ emit: Emit; faults: unknown[]; pageDir: string }>;

/** A loopback host on any free port (or, with null, on the preferred one) with a page of two files. */
export async function testLoopback(
  handlers: Handlers,
  options: Readonly<{ port?: number | null }> = {},
): Promise<TestLoopback> {
  const pageDir = mkdtempSync(path.join(tmpdir(), 'tiltwright-page-'));
  writeFileSync(path.join(pageDir, 'index.html'), '<!doctype html><title>the page</title>');
  writeFileSync(path.join(pageDir, 'page.js'), 'void 0;');
  writeFileSync(path.join(pageDir, '.hidden'), 'not for the page');
  const faults: unknown[] = [];
  const onFault = (_where: string, fault: unknown) => faults.push(fault);
  const broadcast = createBroadcast(onFault);
  const { port = 0 } = options;
  const loopback = await startLoopback({ pageDir, port, handlers, broadcast, onFault });
  return {
    ...loopback,
    emit: broadcast.emit,
    faults,
    pageDir,
    async close() {
      await loopback.close();
      rmSync(pageDir, { recursive: true, force: true });
    },
  };
}
