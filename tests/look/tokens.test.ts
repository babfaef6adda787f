import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { contrast, luminance } from './contrast.ts';

const css = readFileSync(new URL('../../renderer/look/tokens.css', import.meta.url), 'utf8');
const moreContrast = /@media \(prefers-contrast: more\) \{([\s\S]*?)\n\}/.exec(css)?.[1] ?? '';

type Tokens = Readonly<Record<string, string>>;

const colours = (block: string): Tokens =>
  Object.fromEntries(
    [...block.matchAll(/--([a-z-]+):\s*(#[0-9a-f]{6})/g)].map((match) => [match[1] ?? '', match[2] ?? '']),
  );
const themeIn = (text: string, name: string): Tokens =>
  colours(new RegExp(`\\[data-theme="${name}"\\]\\s*\\{([^}]*)\\}`).exec(text)?.[1] ?? '');

const themes: readonly (readonly [string, Tokens])[] = ['sun', 'night'].flatMap((name) => {
  const usual = themeIn(css, name);
  return [
    [name, usual],
    [`${name}, more contrast`, { ...usual, ...themeIn(moreContrast, name) }],
  ] as const;
});

describe('the computation', () => {
  // #767676 and #949494 on white are the greys that just stand at 4.5:1 and 3:1 (the W3C's and WebAIM's examples);
  // #777777 just does not: 4.48:1.
  it.each([
    ['#000000', '#ffffff', 21],
    ['#767676', '#ffffff', 4.54],
    ['#777777', '#ffffff', 4.48],
    ['#949494', '#ffffff', 3.03],
    ['#ffffff', '#ffffff', 1],
  ])('gives for %s on %s what is published', (one, other, published) => {
    expect(contrast(one, other)).toBeCloseTo(published, 2);
    expect(contrast(other, one)).toBe(contrast(one, other));
  });

  // The primaries' luminances are the definition's own weights.
  it('weighs red, green and blue as WCAG 2.2 does', () => {
    expect(luminance([255, 0, 0])).toBeCloseTo(0.2126, 10);
    expect(luminance([0, 255, 0])).toBeCloseTo(0.7152, 10);
    expect(luminance([0, 0, 255])).toBeCloseTo(0.0722, 10);
  });
});

it('finds both themes, and a heavier word for each where the system asks for more contrast', () => {
  for (const [name, theme] of themes) expect(Object.keys(theme).length, name).toBeGreaterThanOrEqual(13);
  for (const name of ['sun', 'night'])
    expect(Object.keys(themeIn(moreContrast, name)).length, name).toBeGreaterThan(7);
});

describe.each(themes)('the theme "%s"', (_name, theme) => {
  const token = (key: string): string => {
    const value = theme[key];
    if (value === undefined) throw new Error(`no token --${key}`);
    return value;
  };
  const stands = (ink: string, grounds: readonly string[], least: number) => {
    for (const ground of grounds)
      expect(contrast(token(ink), token(ground)), `${ink} on ${ground}`).toBeGreaterThanOrEqual(least);
  };

  it.each(['ink', 'soft', 'accent', 'found', 'left', 'good', 'bad'])(
    'writes in %s at 7:1 on paper, on sheet and on the band of what is chosen',
    (ink) => stands(ink, ['paper', 'sheet', ...(ink === 'accent' || ink === 'found' ? [] : ['band'])], 7),
  );

  it('writes on the button that means "do this", and on what is chosen, at 7:1', () => {
    stands('accent-ink', ['accent'], 7);
    stands('paper', ['ink'], 7);
  });

  it.each(['edge', 'ink', 'soft', 'accent', 'found', 'left', 'good', 'bad'])(
    'draws in %s at 3:1 on paper, on sheet and on the tolerance band',
    (ink) => stands(ink, ['paper', 'sheet', 'band'], 3),
  );
});

describe('more contrast', () => {
  it.each(['sun', 'night'])('is more in every ink of "%s"', (name) => {
    const usual = themeIn(css, name);
    const more = { ...usual, ...themeIn(moreContrast, name) };
    for (const ink of ['ink', 'soft', 'edge', 'accent', 'found', 'good', 'bad']) {
      const before = contrast(usual[ink] ?? '', usual.paper ?? '');
      expect(contrast(more[ink] ?? '', more.paper ?? ''), ink).toBeGreaterThan(before);
    }
  });
});
