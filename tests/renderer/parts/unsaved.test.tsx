// @vitest-environment jsdom
import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { useState } from 'react';
import { afterEach, expect, it, vi } from 'vitest';
import { Panel } from '../../../renderer/parts/Panel.tsx';
import { PressButton } from '../../../renderer/parts/PressButton.tsx';
import { useLeave, useUnsaved } from '../../../renderer/parts/unsaved.ts';

Element.prototype.scrollIntoView = () => {};
afterEach(cleanup);

type EditorProps = Readonly<{ keep: () => Promise<boolean>; trouble?: string | null; onTurn: () => void }>;

function Editor({ keep, trouble = null, onTurn }: EditorProps) {
  const [text, setText] = useState('');
  const leave = useLeave();
  useUnsaved({ isChanged: text !== '', trouble, keep });
  return (
    <>
      <input aria-label="text" value={text} onChange={({ target }) => setText(target.value)} />
      <PressButton onPress={() => leave(onTurn)}>Other face</PressButton>
    </>
  );
}

function panel(over: Partial<EditorProps> = {}) {
  const keep = vi.fn(over.keep ?? (() => Promise.resolve(true)));
  const onClose = vi.fn();
  const onTurn = vi.fn();
  render(
    <Panel title="Notes" isOpen onClose={onClose}>
      <Editor {...over} keep={keep} onTurn={onTurn} />
    </Panel>,
  );
  const edit = () => fireEvent.change(screen.getByLabelText('text'), { target: { value: 'new' } });
  const press = async (name: string) =>
    act(async () => fireEvent.click(screen.getByRole('button', { name, hidden: true })));
  const pressEscape = () => fireEvent.keyDown(screen.getByRole('dialog'), { key: 'Escape' });
  const asked = () => screen.queryByRole('alertdialog', { name: 'Keep the changes?' });
  return { keep, onClose, onTurn, edit, press, pressEscape, asked };
}

it('closes at once where nothing was changed', async () => {
  const { onClose, press, asked, keep } = panel();
  await press('Close');
  expect(asked()).toBeNull();
  expect(onClose).toHaveBeenCalledOnce();
  expect(keep).not.toHaveBeenCalled();
});

it('asks where something was, and keeps, discards or goes on as it is told', async () => {
  const { onClose, press, asked, keep, edit } = panel();
  edit();
  await press('Close');
  expect(onClose).not.toHaveBeenCalled();
  expect(asked()).not.toBeNull();
  await press('Go on editing');
  expect(asked()).toBeNull();
  expect(screen.getByLabelText<HTMLInputElement>('text').value).toBe('new');
  await press('Close');
  await press('Keep');
  expect(keep).toHaveBeenCalledOnce();
  expect(onClose).toHaveBeenCalledOnce();
});

it('throws away only on the word', async () => {
  const { onClose, press, keep, edit } = panel();
  edit();
  await press('Close');
  await press('Discard');
  expect(keep).not.toHaveBeenCalled();
  expect(onClose).toHaveBeenCalledOnce();
});

it('takes Escape as closing, and a second one as going on', async () => {
  const { onClose, pressEscape, asked, edit } = panel();
  edit();
  pressEscape();
  expect(asked()).not.toBeNull();
  pressEscape();
  expect(asked()).toBeNull();
  expect(onClose).not.toHaveBeenCalled();
});

it('stays where keeping was refused', async () => {
  const { onClose, press, asked, edit } = panel({ keep: () => Promise.resolve(false) });
  edit();
  await press('Close');
  await press('Keep');
  expect(onClose).not.toHaveBeenCalled();
  expect(asked()).toBeNull();
});

it('says why edits can not be kept, and offers no keeping then', async () => {
  const { press, asked, edit } = panel({ trouble: 'There is no channel in it.' });
  edit();
  await press('Close');
  expect(asked()?.textContent).toContain('There is no channel in it.');
  expect(screen.queryByRole('button', { name: 'Keep' })).toBeNull();
});

it('asks before another face of the same panel as well', async () => {
  const { onTurn, press, edit } = panel();
  edit();
  await press('Other face');
  expect(onTurn).not.toHaveBeenCalled();
  await press('Discard');
  expect(onTurn).toHaveBeenCalledOnce();
});
