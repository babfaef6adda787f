import type { Ink, Picture, Point, Shape } from './document.ts';

/** Paper colours: the "sun" theme's inks. Each line also differs by its stroke, each verdict by its shape and word. */
export const INKS: Readonly<Record<Ink, string>> = {
  ink: '#101418',
  soft: '#41484f',
  hair: '#c3c6c8',
  band: '#e9e5da',
  found: '#005086',
  good: '#0a5436',
  bad: '#8c0f3c',
  paper: '#ffffff',
};

/**
 * Text inside HTML or SVG.
 * @source   HTML Living Standard, 13.3 (escaping a string); control characters that no page may hold become a space
 */
export const escaped = (text: string): string =>
  text
    .replace(/\p{Cc}/gu, ' ')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;');

const n = (value: number): string => String(Number(value.toFixed(2)));
const pairs = (points: readonly Point[]): string => points.map(([x, y]) => `${n(x)},${n(y)}`).join(' ');

function element(shape: Shape): string {
  const ink = INKS[shape.ink];
  switch (shape.shape) {
    case 'line': {
      const dash = shape.dashPt === undefined ? '' : ` stroke-dasharray="${shape.dashPt.map(n).join(' ')}"`;
      return `<polyline points="${pairs(shape.points)}" fill="none" stroke="${ink}" stroke-width="${n(shape.widthPt)}" stroke-linejoin="round"${dash}/>`;
    }
    case 'area':
      return `<polygon points="${pairs(shape.points)}" fill="${ink}"/>`;
    case 'boxes': {
      const path = shape.boxes.map(([x, y, w, h]) => `M${n(x)} ${n(y)}h${n(w)}v${n(h)}h${n(-w)}z`).join('');
      return `<path d="${path}" fill="${ink}" shape-rendering="crispEdges"/>`;
    }
    case 'dot':
      return `<circle cx="${n(shape.xPt)}" cy="${n(shape.yPt)}" r="${n(shape.radiusPt)}" stroke="${ink}" stroke-width="1.2" fill="${shape.hollow ? INKS.paper : ink}"/>`;
    case 'words':
      return `<text x="${n(shape.xPt)}" y="${n(shape.yPt)}" font-size="${n(shape.sizePt)}" font-weight="${shape.bold ? 700 : 400}" text-anchor="${shape.align}" fill="${ink}">${escaped(shape.text)}</text>`;
  }
}

/**
 * A picture as inline SVG, every part a vector.
 * @param words  what it shows, for those who can't see it
 * @param widthMm  its printed width; without one it is as wide as its place
 * @source   SVG 1.1
 */
export function pictureSvg(picture: Picture, words: string, widthMm?: number): string {
  const { widthPt, heightPt, shapes } = picture;
  const size =
    widthMm === undefined ? '' : ` width="${n(widthMm)}mm" height="${n((widthMm * heightPt) / widthPt)}mm"`;
  return `<svg viewBox="0 0 ${n(widthPt)} ${n(heightPt)}"${size} role="img" aria-label="${escaped(words)}">${shapes.map(element).join('')}</svg>`;
}
