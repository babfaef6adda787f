import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';

const folder = join(import.meta.dirname, '../../renderer/look');
const sheets = readdirSync(folder).filter((name) => name.endsWith('.css'));
/** What shows, hides, moves or names something; a hand in a glove, a finger and a keyboard never hover. */
const TELLING =
  /^(?:display|visibility|opacity|content|clip-path|transform|width|height|max-height|position|inset|left|top|z-index|pointer-events)$/;

/** Every declaration of a rule whose selector speaks of hovering. */
const hoverRules = (css: string) =>
  [...css.replace(/\/\*[\s\S]*?\*\//g, '').matchAll(/([^{}]*)\{([^{}]*)\}/g)]
    .filter(([, selector = '']) => /:hover|\[data-hovered/.test(selector))
    .flatMap(([, selector = '', body = '']) =>
      body
        .split(';')
        .map((declaration) => declaration.split(':')[0]?.trim() ?? '')
        .filter((property) => property !== '')
        .map((property) => ({ selector: selector.trim(), property })),
    );

it('sees rules that speak of hovering', () => {
  const css = '.a[data-hovered], .b { display: block; color: red } .c { top: 0 }';
  expect(hoverRules(css).map(({ property }) => property)).toEqual(['display', 'color']);
});

it.each(sheets)('%s tells nothing only to who hovers', (name) => {
  const rules = hoverRules(readFileSync(join(folder, name), 'utf8'));
  expect(rules.filter(({ property }) => TELLING.test(property))).toEqual([]);
});
