import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

const folder = createRequire(import.meta.url)
  .resolve('pdfjs-dist/package.json')
  .replace(/package\.json$/, '');

export type ReadPdf = Readonly<{
  pages: readonly Readonly<{ text: string; widthPt: number; heightPt: number; images: number }>[];
  title: unknown;
  language: unknown;
  /** Of every tag, in the order in which they are read out. */
  roles: readonly string[];
}>;

const imageOps = new Set([OPS.paintImageXObject, OPS.paintInlineImageXObject, OPS.paintImageMaskXObject]);

/** A PDF as other hands than ours read it: text, size and images of each page. */
export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const task = getDocument({
    data: Uint8Array.from(bytes),
    standardFontDataUrl: pathToFileURL(`${folder}standard_fonts/`).href,
    verbosity: 0,
  });
  const document = await task.promise;
  const { info } = await document.getMetadata();
  const facts = Object.fromEntries(Object.entries(info));
  const roles: string[] = [];
  const pages = [];
  for (let number = 1; number <= document.numPages; number++) {
    const page = await document.getPage(number);
    const { items } = await page.getTextContent();
    const { fnArray } = await page.getOperatorList();
    const tree = JSON.stringify(await page.getStructTree());
    roles.push(...[...tree.matchAll(/"role":"(\w+)"/g)].map((match) => match[1] ?? ''));
    const { width, height } = page.getViewport({ scale: 1 });
    pages.push({
      text: items.map((item) => ('str' in item ? `${item.str}${item.hasEOL ? '\n' : ' '}` : '')).join(''),
      widthPt: width,
      heightPt: height,
      images: fnArray.filter((op) => imageOps.has(op)).length,
    });
  }
  await task.destroy();
  return { pages, title: facts.Title, language: facts.Language, roles };
}

/** Spaces of every kind are one, so that a number and its unit are found however they were set. */
export const plainly = (text: string): string => text.replace(/\s+/g, ' ');
