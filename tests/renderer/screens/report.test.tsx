// @vitest-environment jsdom
import { act, fireEvent, screen } from '@testing-library/react';
import { beforeEach, expect, it } from 'vitest';
import { keepPaper, paperHere } from '../../../renderer/screens/report/paper-choice.ts';
import { ReportButtons } from '../../../renderer/screens/report/ReportButtons.tsx';
import { benchOver } from '../bench-over.ts';
import { type SavedFile, savedFiles } from '../saved-files.ts';
import type { Script } from '../scripted-client.ts';
import { press, show } from '../shown-app.tsx';

const visitId = '5e1f0c7a-0000-4000-8000-0000000000ff';
const file = { fileName: 'Mill-Lane-visit.pdf', mediaType: 'application/pdf', base64: btoa('%PDF-1.7') };

let saved: readonly SavedFile[] = [];
beforeEach(() => {
  localStorage.clear();
  saved = savedFiles();
});

async function shown(script: Script) {
  const bench = benchOver(script, { now: '2026-03-02T12:00:00.000Z' });
  await show(
    bench,
    <ReportButtons
      stationId="mill-lane"
      stationName="07 Mill Lane"
      visitId={visitId}
      at="2026-03-02T09:12:00.000Z"
    />,
  );
  return bench;
}

it('gives the visit as PDF with one press', async () => {
  const { asked } = await shown({ 'reports.make': () => file });
  await press('Report');
  expect(asked).toEqual([
    {
      name: 'reports.make',
      input: {
        of: { kind: 'visit', visitId },
        form: 'pdf',
        paper: paperHere(localStorage, navigator.language),
      },
    },
  ]);
  expect(saved.map(({ name, blob }) => [name, blob.size])).toEqual([[file.fileName, 8]]);
  expect(screen.getByRole('status').textContent).toBe(`Saved as ${file.fileName}`);
});

it('offers the other forms, on the paper that was chosen, and remembers it', async () => {
  const { asked } = await shown({ 'reports.make': () => file });
  await press(/Other forms/);
  await act(async () => fireEvent.click(screen.getByRole('radio', { name: 'Letter' })));
  await press('Page of HTML');
  await act(async () => fireEvent.click(screen.getByRole('radio', { name: '6' })));
  await press('Labels');
  expect(asked.map(({ input }) => input)).toEqual([
    { of: { kind: 'visit', visitId }, form: 'html', paper: 'letter' },
    { of: { kind: 'label', visitId, count: 6 }, form: 'pdf', paper: 'letter' },
  ]);
  expect(paperHere(localStorage, 'de-DE')).toBe('letter');
});

it('says how far a history is, and can be stopped', async () => {
  let answer: (made: typeof file) => void = () => undefined;
  const { emit } = await shown({
    'reports.make': () =>
      new Promise<typeof file>((resolve) => {
        answer = resolve;
      }),
  });
  await press(/Other forms/);
  await press('History');
  await act(async () =>
    emit('reports.progress', { of: { kind: 'history', stationId: 'mill-lane' }, done: 3, total: 9 }),
  );
  expect(screen.getByText('Visit 3 of 9')).toBeTruthy();
  expect(screen.getByRole('button', { name: 'Stop' })).toBeTruthy();
  await act(async () => answer(file));
  expect(saved).toHaveLength(1);
});

it('says what went wrong, and saves nothing', async () => {
  const { store } = await shown({});
  await press('Report');
  expect(store.getState().notice).toMatchObject({ tone: 'problem', text: 'The report was not made.' });
  expect(saved).toEqual([]);
});

it('takes the usual paper in a browser without storage', () => {
  const broken = {
    getItem: () => {
      throw new Error('no storage');
    },
    setItem: () => {
      throw new Error('no storage');
    },
  };
  keepPaper(broken, 'letter');
  expect(paperHere(broken, 'en-US')).toBe('letter');
  expect(paperHere(broken, 'de-DE')).toBe('a4');
});
