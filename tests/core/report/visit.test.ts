import { describe, expect, it } from 'vitest';
import type { Block } from '../../../core/report/document.ts';
import { cautionBlock, footOf, portsOf, visitReport } from '../../../core/report/visit.ts';
import { CAUTIONS } from '../../../core/words/cautions.ts';
import { reportedVisit, reportFrame } from '../../support/reported-visit.ts';

const frame = reportFrame();
const told = (blocks: readonly Block[]): string => JSON.stringify(blocks);

describe('the report of a visit', () => {
  const report = visitReport(reportedVisit(), frame);
  const text = told(report.blocks);

  it('says the finding first', () => {
    expect(report.blocks[0]).toMatchObject({ block: 'finding', mark: { verdict: 'pass' } });
  });

  it('has the place, the clock, the meter and its calibration, the cautions and the signature lines', () => {
    for (const word of [
      '09:02\u00A0+00:00',
      'Europe/Lisbon',
      'QI-0042',
      '20\u00A0November 2025',
      'P. Ferreira',
    ])
      expect(text).toContain(word);
    for (const { text: caution } of CAUTIONS) expect(text).toContain(caution);
    expect(report.blocks).toContainEqual({
      block: 'signatures',
      names: ['Technician: P. Ferreira', 'Checked by'],
    });
  });

  it('shows what was voided, why and by whom', () => {
    expect(text).toContain('void: probe was on the wrong test point (P. Ferreira');
  });

  it('carries the hashes at the foot of each page', () => {
    expect(report.foot.join(' ')).toContain(frame.dataSha256.slice(0, 24));
    expect(report.foot.join(' ')).toContain('chain head 4127');
    expect(footOf('x', { ...frame, head: null }).join(' ')).not.toContain('chain');
  });

  it('puts ports with a design before those without, forward before return', () => {
    expect(portsOf(reportedVisit(), frame).map(({ port }) => port.name)).toEqual([
      'forward output',
      'return output',
    ]);
  });

  it('says so where nothing was read, or nothing counts', () => {
    const empty = visitReport(
      reportedVisit({ sweeps: [], fittings: [], operator: '', ambientC: null }),
      frame,
    );
    expect(empty.blocks[0]).toMatchObject({ text: 'No reading of this visit counts' });
    expect(told(empty.blocks)).toContain('not written down');
  });

  it('has its cautions without a time where no visit was made', () => {
    expect(cautionBlock(null)).toMatchObject({ title: 'Cautions' });
  });
});
