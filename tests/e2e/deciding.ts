/** Decide, where many a walk through the program begins. */
import { expect, type Locator, type Page } from '@playwright/test';
import { goTo } from './looking.ts';

/** The list of Decide, its cursor ready; `filter` as in its address, such as `recommendation=restore`. */
export const carsToDecide = async (page: Page, filter = ''): Promise<Locator> => {
  await goTo(page, filter === '' ? '/decide' : `/decide?${filter}`);
  const grid = page.getByRole('grid', { name: 'Cars to decide' });
  await expect(grid).toBeFocused();
  return grid;
};
