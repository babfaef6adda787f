// @vitest-environment jsdom
import { act, fireEvent, screen } from '@testing-library/react';
import { expect, it } from 'vitest';
import { SweepMenu } from '../../../renderer/screens/SweepMenu.tsx';
import { benchOver } from '../bench-over.ts';
import { namesOf, savedFiles } from '../saved-files.ts';
import { press, show } from '../shown-app.tsx';

const SWEEP = '00000000-0000-4000-8000-000000000007';
const bytes = Buffer.from('\uFEFFMHz;dBµV\r\n54;96,1\r\n', 'utf16le');

async function opened(isFromFile: boolean) {
  const bench = benchOver({
    'sweeps.original': () => ({ fileName: 'pegel.csv', base64: bytes.toString('base64') }),
  });
  await show(
    bench,
    <SweepMenu sweepId={SWEEP} canAmend={false} isFromFile={isFromFile} input={null} reading={false} />,
  );
  await press(/^Sweep/);
  return { ...bench, item: screen.getByRole('menuitem', { name: 'Save the file it was taken from' }) };
}

it('hands out the file that a sweep was taken from, byte by byte', async () => {
  const handed = savedFiles();
  const { item, asked } = await opened(true);
  await act(async () => void fireEvent.click(item));
  expect(asked).toContainEqual({ name: 'sweeps.original', input: { sweepId: SWEEP } });
  expect(namesOf(handed)).toEqual(['pegel.csv']);
  const read = new FileReader();
  const whole = new Promise<ArrayBuffer>((done) => {
    read.onload = () => done(read.result as ArrayBuffer);
  });
  read.readAsArrayBuffer(handed[0]?.blob ?? new Blob());
  expect(Buffer.from(await whole)).toEqual(bytes);
});

it('offers it of no sweep that a meter read', async () => {
  const { item } = await opened(false);
  expect(item.getAttribute('aria-disabled')).toBe('true');
});
