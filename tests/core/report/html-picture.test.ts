import { expect, it } from 'vitest';
import { escaped, INKS, pictureSvg } from '../../../core/report/html-picture.ts';

it('escapes what HTML reads as its own, and drops control characters', () => {
  expect(escaped('<b title="a&b">\u0007')).toBe('&lt;b title=&quot;a&amp;b&quot;&gt; ');
});

it('draws every kind of shape as a vector', () => {
  const svg = pictureSvg(
    {
      widthPt: 10,
      heightPt: 5,
      shapes: [
        {
          shape: 'line',
          points: [
            [0, 0],
            [10, 5],
          ],
          ink: 'found',
          widthPt: 1.3,
          dashPt: [4, 2],
        },
        {
          shape: 'area',
          points: [
            [0, 0],
            [1, 0],
            [1, 1],
          ],
          ink: 'band',
        },
        { shape: 'boxes', boxes: [[0, 0, 1, 1]], ink: 'ink' },
        { shape: 'dot', xPt: 1, yPt: 1, radiusPt: 1, ink: 'found', hollow: true },
        { shape: 'words', xPt: 1, yPt: 1, text: 'a < b', sizePt: 8, bold: true, align: 'end', ink: 'soft' },
      ],
    },
    'a "picture"',
    20,
  );
  expect(svg).toContain('stroke-dasharray="4 2"');
  expect(svg).toContain('width="20mm" height="10mm"');
  expect(svg).toContain('aria-label="a &quot;picture&quot;"');
  expect(svg).toContain('>a &lt; b</text>');
  expect(svg).toContain(`fill="${INKS.band}"`);
  expect(svg).not.toMatch(/<image|href/);
});
