import { describe, expect, it } from 'vitest';
import { filesBelow, textOf } from '../support/source-files.ts';

const sheets = filesBelow('renderer/look').filter((path) => path.endsWith('.css'));
const others = sheets.filter((path) => !path.endsWith('/tokens.css'));
const scripts = filesBelow('renderer').filter((path) => /\.tsx?$/.test(path));
const rulesOf = (path: string) => textOf(path).replace(/\/\*[\s\S]*?\*\//g, '');

const RAW_COLOUR =
  /#[0-9a-f]{3,8}\b(?![^{}]*\{)|\b(?:rgba?|hsla?|hwb|lab|lch|oklab|oklch|color)\(|:\s*[^;{]*\b(?:black|white|red|green|blue|gr[ae]y|orange|yellow|purple|brown|navy|teal)\b(?!-)/i;
const RAW_TYPE = /\b(?:font-size|font|font-weight|font-family)\s*:\s*([^;]+);/g;
const RAW_STROKE = /\b(?:stroke-width|stroke-dasharray)\s*:\s*([^;]+);/g;
const BORDER = /\b(?:border(?:-(?:top|right|bottom|left|width|radius))?|outline)\s*:\s*([^;]+);/g;

/** Declarations of a kind that say something else than a token, an inherited value, or a share of what is around them. */
const raw = (pattern: RegExp, path: string, allowed: RegExp) =>
  [...rulesOf(path).matchAll(pattern)]
    .map((match) => (match[1] ?? '').trim())
    .filter((value) => !allowed.test(value))
    .map((value) => `${path}: ${value}`);

describe('the look', () => {
  it('keeps every colour in the tokens', () => {
    expect(sheets.length).toBeGreaterThan(10);
    expect(others.filter((path) => RAW_COLOUR.test(rulesOf(path)))).toEqual([]);
    // A drawing on canvas asks for its inks, and an element has none of its own.
    const drawn = /(?:fill|stroke|color|background)(?:=|:\s*|Style = )['"`{]*(?:#|rgb|hsl|black|white)/i;
    expect(scripts.filter((path) => drawn.test(textOf(path)))).toEqual([]);
  });

  it('would see a colour that is written elsewhere', () => {
    for (const planted of ['a { color: #fff; }', 'a { fill: rgb(0 0 0); }', 'a { border: 1px solid white; }'])
      expect(RAW_COLOUR.test(planted), planted).toBe(true);
    for (const fine of ['a { color: var(--ink); }', 'a { white-space: nowrap; }', 'a { background: none; }'])
      expect(RAW_COLOUR.test(fine), fine).toBe(false);
  });

  it('takes sizes and weights of type from the scale', () => {
    // What fills a screen is sized by the screen; `1em` is the text around it.
    const fine =
      /^(?:inherit|(?:var\(--(?:thin|plain|named|strong)\) )?(?:var\(--[a-z0-9-]+\)|calc\(100% \* var\(--text-scale\)\)|100%|(?:max|min)\([^;]*v[wh][^;]*\))(?: \/ (?:[\d.]+|inherit))?(?: var\(--font(?:-fixed)?\))?)$/;
    expect(others.flatMap((path) => raw(RAW_TYPE, path, fine))).toEqual([]);
  });

  it('takes strokes, dashes, borders and corners from the tokens', () => {
    expect(others.flatMap((path) => raw(RAW_STROKE, path, /^var\(--d(?:raw|ash)-[a-z]+\)$/))).toEqual([]);
    const line = /^(?:0|none|50%|var\(--[a-z-]+\)(?: .*)?|calc\(.*var\(.*\))$/;
    expect(others.flatMap((path) => raw(BORDER, path, line))).toEqual([]);
  });

  it('uses no token that is not there', () => {
    const made = new Set(
      [...textOf('renderer/look/tokens.css').matchAll(/^\s*(--[a-z0-9-]+):/gm)].map((m) => m[1]),
    );
    for (const path of others)
      for (const [, own] of rulesOf(path).matchAll(/^\s*(--[a-z0-9-]+):/gm)) made.add(own);
    made.add('--trigger-width'); // React Aria writes it beside a list that opens
    const used = others.flatMap((path) =>
      [...rulesOf(path).matchAll(/var\((--[a-z0-9-]+)/g)].map(([, name]) => `${path}: ${name}`),
    );
    expect(used.filter((use) => !made.has(use.slice(use.indexOf(': ') + 2)))).toEqual([]);
  });

  it('asks the page and not the window what there is room for, so that larger text gets its layout', () => {
    const asked = others.flatMap((path) =>
      [...rulesOf(path).matchAll(/@media ([^{]+)\{/g)].map(([, query]) => `${path}: ${query?.trim()}`),
    );
    expect(asked.filter((query) => /width|height/.test(query))).toEqual([]);
  });

  it('is read whole: every sheet is loaded, and none has more than 300 lines', () => {
    const main = textOf('renderer/main.tsx');
    expect(sheets.filter((path) => !main.includes(`./look/${path.slice('renderer/look/'.length)}`))).toEqual(
      [],
    );
    expect(sheets.filter((path) => textOf(path).split('\n').length > 301)).toEqual([]);
  });
});
