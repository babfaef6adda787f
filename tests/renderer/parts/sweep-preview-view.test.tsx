// @vitest-environment jsdom
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import { previewSweep } from '../../../core/files/preview-sweep.ts';
import type { Told } from '../../../core/files/sweep-csv.ts';
import { SweepPreviewView } from '../../../renderer/parts/SweepPreviewView.tsx';
import { SweepQuestion } from '../../../renderer/screens/SweepQuestion.tsx';

afterEach(cleanup);

it('says the finding, how it was read, the rows, and what is left out and why', () => {
  const text = 'Frequency\tPower\n57 MHz\t36.5 dBmV\n54-60 MHz\t3 dBmV\n';
  render(<SweepPreviewView preview={previewSweep(text, 'paste')} />);
  expect(document.body.textContent).toMatch(/1.reading, 57 to 57 MHz; 1 left out\./);
  expect(document.body.textContent).toContain(
    'Cells parted by tab; frequency from "Frequency"; level from "Power"',
  );
  expect(screen.getAllByRole('row')).toHaveLength(3);
  expect(document.body.textContent).toContain('line 3: 54-60 MHz is a range, not one frequency');
});

it('asks which table counts, and takes the answer', () => {
  const text = 'East leg\nf_mhz\tdBmV\n570\t1\n\nWest leg\nf_mhz\tdBmV\n570\t40\n';
  const heard: Told[] = [];
  const preview = previewSweep(text, 'paste');
  render(<SweepPreviewView preview={preview} />);
  expect(screen.getByRole('alert').textContent).toContain('not plainly one sweep');
  render(<SweepQuestion preview={preview} told={{}} onTell={(told) => heard.push(told)} />);
  fireEvent.click(screen.getByRole('radio', { name: /table 2 "West leg"/ }));
  expect(heard).toEqual([{ table: 2 }]);
});
