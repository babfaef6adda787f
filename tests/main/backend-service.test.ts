import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { contractVersion } from '../../core/bridge/fingerprint.ts';
import { openBackend } from '../../electron/backend/backend.ts';
import { runBackendService } from '../../electron/main/backend-service.ts';
import { throwAwayFolder } from '../support/archive.ts';
import { fakeProcess } from '../support/fake-electron.ts';
import { plainHandlers } from '../support/plain-handlers.ts';
import { soon } from '../support/soon.ts';

function service(close: () => Promise<void> = async () => {}) {
  const process = fakeProcess();
  const heard: unknown[] = [];
  const faults: string[] = [];
  const exits: number[] = [];
  const aborted: string[] = [];
  const pages: number[] = [];
  const slept: string[] = [];
  let pagesNow = () => -1;
  process.parentSide.onMessage((message) => heard.push(message));
  const running = runBackendService({
    port: process.port,
    async openBackend({ dataDir, host, emit, clients }) {
      if (dataDir === 'broken') throw new Error('this archive is of a newer program');
      expect(host).toBe('window');
      pagesNow = clients;
      const handlers = plainHandlers({
        'meters.disconnect': async () => {
          emit('meter.changed', { meter: null, lost: null });
          return {};
        },
        'meters.current': async () => {
          pages.push(clients());
          return { meter: null };
        },
        'meters.find': (_input, signal) =>
          new Promise(() => signal.addEventListener('abort', () => aborted.push('find'))),
      });
      const computer = (what: string) => async () => {
        slept.push(what);
        if (what === 'resume') throw new Error('no port');
      };
      return { handlers, close, suspend: computer('suspend'), resume: computer('resume') };
    },
    dataDir: 'fine',
    onFault: (where) => faults.push(where),
    exit: (code) => exits.push(code),
  });
  return { process, heard, faults, exits, aborted, running, pages, slept, pagesNow: () => pagesNow() };
}

const frame = (inner: unknown) => ({ kind: 'frame', frame: inner }) as const;
const hello = frame({ type: 'hello', contract: contractVersion() });

describe('the backend’s service', () => {
  it('says that it is ready, then serves frames and events in their order', async () => {
    const { process, heard } = service();
    await soon(() => heard.length === 1);
    process.parentSide.send(hello);
    process.parentSide.send(frame({ type: 'request', id: 1, call: 'meters.disconnect', input: {} }));
    await soon(() => heard.length === 4);
    expect(heard).toEqual([
      { kind: 'ready' },
      hello,
      frame({ type: 'event', name: 'meter.changed', data: { meter: null, lost: null } }),
      frame({ type: 'reply', id: 1, reply: { ok: true, value: {} } }),
    ]);
  });

  it('aborts what a page had running when the page is gone, and serves the next', async () => {
    const { process, heard, aborted } = service();
    await soon(() => heard.length === 1);
    process.parentSide.send(hello);
    process.parentSide.send(frame({ type: 'request', id: 1, call: 'meters.find', input: {} }));
    await soon(() => heard.length === 2);
    process.parentSide.send({ kind: 'page-gone' });
    process.parentSide.send(hello);
    await soon(() => aborted.length === 1 && heard.length === 3);
    expect(aborted).toEqual(['find']);
    expect(heard.at(-1)).toEqual(hello);
  });

  it('knows whether a page is there', async () => {
    const { process, heard, pages, pagesNow } = service();
    await soon(() => heard.length === 1);
    expect(pagesNow()).toBe(0);
    process.parentSide.send(hello);
    process.parentSide.send(frame({ type: 'request', id: 1, call: 'meters.current', input: {} }));
    await soon(() => pages.length === 1);
    process.parentSide.send({ kind: 'page-gone' });
    await soon(() => pagesNow() === 0);
    process.parentSide.send(hello);
    await soon(() => pagesNow() === 1);
    expect(pages).toEqual([1]);
  });

  it('passes on that the computer sleeps and wakes, and lives on when that fails', async () => {
    const { process, heard, slept, faults } = service();
    await soon(() => heard.length === 1);
    process.parentSide.send({ kind: 'suspend' });
    process.parentSide.send({ kind: 'resume' });
    await soon(() => faults.length === 1);
    expect([slept, faults]).toEqual([['suspend', 'resume'], ['resume']]);
    process.parentSide.send(hello);
    await soon(() => heard.length === 2);
  });

  it('closes the archive before it ends', async () => {
    const order: string[] = [];
    const { process, exits, heard } = service(async () => {
      order.push('archive');
    });
    await soon(() => heard.length === 1);
    process.parentSide.send({ kind: 'close' });
    await soon(() => exits.length === 1 && heard.length === 2);
    expect([order, exits, heard.at(-1)]).toEqual([['archive'], [0], { kind: 'closed' }]);
  });

  it('ends also when the archive does not close well', async () => {
    const { process, heard, exits, faults } = service(() => Promise.reject(new Error('disk full')));
    await soon(() => heard.length === 1);
    process.parentSide.send({ kind: 'close' });
    await soon(() => exits.length === 1);
    expect([exits, faults]).toEqual([[0], ['close']]);
  });

  it('says why when the archive can not be opened', async () => {
    const process = fakeProcess();
    const heard: unknown[] = [];
    const exits: number[] = [];
    process.parentSide.onMessage((message) => heard.push(message));
    await runBackendService({
      port: process.port,
      openBackend: () => Promise.reject(new Error('this archive is of a newer program')),
      dataDir: 'x',
      onFault: () => {},
      exit: (code) => exits.push(code),
    });
    await soon(() => heard.length === 1);
    expect(heard).toEqual([{ kind: 'cannot-open', why: 'this archive is of a newer program' }]);
    expect(exits).toEqual([3]);
  });

  it('gives the page the very commands for an archive that is damaged', async () => {
    const folder = throwAwayFolder();
    writeFileSync(join(folder, 'tiltwright.sqlite'), 'SQLite format 3\0');
    const process = fakeProcess();
    const heard: unknown[] = [];
    process.parentSide.onMessage((message) => heard.push(message));
    await runBackendService({
      port: process.port,
      openBackend,
      dataDir: folder,
      onFault: () => {},
      exit: () => {},
    });
    await soon(() => heard.length === 1);
    expect(heard).toEqual([
      {
        kind: 'cannot-open',
        why: expect.stringContaining(
          `\`npm run -s tiltwright -- archive restore --from FILE --data "${folder}"\``,
        ),
      },
    ]);
  });

  it('does not heed nonsense of its parent', async () => {
    const { process, heard, faults } = service();
    await soon(() => heard.length === 1);
    process.parentSide.send({ kind: 'shout' } as never);
    process.parentSide.send('close' as never);
    await soon(() => faults.length === 2);
    expect(faults).toEqual(['message', 'message']);
  });
});
