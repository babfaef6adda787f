// @vitest-environment jsdom
import { fireEvent, screen } from '@testing-library/react';
import { expect, it } from 'vitest';
import { ImportSweep } from '../../../renderer/screens/ImportSweep.tsx';
import { benchOver } from '../bench-over.ts';
import { press, show } from '../shown-app.tsx';

const table = 'MHz\tdBmV\n54\t36.1\n60\t36.2\n66\t36.3';

async function opened(text: string) {
  const bench = benchOver({});
  const file = { fileName: 'a.csv', text, note: null, encoding: null };
  bench.store.getState().dialogOpened({ open: 'import-sweep', ...file });
  await show(
    bench,
    <ImportSweep {...file} portName="forward output" testPointLossDb={20} purpose="as-found" />,
  );
  const pressEscape = () => fireEvent.keyDown(screen.getByRole('dialog'), { key: 'Escape' });
  const asked = () => screen.queryByRole('alertdialog', { name: 'Keep the changes?' });
  const isOpen = () => bench.store.getState().dialog.open === 'import-sweep';
  return { pressEscape, asked, isOpen };
}
const paste = (text: string) =>
  fireEvent.change(screen.getByLabelText(/^Paste a table/), { target: { value: text } });

it('asks before what was pasted is gone, and drops it only when told to', async () => {
  const { pressEscape, asked, isOpen } = await opened('');
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

it('says why a paste that is not certain cannot be kept', async () => {
  const { pressEscape, asked } = await opened('');
  paste('a note and no table');
  pressEscape();
  expect(asked()?.textContent).toContain('not certain enough');
  expect(screen.queryByRole('button', { name: 'Keep' })).toBeNull();
});

it.each(['', table])('closes at once where nothing would be lost: %#', async (text) => {
  const { pressEscape, asked, isOpen } = await opened(text);
  pressEscape();
  expect(asked()).toBeNull();
  expect(isOpen()).toBe(false);
});
