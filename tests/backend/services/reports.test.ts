import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { Refused } from '../../../core/bridge/refused.ts';
import type { ReportOf } from '../../../core/bridge/report-calls.ts';
import { plainly, readPdf } from '../../support/pdf-text.ts';
import { joined } from './joined.ts';

const signal = new AbortController().signal;
const csv = `frequency_mhz,level_dbmv\n${Array.from({ length: 40 }, (_, i) => `${60 + i * 20},${(36 + i * 0.25).toFixed(1)}`).join('\n')}\n`;

async function visited() {
  const bench = await joined();
  const { handlers, visit } = bench;
  const { sweepId } = await handlers['sweeps.import'](
    {
      visitId: visit.visitId,
      portName: 'forward output',
      purpose: 'as-found',
      fileName: 'found.csv',
      text: csv,
      testPointLossDb: 0,
    },
    signal,
  );
  await handlers['parts.fit'](
    {
      visitId: visit.visitId,
      changes: [{ position: 'input pad', from: 6, to: 3 }],
      proposal: null,
    },
    signal,
  );
  const make = async (of: ReportOf, form: 'pdf' | 'html' = 'html') => {
    const made = await handlers['reports.make']({ of, form, paper: 'a4' }, signal);
    return { ...made, bytes: Buffer.from(made.base64, 'base64') };
  };
  return { ...bench, sweepId, make };
}

describe('reports over the bridge', () => {
  it('give a visit as PDF and as HTML, with the same hash that the exported file has', async () => {
    const { handlers, visit, sweepId, make } = await visited();
    const of = { kind: 'visit', visitId: visit.visitId } as const;
    await handlers['trims.turn'](
      {
        ...{ visitId: visit.visitId, sweepId },
        turns: [{ name: 'output slope', kind: 'slope', atMhz: 54, byDb: 0.4 }],
      },
      signal,
    );
    const { text } = await handlers['sweeps.export']({ sweepId }, signal);
    const sha256 = createHash('sha256').update(text, 'utf8').digest('hex');
    const html = await make(of);
    expect(html.mediaType).toBe('text/html');
    expect(html.bytes.toString('utf8')).toContain(sha256);
    const pdf = await make(of, 'pdf');
    expect(pdf.fileName).toMatch(/^Slipway-2-visit-\d{4}-\d\d-\d\d\.pdf$/);
    const { pages } = await readPdf(pdf.bytes);
    const printed = plainly(pages.map((page) => page.text).join(' '));
    expect(printed.replaceAll(' ', '')).toContain(sha256);
    // What is in now: the installed 6 less the fitting to 3, and the chain's own head.
    expect(html.bytes.toString('utf8')).toMatch(/Input pad<\/b>.*?<td class="end"><b>3<\/b>/);
    expect(printed).toContain('tamper-evident');
    expect(printed).toMatch(/Output slope Forward output 54 MHz \+0\.4 dB/);
  });

  it('give a history with its progress, a period, and a label', async () => {
    const { visit, make, sent } = await visited();
    const history = await make({ kind: 'history', stationId: 'slipway' });
    expect(history.bytes.toString('utf8')).toContain('input pad 6 to 3');
    expect(sent.filter(({ name }) => name === 'reports.progress')).toHaveLength(1);
    const period = await make({
      kind: 'period',
      from: '2000-01-01T00:00:00.000Z',
      to: '2100-01-01T00:00:00.000Z',
    });
    expect(period.bytes.toString('utf8')).toContain('Slipway 2');
    const label = await make({ kind: 'label', visitId: visit.visitId, count: 3 }, 'pdf');
    expect((await readPdf(label.bytes)).pages).toHaveLength(1);
  });

  it('refuse a visit and a station that are not there', async () => {
    const { make } = await visited();
    await expect(make({ kind: 'visit', visitId: crypto.randomUUID() })).rejects.toThrow(Refused);
    await expect(make({ kind: 'history', stationId: 'nowhere' })).rejects.toThrow(Refused);
  });
});
