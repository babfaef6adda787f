// @vitest-environment jsdom
import { act, screen } from '@testing-library/react';
import { expect, it } from 'vitest';
import { PeriodReport } from '../../../renderer/screens/quality/PeriodReport.tsx';
import { paperHere } from '../../../renderer/screens/report/paper-choice.ts';
import { benchOver } from '../bench-over.ts';
import { namesOf, savedFiles } from '../saved-files.ts';
import type { Script } from '../scripted-client.ts';
import { press, show } from '../shown-app.tsx';

const file = { fileName: 'visits.pdf', mediaType: 'application/pdf', base64: btoa('%PDF-1.7') };

// Both days are included: from the first one's midnight to that after the last, where this machine stands.
const of = {
  kind: 'period' as const,
  from: new Date(2026, 2, 1).toISOString(),
  to: new Date(2026, 2, 8).toISOString(),
};

async function shown(script: Script, fromDay = '2026-03-01') {
  const bench = benchOver(script, { now: '2026-03-08T12:00:00.000Z' });
  await show(bench, <PeriodReport fromDay={fromDay} toDay="2026-03-07" />);
  return bench;
}

it('prints the visits of the days that are shown, as PDF and as HTML', async () => {
  const saved = savedFiles();
  const { asked } = await shown({ 'reports.make': () => file });
  await press('Report of these visits');
  expect(namesOf(saved)).toEqual(['visits.pdf']);
  expect(screen.getByRole('status').textContent).toBe('Saved as visits.pdf');
  await press(/page of HTML/);
  const paper = paperHere(localStorage, navigator.language);
  expect(asked.map(({ input }) => input)).toEqual([
    { of, form: 'pdf', paper },
    { of, form: 'html', paper },
  ]);
});

it('says how far it is, and can be stopped', async () => {
  const { emit } = await shown({ 'reports.make': () => new Promise(() => undefined) });
  await press('Report of these visits');
  await act(async () => emit('reports.progress', { of, done: 4, total: 12 }));
  expect(screen.getByText('Visit 4 of 12')).toBeDefined();
  expect(screen.getByRole('button', { name: 'Stop' })).toBeDefined();
  expect(screen.getByRole('button', { name: 'Report of these visits' }).hasAttribute('disabled')).toBe(true);
});

it('is not there while the days are none', async () => {
  await shown({}, '');
  expect(screen.queryByRole('button')).toBeNull();
});
