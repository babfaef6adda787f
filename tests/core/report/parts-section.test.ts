import { expect, it } from 'vitest';
import { partsSection } from '../../../core/report/parts-section.ts';
import { reportedVisit, reportFrame } from '../../support/reported-visit.ts';

it('names each position with what was in, what is in, and when it was changed', () => {
  const text = JSON.stringify(partsSection(reportedVisit(), reportFrame()));
  expect(text).toContain('"Input equalizer"');
  expect(text).toContain('changed 09:20');
  expect(text).toContain('unchanged');
  expect(text).toContain('can still be turned 1.5');
});

it('says that a part was changed and put back', () => {
  const there = { at: '2026-03-02T09:20:00.000Z', position: 'input pad', from: 12, to: 10 };
  const back = { at: '2026-03-02T09:30:00.000Z', position: 'input pad', from: 10, to: 12 };
  const visit = reportedVisit({ fittings: [there, back], pluggedIn: { 'input pad': 12 } });
  expect(JSON.stringify(partsSection(visit, reportFrame({ trims: [] })))).toContain(
    'changed and put back 09:20, 09:30',
  );
});

it('lists what was turned at the trims, also at one that the notes name no more', () => {
  const turn = { portName: 'forward output', kind: 'slope' as const, atMhz: 54, byDb: -0.4 };
  const visit = reportedVisit({
    turns: [{ ...turn, at: '2026-03-02T09:41:00.000Z', trim: 'output slope' }],
  });
  for (const trims of [[], reportFrame().trims]) {
    const table = partsSection(visit, reportFrame({ trims })).find(
      (one) => one.block === 'table' && one.caption.startsWith('What was turned'),
    );
    if (table?.block !== 'table') throw new Error('no table');
    const [row] = table.rows.map((cells) => cells.map(({ text }) => text.replaceAll('\u00A0', ' ')));
    expect(row).toEqual(['Output slope', 'Forward output', '54 MHz', '\u22120.4 dB', '09:41']);
  }
  expect(JSON.stringify(partsSection(reportedVisit(), reportFrame({ trims: [] })))).not.toContain('Trims');
});
