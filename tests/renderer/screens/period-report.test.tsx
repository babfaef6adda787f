// @vitest-environment jsdom
import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { PeriodReport } from '../../../renderer/screens/quality/PeriodReport.tsx';
import { paperHere } from '../../../renderer/screens/report/paper-choice.ts';
import { createLiveFeed } from '../../../renderer/state/live-feed.ts';
import { createWorkbenchStore } from '../../../renderer/state/store.ts';
import { BenchContext } from '../../../renderer/state/use-workbench.ts';
import { createWorkbench } from '../../../renderer/state/workbench.ts';
import { type Script, scriptedClient } from '../scripted-client.ts';

const file = { fileName: 'visits.pdf', mediaType: 'application/pdf', base64: btoa('%PDF-1.7') };
const saved: string[] = [];
beforeEach(() => {
  saved.length = 0;
  vi.stubGlobal('URL', { createObjectURL: () => 'blob:x', revokeObjectURL: () => undefined });
  vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (this: HTMLAnchorElement) {
    saved.push(this.download);
  });
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

// Both days are included: from the first one's midnight to that after the last, where this machine stands.
const of = {
  kind: 'period' as const,
  from: new Date(2026, 2, 1).toISOString(),
  to: new Date(2026, 2, 8).toISOString(),
};

function shown(script: Script) {
  const scripted = scriptedClient(script);
  const store = createWorkbenchStore();
  const feed = createLiveFeed((callback) => setTimeout(callback, 0));
  const workbench = createWorkbench(scripted.client, store, feed);
  render(
    <BenchContext value={{ store, workbench, feed, now: () => '2026-03-08T12:00:00.000Z' }}>
      <PeriodReport fromDay="2026-03-01" toDay="2026-03-07" />
    </BenchContext>,
  );
  return scripted;
}
const press = async (name: string | RegExp) => {
  await act(async () => fireEvent.click(screen.getByRole('button', { name })));
};

it('prints the visits of the days that are shown, as PDF and as HTML', async () => {
  const { asked } = shown({ 'reports.make': () => file });
  await press('Report of these visits');
  expect(saved).toEqual(['visits.pdf']);
  expect(screen.getByRole('status').textContent).toBe('Saved as visits.pdf');
  await press(/page of HTML/);
  const paper = paperHere(localStorage, navigator.language);
  expect(asked.map(({ input }) => input)).toEqual([
    { of, form: 'pdf', paper },
    { of, form: 'html', paper },
  ]);
});

it('says how far it is, and can be stopped', async () => {
  const { emit } = shown({ 'reports.make': () => new Promise(() => undefined) });
  await press('Report of these visits');
  await act(async () => emit('reports.progress', { of, done: 4, total: 12 }));
  expect(screen.getByText('Visit 4 of 12')).toBeDefined();
  expect(screen.getByRole('button', { name: 'Stop' })).toBeDefined();
  expect(screen.getByRole('button', { name: 'Report of these visits' }).hasAttribute('disabled')).toBe(true);
});

it('is not there while the days are none', () => {
  const scripted = scriptedClient({});
  const store = createWorkbenchStore();
  const feed = createLiveFeed((callback) => setTimeout(callback, 0));
  render(
    <BenchContext
      value={{ store, workbench: createWorkbench(scripted.client, store, feed), feed, now: () => '' }}
    >
      <PeriodReport fromDay="" toDay="2026-03-07" />
    </BenchContext>,
  );
  expect(screen.queryByRole('button')).toBeNull();
});
