import { expect, it } from 'vitest';
import { sheetSentence, uncertaintySection } from '../../../core/report/uncertainty-section.ts';
import { portsOf } from '../../../core/report/visit.ts';
import { reportedVisit, reportFrame } from '../../support/reported-visit.ts';

const [view] = portsOf(reportedVisit(), reportFrame());
if (view === undefined) throw new Error('no port');

it('tells each part of the uncertainty, its basis and whose word it is', () => {
  const text = JSON.stringify(uncertaintySection(view.found));
  expect(text).toContain('meter accuracy');
  // A half-width of 0.20 dB is a standard uncertainty of 0.2 / sqrt 3 (JCGM 100:2008, 4.3.7).
  expect(text).toContain('"0.12"');
  expect(text).toContain('sheet of Bench Level Meter');
});

it('has nothing to tell of a sweep that was not judged', () => {
  expect(uncertaintySection({ ...view.found, standing: null })).toEqual([]);
  expect(sheetSentence({ from: 'defaults' })).toContain('without a published source');
  expect(sheetSentence({ from: 'station' })).toContain('station');
});
