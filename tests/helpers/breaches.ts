import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';

/** Breaches of WCAG 2.2 AA and below on the page as it stands, each with all the elements it stands on. */
export const breachesNow = async (page: Page): Promise<string[]> => {
  const { violations } = await new AxeBuilder({ page })
    .setLegacyMode(true)
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
    .analyze();
  return violations.map(
    ({ id, help, nodes }) => `${id}: ${help}\n${nodes.map(node => `  ${node.html}`).join('\n')}`,
  );
};
