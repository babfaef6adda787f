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

/** axe's rules over the page as it is now; `only` names single rules. Each line says the rule, where, and why. */
export async function axeFinds(
  page: Page,
  only: readonly string[] | null = null,
): Promise<readonly string[]> {
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axe);
  const rules = only === null ? '' : `, runOnly: { type: 'rule', values: ${JSON.stringify(only)} }`;
  const found = await page.evaluate<Found>(`axe.run(document, { resultTypes: ['violations']${rules} })`);
  return found.violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id} (${help}): ${html.slice(0, 160)} ${failureSummary ?? ''}`),
  );
}
