import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { chromium, type Browser, type Page } from 'playwright-core';

/** The browser global set-up found or installed; null where there is none. */
export const browserProgram = process.env['TEST_CHROMIUM'] ?? null;

export function openBrowser(): Promise<Browser> {
  if (browserProgram === null) throw new Error('there is no Chromium here');
  // Chromium's own sandbox refuses root.
  const args = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  return chromium.launch({ executablePath: browserProgram, args });
}

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** What axe-core finds wrong with the page by WCAG 2.2 A and AA and its best practices: rule and elements. */
export async function violationsOn(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  return page.evaluate<string[]>(
    `axe.run(document, { runOnly: ${JSON.stringify(rules)} }).then(({ violations }) =>
       violations.map(({ id, nodes }) => id + ': ' + nodes.map(({ html }) => html).join(' | ')))`,
  );
}

/** Whether something sticks out to the side, so that a reader would have to scroll in two directions (WCAG 1.4.10). */
export const sticksOut = (page: Page): Promise<boolean> =>
  page.evaluate('document.documentElement.scrollWidth > document.documentElement.clientWidth');

/** Take a picture when somebody asked for pictures: `PAGES_SHOTS=/tmp/shots`. */
export async function shoot(page: Page, name: string): Promise<void> {
  const folder = process.env['PAGES_SHOTS'];
  if (folder !== undefined) await page.screenshot({ path: `${folder}/${name}.png`, fullPage: true });
}
