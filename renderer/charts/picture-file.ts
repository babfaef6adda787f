import { drawingsIn, drawn, standingAlone } from './picture-parts.ts';

export type PictureWords = Readonly<{ title: string; about: string }>;

/** Sharp on a good screen, and large enough for a slide. */
const SCALE = 2;
const EDGE = 16;
const TITLE_PX = 18;
const ABOUT_PX = 14;
const LINE = 1.3;

/** Words broken to a width, by a pen that knows how wide they get. */
function brokenTo(width: number, words: string, pen: CanvasRenderingContext2D): readonly string[] {
  const lines: string[] = [];
  for (const word of words.split(' ')) {
    const longer = lines.length === 0 ? word : `${lines.at(-1)} ${word}`;
    if (lines.length > 0 && pen.measureText(longer).width <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

const asDataUrl = (blob: Blob): Promise<string> =>
  new Promise((done, failed) => {
    const reader = new FileReader();
    reader.onload = () => done(String(reader.result));
    reader.onerror = () => failed(reader.error);
    reader.readAsDataURL(blob);
  });

/** The page's own faces of one family as rules that carry their files with them: a picture may fetch nothing. */
async function facesOf(family: string): Promise<string> {
  const first = family.split(',')[0]?.replace(/["']/g, '').trim() ?? '';
  const rules = [...document.styleSheets].flatMap((sheet) =>
    [...sheet.cssRules].filter(
      (rule): rule is CSSFontFaceRule =>
        rule instanceof CSSFontFaceRule &&
        rule.style.getPropertyValue('font-family').replace(/["']/g, '') === first,
    ),
  );
  const faces = await Promise.all(
    rules.map(async (rule) => {
      const address = /url\("?([^")]+)"?\)/.exec(rule.style.getPropertyValue('src'))?.[1];
      if (address === undefined) return '';
      const file = await fetch(new URL(address, rule.parentStyleSheet?.href ?? document.baseURI));
      if (!file.ok) throw new Error(`${address} is not there`);
      const says = ['font-weight', 'font-style', 'unicode-range']
        .map((name) => `${name}:${rule.style.getPropertyValue(name)};`)
        .join('');
      return `@font-face{font-family:"${first}";${says}src:url(${await asDataUrl(await file.blob())})}`;
    }),
  );
  return faces.join('');
}

/** The drawings of a box under their title, as they are shown now, as one svg with everything in it. */
async function svgOf(box: HTMLElement, { title, about }: PictureWords, pen: CanvasRenderingContext2D) {
  const look = getComputedStyle(document.documentElement);
  const token = (name: string) => look.getPropertyValue(name).trim();
  const family = getComputedStyle(document.body).fontFamily;
  const { width, height, all } = drawingsIn(box);
  const inside = width - 2 * EDGE;
  const head = [
    { words: title, px: TITLE_PX, weight: token('--strong'), fill: token('--ink') },
    { words: about, px: ABOUT_PX, weight: token('--plain'), fill: token('--soft') },
  ].flatMap(({ words, px, weight, fill }) => {
    pen.font = `${weight} ${px}px ${family}`;
    return brokenTo(inside, words, pen).map((text) => ({ text, px, weight, fill }));
  });
  let y = EDGE;
  const lines = head.map(({ text, px, weight, fill }) => {
    y += px * LINE;
    return drawn(
      'text',
      { x: EDGE, y, fill, 'font-family': family, 'font-size': px, 'font-weight': weight },
      text,
    );
  });
  const top = y + EDGE;
  const whole = { width: Math.ceil(width), height: Math.ceil(top + height + EDGE / 2) };
  const root = drawn('svg', { ...whole, viewBox: `0 0 ${whole.width} ${whole.height}` });
  root.append(drawn('style', {}, await facesOf(family)));
  root.append(drawn('rect', { ...whole, fill: token('--paper') }), ...lines);
  for (const { svg, x, y: at, width: wide, height: high } of all) {
    const copy = standingAlone(svg);
    const placed = { x, y: top + at, width: wide, height: high, overflow: 'visible' };
    for (const [key, value] of Object.entries(placed)) copy.setAttribute(key, String(value));
    root.append(copy);
  }
  return { ...whole, text: new XMLSerializer().serializeToString(root) };
}

/**
 * The drawings of a box as PNG, twice as fine as they are shown, in the colours of the theme, with their title over them.
 * @returns  rejects where the picture can't be drawn
 */
export async function drawPicture(box: HTMLElement, words: PictureWords): Promise<Blob> {
  const paper = document.createElement('canvas');
  const pen = paper.getContext('2d');
  if (pen === null) throw new Error('this browser gives no canvas');
  const { text, width, height } = await svgOf(box, words, pen);
  const image = new Image(width, height);
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(text)}`;
  await image.decode();
  paper.width = width * SCALE;
  paper.height = height * SCALE;
  pen.drawImage(image, 0, 0, paper.width, paper.height);
  return await new Promise((done, failed) => {
    paper.toBlob((file) => (file === null ? failed(new Error('the canvas gave no picture')) : done(file)));
  });
}
