import { expect, it } from 'vitest';
import {
  findingBlock,
  findingSentence,
  portSection,
  purposeWord,
} from '../../../core/report/port-section.ts';
import { judgedSweep } from '../../../core/report/port-view.ts';
import { portsOf } from '../../../core/report/visit.ts';
import { PLACE, reportedVisit, reportFrame } from '../../support/reported-visit.ts';

const frame = reportFrame();
const [view] = portsOf(reportedVisit(), frame);
if (view === undefined) throw new Error('no port');

it('has the headline of the sheet as its finding', () => {
  expect(findingBlock(view, frame)).toMatchObject({ text: view.left?.standing?.headline });
  expect(purposeWord('as-left')).toBe('as left');
});

it('has a picture with words for those who cannot see it, and a table', () => {
  const kinds = portSection(view, PLACE, frame).map(({ block }) => block);
  expect(kinds.slice(0, 2)).toEqual(['figure', 'table']);
  const [figure] = portSection(view, PLACE, frame);
  expect(figure?.block === 'figure' ? figure.words : '').toContain('As found');
});

it('says why a sweep cannot be judged', () => {
  const silent = { ...view.found.sweep, rows: [] };
  expect(findingSentence(judgedSweep(silent, null), 'dBmV')).toContain('judged');
});
