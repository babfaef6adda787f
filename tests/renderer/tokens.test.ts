import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const css = readFileSync(new URL('../../renderer/look/tokens.css', import.meta.url), 'utf8');

type Tokens = Readonly<Record<string, string>>;

function themeOf(name: string): Tokens {
  const block = new RegExp(`\\[data-theme="${name}"\\]\\s*\\{([^}]*)\\}`).exec(css)?.[1] ?? '';
  return Object.fromEntries(
    [...block.matchAll(/--([a-z-]+):\s*(#[0-9a-f]{6})/g)].map((match) => [match[1] ?? '', match[2] ?? '']),
  );
}

/** Relative luminance and contrast ratio after WCAG 2.2, "relative luminance" and "contrast ratio". */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * (r ?? 0) + 0.7152 * (g ?? 0) + 0.0722 * (b ?? 0);
}
function contrast(one: string, other: string): number {
  const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return ((high ?? 0) + 0.05) / ((low ?? 0) + 0.05);
}

it('computes what WCAG 2.2 gives: black on white 21:1, #767676 on white 4.54:1', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
  expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
});

describe.each(['sun', 'night'])('the theme "%s"', (name) => {
  const theme = themeOf(name);
  const token = (key: string): string => {
    const value = theme[key];
    if (value === undefined) throw new Error(`no token --${key}`);
    return value;
  };

  it.each(['ink', 'soft', 'accent', 'found', 'left', 'good', 'bad'])(
    'writes in %s at 7:1 on paper and on sheet',
    (ink) => {
      for (const ground of ['paper', 'sheet'])
        expect(contrast(token(ink), token(ground)), `${ink} on ${ground}`).toBeGreaterThanOrEqual(7);
    },
  );

  it('writes on the button that means "do this", and on what is chosen, at 7:1', () => {
    expect(contrast(token('accent-ink'), token('accent'))).toBeGreaterThanOrEqual(7);
    expect(contrast(token('paper'), token('ink'))).toBeGreaterThanOrEqual(7);
  });

  it.each(['edge', 'ink', 'soft', 'accent', 'found', 'left'])(
    'draws in %s at 3:1 on paper, on sheet and on the tolerance band',
    (ink) => {
      for (const ground of ['paper', 'sheet', 'band'])
        expect(contrast(token(ink), token(ground)), `${ink} on ${ground}`).toBeGreaterThanOrEqual(3);
    },
  );
});
