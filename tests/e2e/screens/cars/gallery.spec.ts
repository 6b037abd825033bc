import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { breachesNow } from '../../../helpers/breaches.ts';
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo } from '../../looking.ts';

test('a gallery opens from its folder, loads nothing from elsewhere, and can be worked by keyboard', async ({
  demo,
  home,
  context,
  picture,
}) => {
  await goTo(demo, '/reports');
  const section = demo.getByRole('region', { name: 'Gallery' });
  const folder = join(home, 'gallery');
  await section.getByLabel('Write it to').fill(folder);
  await section.getByRole('button', { name: 'Make the gallery' }).click();
  await expect(section.getByText(folder)).toBeVisible();
  await section.scrollIntoViewIfNeeded();
  await picture(demo, 'reports-gallery');
  expect(await breaches(demo)).toEqual([]);
  expect(existsSync(join(folder, 'index.html'))).toBe(true);

  const page = await context.newPage();
  const asked: string[] = [];
  const complaints: string[] = [];
  // axe itself asks for the style's text, which the page's policy refuses it.
  let examining = false;
  const examined = async () => {
    examining = true;
    const found = await breachesNow(page);
    examining = false;
    return found;
  };
  page.on('console', message => {
    if (!examining) complaints.push(message.text());
  });
  page.on('pageerror', error => complaints.push(String(error)));
  await page.route('**/*', route => {
    const url = route.request().url();
    asked.push(url);
    return url.startsWith('file:') ? route.continue() : route.abort();
  });
  const at = (name: string) => pathToFileURL(join(folder, name)).href;
  await page.goto(at('index.html'));
  await expect(page.getByRole('listitem')).toHaveCount(83);
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    await picture(page, `gallery-wall-${colorScheme}`);
    expect(await examined()).toEqual([]);
  }
  await page.getByRole('searchbox', { name: 'Find a car' }).fill('vanewright damson');
  const found = page.getByRole('listitem').filter({ visible: true });
  await expect(found.first()).toContainText('Vanewright');
  expect(await found.count()).toBeLessThan(10);
  const restored = page.getByRole('link').filter({ hasText: 'Q-011' });
  await restored.focus();
  await page.keyboard.press('Enter');
  await expect(page.getByText('Restored: this is not the factory finish.')).toBeVisible();
  const line = page.getByRole('slider', { name: 'Line between before and after, left side' });
  await expect(line).toHaveAttribute('aria-valuetext', '50 % before, 50 % after');
  await line.focus();
  await page.keyboard.press('Home');
  await expect(line).toHaveAttribute('aria-valuetext', '0 % before, 100 % after');
  await page.keyboard.press('ArrowRight');
  await expect(line).toHaveAttribute('aria-valuetext', '1 % before, 99 % after');
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    await picture(page, `gallery-car-${colorScheme}`);
    expect(await examined()).toEqual([]);
  }
  await page.setViewportSize({ width: 390, height: 800 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  const broken = await page.evaluate(() =>
    [...document.images].filter(image => image.complete && image.naturalWidth === 0).map(({ src }) => src),
  );
  expect(broken).toEqual([]);
  expect(complaints).toEqual([]);
  expect(asked.filter(url => !url.startsWith('file:'))).toEqual([]);
  expect(asked.length).toBeGreaterThan(10);
});
