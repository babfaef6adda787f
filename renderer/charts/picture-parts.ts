/**
 * A drawing of the page as one svg that stands by itself: what the sheets say of each element is written on the element, so that
 * it looks the same where no sheet is. The page's policy lets no sheet be written, and a style that a script sets is none.
 */
const SVG = 'http://www.w3.org/2000/svg';

const SAID = [
  'fill',
  'fill-opacity',
  'stroke',
  'stroke-opacity',
  'stroke-width',
  'stroke-dasharray',
  'stroke-linecap',
  'stroke-linejoin',
  'opacity',
  'paint-order',
  'clip-path',
  'visibility',
  'font-family',
  'font-size',
  'font-weight',
  'font-variant-numeric',
  'text-anchor',
  'dominant-baseline',
] as const;

/** An svg element with attributes; a text inside where one is given. */
export function drawn(name: string, attributes: Readonly<Record<string, string | number>>, text?: string) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  if (text !== undefined) element.textContent = text;
  return element;
}

function sayLook(from: Element, to: SVGElement): void {
  const look = getComputedStyle(from);
  for (const key of SAID) to.style.setProperty(key, look.getPropertyValue(key));
  to.removeAttribute('class');
}

/** A copy that needs no sheet; what is not shown is left out. */
export function standingAlone(shown: SVGSVGElement): SVGSVGElement {
  const copy = shown.cloneNode(true) as SVGSVGElement;
  const from = [shown, ...shown.querySelectorAll('*')];
  const to = [copy, ...copy.querySelectorAll<SVGElement>('*')];
  from.forEach((element, i) => {
    const twin = to[i];
    if (twin === undefined) return;
    if (getComputedStyle(element).display === 'none') twin.remove();
    else sayLook(element, twin);
  });
  return copy;
}

export type Placed = Readonly<{ svg: SVGSVGElement; x: number; y: number; width: number; height: number }>;

/** The drawings in a box and where each stands in it, in the drawing's own units: the page may show it enlarged. */
export function drawingsIn(
  box: HTMLElement,
): Readonly<{ width: number; height: number; all: readonly Placed[] }> {
  const place = box.getBoundingClientRect();
  const scale = box.clientWidth === 0 ? 1 : place.width / box.clientWidth;
  const all = [...box.querySelectorAll('svg')]
    .filter((svg) => svg.parentElement?.closest('svg') === null)
    .map((svg) => {
      const at = svg.getBoundingClientRect();
      return {
        svg,
        x: (at.left - place.left) / scale,
        y: (at.top - place.top) / scale,
        width: at.width / scale,
        height: at.height / scale,
      };
    });
  return { width: place.width / scale, height: place.height / scale, all };
}
