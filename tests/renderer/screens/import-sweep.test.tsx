// @vitest-environment jsdom
import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { ImportSweep } from '../../../renderer/screens/ImportSweep.tsx';
import { createLiveFeed } from '../../../renderer/state/live-feed.ts';
import { createWorkbenchStore } from '../../../renderer/state/store.ts';
import { BenchContext } from '../../../renderer/state/use-workbench.ts';
import { createWorkbench } from '../../../renderer/state/workbench.ts';
import { scriptedClient } from '../scripted-client.ts';

beforeEach(() => {
  Element.prototype.scrollIntoView = () => {};
});
afterEach(cleanup);

const table = 'MHz\tdBmV\n54\t36.1\n60\t36.2\n66\t36.3';

function opened(text: string) {
  const store = createWorkbenchStore();
  const feed = createLiveFeed(() => {});
  const workbench = createWorkbench(scriptedClient({}).client, store, feed);
  const file = { fileName: 'a.csv', text, note: null, encoding: null };
  const dialog = { open: 'import-sweep' as const, ...file };
  store.getState().dialogOpened(dialog);
  render(
    <BenchContext value={{ store, workbench, feed, now: () => '2026-03-02T10:00:00.000Z' }}>
      <ImportSweep {...file} portName="forward output" testPointLossDb={20} purpose="as-found" />
    </BenchContext>,
  );
  const pressEscape = () => fireEvent.keyDown(screen.getByRole('dialog'), { key: 'Escape' });
  const asked = () => screen.queryByRole('alertdialog', { name: 'Keep the changes?' });
  const isOpen = () => store.getState().dialog.open === 'import-sweep';
  return { pressEscape, asked, isOpen };
}
const paste = (text: string) =>
  fireEvent.change(screen.getByLabelText(/^Paste a table/), { target: { value: text } });
const press = (name: string) =>
  act(async () => void fireEvent.click(screen.getByRole('button', { name, hidden: true })));

it('asks before what was pasted is gone, and drops it only when told to', async () => {
  const { pressEscape, asked, isOpen } = opened('');
  paste(table);
  pressEscape();
  expect(isOpen()).toBe(true);
  expect(asked()).not.toBeNull();
  await press('Go on editing');
  expect(screen.getByLabelText<HTMLTextAreaElement>(/^Paste a table/).value).toBe(table);
  pressEscape();
  await press('Discard');
  expect(isOpen()).toBe(false);
});

it('says why a paste that is not certain cannot be kept', () => {
  const { pressEscape, asked } = opened('');
  paste('a note and no table');
  pressEscape();
  expect(asked()?.textContent).toContain('not certain enough');
  expect(screen.queryByRole('button', { name: 'Keep' })).toBeNull();
});

it.each(['', table])('closes at once where nothing would be lost: %#', (text) => {
  const { pressEscape, asked, isOpen } = opened(text);
  pressEscape();
  expect(asked()).toBeNull();
  expect(isOpen()).toBe(false);
});
