import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';

/**
 * Breaches of WCAG 2.2 AA and below on the page as it stands, each with all the elements it stands on, within the
 * dialog where one is open. All rules run on all elements, but only breaches are described: describing the two megabytes of what is sound
 * took most of the time.
 */
export const breachesNow = async (page: Page): Promise<string[]> => {
  // Nothing beneath an open dialog can be used, and half of it may lie behind the dialog's edge.
  const dialog = '[role="dialog"][aria-modal="true"]';
  const builder = new AxeBuilder({ page });
  if ((await page.locator(dialog).count()) > 0) builder.include(dialog);
  const { violations } = await builder
    // In the page itself, not with a second one beside it: there are no frames.
    .setLegacyMode(true)
    .options({
      resultTypes: ['violations'],
      runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] },
    })
    .analyze();
  return violations.map(
    ({ id, help, nodes }) => `${id}: ${help}\n${nodes.map(node => `  ${node.html}`).join('\n')}`,
  );
};
