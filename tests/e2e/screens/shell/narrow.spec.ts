import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import { answer } from '../../../electron/cli/run-command.ts';
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo, settled } from '../../looking.ts';

const list = fileURLToPath(new URL('../../../fixtures/practice/my-cars.csv', import.meta.url));

/** How far the page can be scrolled sideways; what scrolls in a region of its own does not count. */
const sideways = (page: Page) =>
  page.evaluate(() => {
    const main = document.querySelector('main');
    return main ? main.scrollWidth - main.clientWidth : Number.NaN;
  });

test('the first hour can be gone through at 400 pixels, or with text at 320 %', async ({
  collection,
  start,
  picture,
}) => {
  await answer(['import', list, '--as', 'lot', '--collection', collection]);
  const { page } = await start();
  await page.setViewportSize({ width: 400, height: 850 });
  const look = async (name: string) => {
    await settled(page);
    await picture(page, `narrow-${name}`);
    expect(await sideways(page), name).toBeLessThanOrEqual(1);
    expect(await breaches(page), name).toEqual([]);
  };
  for (const [place, name] of [
    ['/', 'home'],
    ['/not-understood', 'not-understood'],
    ['/reference/names', 'names'],
    ['/sales/paste', 'paste'],
    ['/settings?part=names', 'settings'],
    ['/sales/sold', 'sold'],
    ['/reference/sets', 'sets'],
    ['/reports', 'reports'],
  ] as const) {
    await goTo(page, place);
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
    await look(name);
  }
  // The places have their names, though only their signs are to be seen.
  await expect(page.getByRole('link', { name: 'Sale records' })).toBeVisible();
  await goTo(page, '/lots/import');
  await look('import');
  await page.getByLabel('Spreadsheet to import').setInputFiles(list);
  await expect(page.getByRole('heading', { level: 2, name: 'Rows' })).toBeVisible();
  await look('import-work');
});

test('the page of a car can be read at 400 pixels and on a tablet: no photograph over what is said of it', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/cars/11');
  for (const width of [400, 768]) {
    await demo.setViewportSize({ width, height: 1100 });
    const said = demo.getByText('Restored: this is not the factory finish.').first();
    await expect(said).toBeVisible();
    await settled(demo);
    await picture(demo, `narrow-car-${width}`);
    const box = (await said.boundingBox())!;
    const photo = (await demo.getByRole('button', { name: 'Add photographs' }).boundingBox())!;
    expect(box.x + box.width).toBeLessThanOrEqual(width);
    expect(photo.y + photo.height).toBeLessThanOrEqual(box.y);
  }
});
