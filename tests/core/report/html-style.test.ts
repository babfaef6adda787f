import { expect, it } from 'vitest';
import { reportStyle } from '../../../core/report/html-style.ts';

it('prints on either paper, with the page and the number of pages', () => {
  expect(reportStyle('a4', [], '')).toContain('size:A4');
  expect(reportStyle('letter', [], '')).toContain('size:letter');
  expect(reportStyle('a4', [], '')).toContain('counter(page) " of " counter(pages)');
});

it('lets no name end the string of the foot, or the style', () => {
  const style = reportStyle('a4', [], 'Quay "7"\\</style><script>\nline');
  expect(style).not.toContain('</style>');
  expect(style).toContain('Quay \\"7\\"\\\\');
});

it('embeds its type', () => {
  const style = reportStyle('a4', [{ weight: 400, unicodeRange: 'U+0-FF', base64: 'AAAA' }], '');
  expect(style).toContain('src:url(data:font/woff2;base64,AAAA)');
});
