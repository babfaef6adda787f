import { describe, expect, it } from 'vitest';
import { keepBackend } from '../../electron/main/backend-keeper.ts';
import { fakeProcess } from '../support/fake-electron.ts';

const settle = () => new Promise((resolve) => setTimeout(resolve, 10));

/** A keeper over processes that the test speaks for. */
function kept(closeWithinMs = 1000) {
  const processes: ReturnType<typeof fakeProcess>[] = [];
  const toPage: unknown[] = [];
  const faults: string[] = [];
  const clock = { nowMs: 0 };
  const keeper = keepBackend({
    start() {
      const process = fakeProcess();
      processes.push(process);
      return process.parentSide;
    },
    toPage: (frame) => toPage.push(frame),
    onFault: (where) => faults.push(where),
    nowMs: () => clock.nowMs,
    closeWithinMs,
  });
  return { keeper, processes, toPage, faults, clock };
}

describe('the backend’s process', () => {
  it('gets the page’s frames once it is ready, in their order', async () => {
    const { keeper, processes } = kept();
    keeper.fromPage('hello');
    keeper.fromPage('first');
    await settle();
    expect(processes[0]?.sent).toEqual([]);
    processes[0]?.port.postMessage({ kind: 'ready' });
    await settle();
    keeper.fromPage('second');
    expect(processes[0]?.sent).toEqual(
      ['hello', 'first', 'second'].map((frame) => ({ kind: 'frame', frame })),
    );
  });

  it('is started again when it dies, and the page is told', async () => {
    const { keeper, processes, toPage, faults } = kept();
    processes[0]?.port.postMessage({ kind: 'ready' });
    await settle();
    processes[0]?.die(139);
    await settle();
    expect(processes.length).toBe(2);
    expect(toPage).toEqual([{ type: 'gone', why: expect.stringContaining('being started again') }]);
    expect(faults).toEqual(['backend']);
    keeper.fromPage('hello');
    processes[1]?.port.postMessage({ kind: 'ready' });
    await settle();
    expect(processes[1]?.sent).toEqual([{ kind: 'frame', frame: 'hello' }]);
  });

  it('is not started for ever, but again after a while', async () => {
    const { keeper, processes, toPage, clock } = kept();
    for (let i = 0; i < 6; i += 1) {
      processes.at(-1)?.die(1);
      await settle();
    }
    expect(processes.length).toBe(4);
    expect(toPage.at(-1)).toEqual({ type: 'gone', why: expect.stringContaining('keep stopping') });
    keeper.fromPage('hello');
    expect(processes.length).toBe(4);
    expect(toPage.length).toBe(5);
    clock.nowMs = 60_000;
    keeper.fromPage('hello');
    expect(processes.length).toBe(5);
  });

  it('that can not open the archive says why, and is tried again only when the page asks', async () => {
    const { keeper, processes, toPage, faults } = kept();
    processes[0]?.port.postMessage({ kind: 'cannot-open', why: 'this archive is of a newer program' });
    await settle();
    processes[0]?.die(3);
    await settle();
    expect(processes.length).toBe(1);
    expect(toPage).toEqual([{ type: 'gone', why: 'this archive is of a newer program' }]);
    expect(faults).toEqual([]);
    keeper.fromPage('hello');
    expect(processes.length).toBe(2);
  });

  it('is asked to close, and its end is waited for', async () => {
    const { keeper, processes, toPage } = kept();
    processes[0]?.port.postMessage({ kind: 'ready' });
    await settle();
    let closed = false;
    const closing = keeper.close().then(() => {
      closed = true;
    });
    await settle();
    expect(processes[0]?.sent).toEqual([{ kind: 'close' }]);
    expect(closed).toBe(false);
    processes[0]?.port.postMessage({ kind: 'closed' });
    await closing;
    processes[0]?.die(0);
    await settle();
    expect(processes.length).toBe(1);
    expect(toPage).toEqual([]);
  });

  it('is ended when it does not close in time', async () => {
    const { keeper, processes, faults } = kept(20);
    await keeper.close();
    await settle();
    expect(faults).toEqual(['backend']);
    expect(processes.length).toBe(1);
  });

  it('is not heard when it talks nonsense', async () => {
    const { processes, toPage, faults } = kept();
    processes[0]?.port.postMessage({ kind: 'shout' } as never);
    await settle();
    expect(toPage).toEqual([]);
    expect(faults).toEqual(['backend']);
  });
});
