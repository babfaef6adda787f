// @vitest-environment jsdom
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { useState } from 'react';
import { I18nProvider, Input, Label } from 'react-aria-components';
import { afterEach, expect, it } from 'vitest';
import { NumberEntry } from '../../../renderer/parts/NumberEntry.tsx';

afterEach(cleanup);

const taken: number[] = [];
function Field({ locale }: Readonly<{ locale: string }>) {
  const [value, setValue] = useState(44.1);
  return (
    <I18nProvider locale={locale}>
      <NumberEntry
        value={value}
        minValue={-60}
        maxValue={80}
        formatOptions={{ minimumFractionDigits: 1, maximumFractionDigits: 1 }}
        onChange={(next) => {
          taken.push(next);
          setValue(next);
        }}
      >
        <Label>Target</Label>
        <Input />
      </NumberEntry>
    </I18nProvider>
  );
}
function open(locale: string) {
  taken.length = 0;
  render(<Field locale={locale} />);
  const box = screen.getByLabelText<HTMLInputElement>('Target');
  const type = (text: string) => {
    fireEvent.focus(box);
    fireEvent.change(box, { target: { value: text } });
    fireEvent.blur(box);
  };
  return { box, type, help: () => screen.queryByRole('alert')?.textContent ?? null };
}

it.each([
  ['en-GB', '44.1', '38.5'],
  ['en-DE', '44,1', '38,5'],
])('writes as %s does, and takes comma and point alike', (locale, shown, after) => {
  const { box, type, help } = open(locale);
  expect(box.value).toBe(shown);
  for (const text of ['38.5', '40', '38,5']) type(text);
  expect(taken).toEqual([38.5, 40, 38.5]);
  expect(box.value).toBe(after);
  expect(help()).toBeNull();
});

it('shows again what it holds where it was not sure, and says why', () => {
  const { box, type, help } = open('en-GB');
  type('1,218');
  expect([box.value, taken.length]).toEqual(['44.1', 0]);
  expect(help()).toBe('1,218 can be read in two ways: type 1218, or 1.218.');
  type('forty');
  expect([box.value, help()]).toEqual(['44.1', 'forty is not a number.']);
  type('40');
  expect([box.value, help()]).toEqual(['40.0', null]);
});

it('stays inside its limits and says so; an emptied field is no number', () => {
  const { box, type, help } = open('en-DE');
  type('120');
  expect([box.value, help()]).toEqual(['80,0', 'At most 80,0.']);
  type('-99');
  expect([box.value, help()]).toEqual(['-60,0', 'At least -60,0.']);
  type('');
  expect([box.value, taken.at(-1)]).toEqual(['', Number.NaN]);
});

it('is taken with Enter, and walked with the arrow keys', () => {
  const { box } = open('en-GB');
  fireEvent.change(box, { target: { value: '30,25' } });
  expect(taken).toEqual([]);
  fireEvent.keyDown(box, { key: 'Enter' });
  // As many digits as are shown.
  expect(taken).toEqual([30.3]);
  fireEvent.keyDown(box, { key: 'ArrowUp' });
  fireEvent.keyDown(box, { key: 'ArrowDown' });
  fireEvent.keyDown(box, { key: 'ArrowDown' });
  expect(taken).toEqual([30.3, 31.3, 30.3, 29.3]);
});
