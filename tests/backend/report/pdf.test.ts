import { describe, expect, it } from 'vitest';
import { reportHtml } from '../../../core/report/html.ts';
import { visitReport } from '../../../core/report/visit.ts';
import { reportPdf } from '../../../electron/backend/report/pdf.ts';
import { plainly, readPdf } from '../../support/pdf-text.ts';
import { reportedVisit, reportFrame } from '../../support/reported-visit.ts';

const document = visitReport(reportedVisit(), reportFrame());

describe('the report as PDF', () => {
  // ISO 216: A4 is 210 x 297 mm; ANSI/ASME Y14.1: Letter is 8.5 x 11 inches; 72 points an inch.
  it.each([
    ['a4', (210 / 25.4) * 72, (297 / 25.4) * 72],
    ['letter', 8.5 * 72, 11 * 72],
  ] as const)('is %s, all vectors, tagged, and counts its pages', async (paper, widthPt, heightPt) => {
    const bytes = await reportPdf(document, paper);
    const { pages, title, language, roles } = await readPdf(bytes);
    expect(title).toBe('07 Mill Lane, visit of 2 March 2026');
    expect(language).toBe('en');
    for (const role of ['H1', 'H2', 'Table', 'TH', 'TD', 'Figure', 'L']) expect(roles).toContain(role);
    pages.forEach((page, i) => {
      expect(page.widthPt).toBeCloseTo(widthPt, 1);
      expect(page.heightPt).toBeCloseTo(heightPt, 1);
      expect(page.images).toBe(0);
      expect(plainly(page.text)).toContain(`page ${i + 1} of ${pages.length}`);
      expect(plainly(page.text)).toContain('chain head 4127');
    });
    expect(Buffer.from(bytes).toString('latin1')).not.toContain('/Subtype /Image');
  });

  it('prints every cell, sentence and fact of the document, as the HTML does', async () => {
    const { pages } = await readPdf(await reportPdf(document, 'a4'));
    const printed = plainly(pages.map(({ text }) => text).join(' ')).replace(/ /g, '');
    const html = reportHtml(document, 'a4', []).replaceAll('&quot;', '"').replaceAll('&amp;', '&');
    const texts = document.blocks.flatMap((block): readonly string[] => {
      if (block.block === 'table') return block.rows.flat().map(({ text }) => text);
      if (block.block === 'facts') return block.facts.flatMap(({ value, note }) => [value, note ?? '']);
      if (block.block === 'list' || block.block === 'caution') return block.items;
      if (block.block === 'figure') return [block.caption];
      return 'text' in block ? [block.text] : [];
    });
    expect(texts.length).toBeGreaterThan(500);
    for (const text of texts) {
      expect(printed).toContain(plainly(text).replace(/ /g, ''));
      expect(html).toContain(text);
    }
  });

  it('is the same bytes for the same visit', async () => {
    const [first, second] = [await reportPdf(document, 'a4'), await reportPdf(document, 'a4')];
    expect(Buffer.from(first).equals(Buffer.from(second))).toBe(true);
    const later = await reportPdf({ ...document, madeAt: '2026-03-02T10:00:01.000Z' }, 'a4');
    expect(Buffer.from(first).equals(Buffer.from(later))).toBe(false);
  });

  it('has letters of many tongues, and a question mark for what no type of ours has', async () => {
    const named = visitReport(reportedVisit({ operator: 'Zoë Łukasz Жанна Ελένη \u{1F600}' }), reportFrame());
    const { pages } = await readPdf(await reportPdf(named, 'a4'));
    expect(plainly(pages[0]?.text ?? '').replace(/ /g, '')).toContain('ZoëŁukaszЖаннаΕλένη?');
  });

  it('stops when it is told to', async () => {
    const stop = new AbortController();
    stop.abort(new Error('enough'));
    await expect(reportPdf(document, 'a4', stop.signal)).rejects.toThrow('enough');
  });
});
