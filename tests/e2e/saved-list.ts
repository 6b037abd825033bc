import { readFileSync } from 'node:fs';
import { expect, type Page } from '@playwright/test';
import { readRfc4180 } from '../helpers/rfc-4180.ts';

/** Saves a list by its menu, and reads the CSV that came; `way` is what the menu calls it. */
export const savedList = async (page: Page, way: string) => {
  await page.getByRole('button', { name: 'Export' }).press('Enter');
  const item = page.getByRole('menuitem', { name: way });
  await expect(item).toBeVisible();
  const [download] = await Promise.all([page.waitForEvent('download'), item.click()]);
  const [heads = [], ...rows] = readRfc4180(readFileSync(await download.path(), 'utf8'));
  const column = (name: string) => rows.map(row => row[heads.indexOf(name)] ?? '');
  return { name: download.suggestedFilename(), heads, rows, column };
};
