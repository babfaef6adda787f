import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

type Found = Readonly<{
  violations: readonly Readonly<{
    id: string;
    help: string;
    nodes: readonly Readonly<{ html: string; failureSummary?: string }>[];
  }>[];
}>;

/**
 * An experiment of axe's is off: it reads "12 → 10" and "−2.3 ±0.3" as one word each and misses them in names that say the figures with
 * their units.
 */
const OFF = '"label-content-name-mismatch": { enabled: false }';
/** React Aria's wrapper of a popover: the dialog inside is a place of its own, a hidden button to leave it stands beside. */
const POPOVER = /^<div style="display: contents;">/;

/** axe's rules over the page as it is now; `only` names single rules. Each line says the rule, where, and why. */
export async function axeFinds(
  page: Page,
  only: readonly string[] | null = null,
): Promise<readonly string[]> {
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axe);
  const rules =
    only === null ? `rules: { ${OFF} }` : `runOnly: { type: 'rule', values: ${JSON.stringify(only)} }`;
  const found = await page.evaluate<Found>(`axe.run(document, { resultTypes: ['violations'], ${rules} })`);
  return found.violations.flatMap(({ id, help, nodes }) =>
    nodes
      .filter(({ html }) => !(id === 'region' && POPOVER.test(html)))
      .map(({ html, failureSummary }) => `${id} (${help}): ${html.slice(0, 160)} ${failureSummary ?? ''}`),
  );
}
