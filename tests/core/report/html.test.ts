import { expect, it } from 'vitest';
import { reportHtml } from '../../../core/report/html.ts';
import { visitReport } from '../../../core/report/visit.ts';
import { reportedVisit, reportFrame } from '../../support/reported-visit.ts';

const html = reportHtml(visitReport(reportedVisit(), reportFrame()), 'a4', []);

it('is one page that asks for nothing else and runs nothing', () => {
  expect(html).toContain("default-src 'none'");
  expect(html).not.toMatch(/<script|<link|<img|<iframe|src=|https?:\/\/|@import/i);
  expect(html).not.toMatch(/ on[a-z]+=/i);
});

it('says its language and title, and has one heading of the first rank', () => {
  expect(html).toContain('<html lang="en">');
  expect(html).toContain('<title>07 Mill Lane, visit of 2 March 2026</title>');
  expect(html.match(/<h1/g)).toHaveLength(1);
});

it('is the same for the same visit', () => {
  expect(reportHtml(visitReport(reportedVisit(), reportFrame()), 'a4', [])).toBe(html);
});

it('shows a hostile name as text', () => {
  const hostile = visitReport(reportedVisit({ operator: '<img src=x onerror=alert(1)>' }), reportFrame());
  expect(reportHtml(hostile, 'a4', [])).toContain('&lt;img src=x onerror=alert(1)&gt;');
});
