// @vitest-environment jsdom
import { cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import { previewSweep } from '../../../core/files/preview-sweep.ts';
import type { Told } from '../../../core/files/sweep-csv.ts';
import { SourceLines } from '../../../renderer/parts/SourceLines.tsx';
import { SweepPreviewView } from '../../../renderer/parts/SweepPreviewView.tsx';
import { SweepQuestion } from '../../../renderer/screens/SweepQuestion.tsx';

afterEach(cleanup);

const text =
  'Channel\tFrequency\tPower\tSNR\n1\t57 MHz\t3.1 dBmV\t38 dB\n2\t0 MHz\t0 dBmV\t0 dB\n3\t63 MHz\t4.2 dBmV\t39 dB\n\nsigned, the harbour office\n';

it('says what was understood, draws it, and names every line that is left out', () => {
  render(<SweepPreviewView preview={previewSweep(text, 'x')} unit="dBmV" />);
  expect(screen.getByText('2 readings, 57 to 63 MHz; 1 left out.')).toBeTruthy();
  expect(screen.getByRole('img').getAttribute('aria-label')).toMatch(/^From 3.1.dBmV to 4.2.dBmV$/);
  expect(screen.getByRole('img').querySelector('path')?.getAttribute('d')?.match(/V/g)).toHaveLength(2);
  expect(screen.getByText('Level').parentElement?.textContent).toBe(
    'Level\u201CPower\u201D, unit in each cell',
  );
  const left = within(screen.getByRole('region', { name: 'Left out' }));
  expect(left.getAllByRole('listitem').map((one) => one.textContent)).toEqual([
    'line 3 frequency "0 MHz": the slot is not locked',
    'line 6 says nothing of levels: \u201Csigned, the harbour office\u201D',
  ]);
});

it('writes levels in the unit that was chosen', () => {
  render(<SweepPreviewView preview={previewSweep(text, 'x')} unit="dBuV" />);
  expect(screen.getByRole('columnheader', { name: 'dB\u00B5V' })).toBeTruthy();
  expect(screen.getByRole('cell', { name: '63.1' })).toBeTruthy();
});

it('strikes in the file what is left out', () => {
  const { container } = render(<SourceLines text={text} left={new Set([3, 6])} />);
  const struck = [...container.querySelectorAll('.source__left')].map((one) => one.textContent?.slice(0, 6));
  expect(struck).toEqual(['2\t0 MH', 'signed']);
});

it('goes on asking until it is certain, and lets every answer be changed', () => {
  const two = 'Before\nMHz\tLevel\n57\t1\n63\t2\n\nAfter\nMHz\tLevel\n57\t3\n63\t4\n';
  let told: Told = {};
  const show = () => {
    cleanup();
    render(
      <SweepQuestion preview={previewSweep(two, 'x', told)} told={told} onTell={(next) => (told = next)} />,
    );
    return screen.getAllByRole('radiogroup').map((one) => one.querySelector('span')?.textContent);
  };
  expect(show()).toEqual(['What are its levels in?']);
  expect(screen.getAllByRole('radio').map((one) => one.closest('label')?.textContent)).toEqual([
    'dBmV',
    'dB\u00B5V',
    'dBm, 75\u00A0ohm',
    'dBm, 50\u00A0ohm',
    'mV',
    '\u00B5V',
  ]);
  fireEvent.click(screen.getByRole('radio', { name: 'dBmV' }));
  expect(told).toEqual({ levelUnit: 'dBmV' });
  expect(show()).toEqual(['Which table?', 'What are its levels in?']);
  fireEvent.click(screen.getByRole('radio', { name: /^Table 2 "After"/ }));
  expect(told).toEqual({ table: 2, levelUnit: 'dBmV' });
  expect(previewSweep(two, 'x', told)).toMatchObject({ refusal: null, readingCount: 2 });
  expect(show()).toHaveLength(2);
});

it.each([
  ['Level (\u00B5V)', 'in \u00B5V'],
  ['Level (mV)', 'in mV'],
  ['Level (dBm, 50 ohm)', 'in dBm at 50 ohm'],
  ['Level (dBuV)', 'in dB\u00B5V'],
])('says of %s what it is %s', (heading, words) => {
  render(<SweepPreviewView preview={previewSweep(`MHz;${heading}\n57;20\n63;21\n`, 'x')} unit="dBmV" />);
  expect(screen.getByText(`\u201C${heading}\u201D, ${words}`)).toBeDefined();
});
