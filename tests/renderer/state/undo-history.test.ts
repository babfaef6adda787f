// @vitest-environment jsdom
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { begun, changed, type History, redone, undone } from '../../../renderer/state/undo-history.ts';
import { type EditorAt, listenForUndo } from '../../../renderer/state/undo-keys.ts';

describe('the history of a draft', () => {
  // A plain list with a cursor is the model: it knows nothing of how the history is kept.
  it('does what a list of all values and a cursor would', () => {
    const step = fc.oneof(
      fc.record({ kind: fc.constant('say' as const), value: fc.integer() }),
      fc.record({ kind: fc.constantFrom('undo' as const, 'redo' as const), value: fc.constant(0) }),
    );
    fc.assert(
      fc.property(fc.array(step, { maxLength: 150 }), (steps) => {
        let history: History<number> = begun(0);
        let list = [0];
        let at = 0;
        for (const { kind, value } of steps) {
          if (kind === 'say') {
            history = changed(history, value);
            if (value !== list[at]) {
              list = [...list.slice(0, at + 1), value];
              at += 1;
            }
          } else if (kind === 'undo') {
            history = undone(history);
            at = Math.max(0, at - 1);
          } else {
            history = redone(history);
            at = Math.min(list.length - 1, at + 1);
          }
          expect(history.now).toBe(list[at]);
          expect(history.past.length > 0).toBe(at > 0);
          expect(history.future.length > 0).toBe(at < list.length - 1);
        }
      }),
    );
  });

  it('takes letters of one name back together, and another name by itself', () => {
    let history = begun('');
    for (const name of ['s', 'sl', 'slope']) history = changed(history, name, 'name 0');
    history = changed(history, 'x', 'name 1');
    history = undone(history);
    expect(history.now).toBe('slope');
    expect(undone(history).now).toBe('');
    // After a step back, the same name begins a step of its own.
    expect(undone(changed(history, 'slope two', 'name 0')).now).toBe('slope');
  });

  it('keeps null as a value, and no more steps than anybody takes back', () => {
    expect(undone(changed(begun<number | null>(null), 1)).now).toBeNull();
    let history = begun(0);
    for (let i = 1; i <= 500; i += 1) history = changed(history, i);
    expect(history.past).toHaveLength(200);
  });
});

describe('its keys', () => {
  const stage = (at: EditorAt, inDialog: boolean) => {
    document.body.innerHTML = `<div ${inDialog ? 'role="dialog"' : ''}><input><button>b</button></div>`;
    const undo = vi.fn();
    const redo = vi.fn();
    const stop = listenForUndo(document, { undo, redo }, at);
    const press = (key: string, over: KeyboardEventInit = {}, on = 'button') =>
      document
        .querySelector(on)
        ?.dispatchEvent(
          new KeyboardEvent('keydown', { key, ctrlKey: true, bubbles: true, cancelable: true, ...over }),
        );
    return { undo, redo, stop, press };
  };

  it('are Ctrl+Z, Ctrl+Shift+Z and Ctrl+Y, and Command on a Mac', () => {
    const { undo, redo, press, stop } = stage('dialog', true);
    press('z');
    press('z', { ctrlKey: false, metaKey: true });
    press('Z', { shiftKey: true });
    press('y');
    press('z', { ctrlKey: false });
    stop();
    press('z');
    expect([undo.mock.calls.length, redo.mock.calls.length]).toEqual([2, 2]);
  });

  it('are the browser’s while a field has letters that it has not taken', () => {
    const { undo, press, stop } = stage('dialog', true);
    document.querySelector('input')?.dispatchEvent(new Event('input', { bubbles: true }));
    press('z', {}, 'input');
    expect(undo).toHaveBeenCalledTimes(0);
    press('Enter', { ctrlKey: false }, 'input');
    press('z', {}, 'input');
    expect(undo).toHaveBeenCalledTimes(1);
    stop();
  });

  it('are not heard under a dialog, nor by an editor that is closed', () => {
    for (const [at, inDialog] of [
      ['page', true],
      ['dialog', false],
      ['nowhere', true],
    ] as const) {
      const { undo, press, stop } = stage(at, inDialog);
      press('z');
      expect(undo).toHaveBeenCalledTimes(0);
      stop();
    }
  });
});
