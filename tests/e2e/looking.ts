/** Going to a place of the screens, and looking whether everyone can use what stands there. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';

export const goTo = (page: Page, place: string): Promise<void> =>
  page.evaluate(hash => {
    location.hash = hash;
  }, place);

/** Breaches of WCAG 2.2 AA and below, in light and in dark, each with where it stands. */
export const breaches = async (page: Page): Promise<string[]> => {
  const found: string[] = [];
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    // Colours that fade from one scheme to the other are judged once they have arrived.
    await page.waitForTimeout(300);
    const { violations } = await new AxeBuilder({ page })
      .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
      .analyze();
    found.push(...violations.map(({ id, nodes }) => `${colorScheme}: ${id} at ${nodes[0]?.html}`));
  }
  await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
  return found;
};
