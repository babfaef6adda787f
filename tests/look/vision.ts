import type { CDPSession, Page } from 'playwright-core';
import { contrastOf, luminance } from './contrast.ts';

/** How an eye may see: as most do, or as Chromium simulates the three kinds of colour blindness and no colour at all. */
export const eyes = ['none', 'deuteranopia', 'protanopia', 'tritanopia', 'achromatopsia'] as const;
export type Eye = (typeof eyes)[number];

export type LineSeen = Readonly<{
  /** The share of the line's length that has ink on it: 1 for a solid line, less for dashes, little for dots. */
  inked: number;
  /** Contrast of its ink with the ground beside it. */
  contrast: number;
  /** Relative luminance of its ink. */
  luminance: number;
}>;
export type Picture = Readonly<{ width: number; rgba: Uint8Array }>;
type Spot = readonly [number, number];

/** Places along a drawn line, in pixels of a screenshot; none that lies within 7 px of another of the lines. */
const spotsOf = (page: Page, selector: string, others: readonly string[]): Promise<readonly Spot[]> =>
  page.evaluate(
    ({ selector, others }) => {
      const along = (path: SVGGeometryElement): [number, number][] => {
        const matrix = path.getScreenCTM();
        const length = path.getTotalLength();
        if (matrix === null) return [];
        return Array.from({ length: Math.floor(length) }, (_, at) => {
          const point = path.getPointAtLength(at).matrixTransform(matrix);
          return [point.x, point.y];
        });
      };
      const paths = (one: string) => [...document.querySelectorAll<SVGGeometryElement>(one)].flatMap(along);
      const near = others.flatMap(paths);
      return paths(selector).filter(
        ([x, y]) => !near.some(([ox, oy]) => Math.abs(ox - x) < 7 && Math.abs(oy - y) < 7),
      );
    },
    { selector, others },
  );

/** A screenshot as this eye would see it, in pixels. The browser that took it also unpacks it. */
export async function seenBy(page: Page, devTools: CDPSession, eye: Eye): Promise<Picture> {
  await devTools.send('Emulation.setEmulatedVisionDeficiency', { type: eye });
  const shot = (await page.screenshot()).toString('base64');
  await devTools.send('Emulation.setEmulatedVisionDeficiency', { type: 'none' });
  const blank = await page.context().newPage();
  const { width, pixels } = await blank.evaluate(async (png) => {
    const picture = new Image();
    picture.src = `data:image/png;base64,${png}`;
    await picture.decode();
    const canvas = new OffscreenCanvas(picture.width, picture.height);
    const pen = canvas.getContext('2d');
    pen?.drawImage(picture, 0, 0);
    const data = pen?.getImageData(0, 0, picture.width, picture.height).data ?? new Uint8ClampedArray();
    let text = '';
    for (let at = 0; at < data.length; at += 8192)
      text += String.fromCharCode(...data.subarray(at, at + 8192));
    return { width: picture.width, pixels: btoa(text) };
  }, shot);
  await blank.close();
  return { width, rgba: new Uint8Array(Buffer.from(pixels, 'base64')) };
}

const luminanceAt = ({ width, rgba }: Picture, x: number, y: number): number => {
  const at = (Math.round(y) * width + Math.round(x)) * 4;
  return luminance([rgba[at] ?? 0, rgba[at + 1] ?? 0, rgba[at + 2] ?? 0]);
};
const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

/** What this picture shows of a line: measured in its pixels, along its own way. */
export function lineIn(picture: Picture, spots: readonly Spot[]): LineSeen {
  const measured = spots.map(([x, y]) => {
    const ground = median([-9, -8, 8, 9].map((off) => luminanceAt(picture, x, y + off)));
    // The strongest of the pixels under the pen: a line that lies between two rows of pixels fills neither.
    const ink = [-1, 0, 1]
      .map((off) => luminanceAt(picture, x, y + off))
      .reduce((best, one) => (contrastOf(one, ground) > contrastOf(best, ground) ? one : best));
    return { ink, contrast: contrastOf(ink, ground) };
  });
  const inked = measured.filter(({ contrast }) => contrast >= 2);
  return {
    inked: inked.length / measured.length,
    contrast: median(inked.map(({ contrast }) => contrast)),
    luminance: median(inked.map(({ ink }) => ink)),
  };
}

/** What tells two lines apart without any colour: the pattern of the stroke, and the weight of its grey. */
export const apart = (one: LineSeen, other: LineSeen) => ({
  pattern: Math.abs(one.inked - other.inked),
  grey: contrastOf(one.luminance, other.luminance),
});

/** The lines before and after in this picture, each where it is alone. */
export async function beforeAndAfter(
  page: Page,
): Promise<Readonly<{ before: readonly Spot[]; after: readonly Spot[] }>> {
  const lines = ['before', 'left', 'predicted', 'design'].map((name) => `.trace--${name} path`);
  const [before = '', after = ''] = lines;
  const others = (mine: string) => lines.filter((line) => line !== mine);
  return {
    before: await spotsOf(page, before, others(before)),
    after: await spotsOf(page, after, [before]),
  };
}
