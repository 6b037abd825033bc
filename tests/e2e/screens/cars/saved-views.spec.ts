import type { Page } from '@playwright/test';
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo } from '../../looking.ts';

const headings = async (page: Page, list: string) =>
  (await page.getByRole('grid', { name: list }).getByRole('columnheader').allInnerTexts()).map(
    text => text.split('\n')[0]?.replace(/[↑↓]/, '').trim() ?? '',
  );
const hash = (page: Page) => page.evaluate(() => decodeURIComponent(location.hash));

test('a view of the cars is made by keyboard, saved, left, chosen again, renamed, replaced and removed', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/cars?finish=restored');
  const grid = demo.getByRole('grid', { name: 'Cars' });
  await expect(grid).toBeFocused();
  // To the heading of the grade, which is sorted by and moved before the colour.
  await demo.keyboard.press('Control+Home');
  await demo.keyboard.press('ArrowUp');
  for (let step = 0; step < 5; step += 1) await demo.keyboard.press('ArrowRight');
  await demo.keyboard.press('Enter');
  await expect(demo.getByRole('columnheader', { name: /^Grade/ })).toHaveAttribute('aria-sort', 'descending');
  const before = await headings(demo, 'Cars');
  const at = before.indexOf('Grade');
  await demo.keyboard.press('Alt+Shift+ArrowLeft');
  await expect
    .poll(() => headings(demo, 'Cars'))
    .toEqual(before.toSpliced(at, 1).toSpliced(at - 1, 0, 'Grade'));
  await demo.getByRole('button', { name: 'Columns' }).press('Enter');
  const columns = demo.getByRole('dialog', { name: 'Columns' });
  await columns.getByRole('checkbox', { name: 'Photo' }).press('Space');
  await columns.getByRole('checkbox', { name: 'Grade' }).press('Alt+ArrowUp');
  await expect
    .poll(async () => (await headings(demo, 'Cars')).slice(0, 4))
    .toEqual(['✓', 'No', 'Grade', 'Name, casting']);
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'cars-columns');
  await demo.keyboard.press('Escape');
  await demo.getByRole('button', { name: 'Saved views' }).press('Enter');
  await demo.getByRole('menuitem', { name: 'Save this view as …' }).press('Enter');
  await demo.getByRole('textbox', { name: 'Name' }).fill('Restored, best first');
  expect(await breaches(demo)).toEqual([]);
  await demo.keyboard.press('Enter');
  await expect(demo.getByRole('button', { name: 'View: Restored, best first', exact: true })).toBeVisible();
  const shown = await headings(demo, 'Cars');

  await goTo(demo, '/cars');
  await expect.poll(() => headings(demo, 'Cars')).not.toEqual(shown);
  await goTo(demo, '/cars?saved=Restored, best first');
  await expect.poll(() => headings(demo, 'Cars')).toEqual(shown);
  expect(await hash(demo)).toContain('finish=restored');
  await expect(demo.getByRole('columnheader', { name: /^Grade/ })).toHaveAttribute('aria-sort', 'descending');
  await demo.emulateMedia({ colorScheme: 'dark' });
  await picture(demo, 'cars-saved-view-dark');
  await demo.emulateMedia({ colorScheme: 'light' });
  const menu = demo.getByRole('button', { name: /^View: / });
  await menu.press('Enter');
  await demo.getByRole('menuitem', { name: /^Rename/ }).press('Enter');
  await demo.getByRole('textbox', { name: 'Name' }).fill('Best restored');
  await demo.keyboard.press('Enter');
  await expect(menu).toHaveAccessibleName('View: Best restored');
  await expect.poll(() => hash(demo)).toContain('saved=Best+restored');
  // Another view's name is refused before anything is sent; the view's own is not.
  await menu.press('Enter');
  await demo.getByRole('menuitem', { name: 'Save this view as …' }).press('Enter');
  await demo.getByRole('textbox', { name: 'Name' }).fill('Second');
  await demo.keyboard.press('Enter');
  await expect(menu).toHaveAccessibleName('View: Second');
  await menu.press('Enter');
  await demo.getByRole('menuitem', { name: 'Rename “Second” …' }).press('Enter');
  const naming = demo.getByRole('dialog', { name: 'Rename the view' });
  await naming.getByRole('textbox', { name: 'Name' }).fill('best RESTORED');
  await expect(naming.getByText('Another view has this name.')).toBeVisible();
  await expect(naming.getByRole('button', { name: 'Rename' })).toBeDisabled();
  await demo.keyboard.press('Escape');
  await menu.press('Enter');
  await demo.getByRole('menuitem', { name: 'Best restored', exact: true }).press('Enter');
  await expect(menu).toHaveAccessibleName('View: Best restored');

  // The order by name takes the place of the order by grade, and the old one comes back by undo.
  await demo.getByRole('columnheader', { name: /^Name, casting/ }).click();
  await expect(menu).toHaveAccessibleName('View: Best restored, changed');
  await menu.press('Enter');
  await demo.getByRole('menuitem', { name: 'Replace “Best restored” with this' }).press('Enter');
  await expect(menu).toHaveAccessibleName('View: Best restored');
  const sorted = demo.getByRole('columnheader', { name: /^Name, casting/ });
  await goTo(demo, '/cars');
  await expect(sorted).not.toHaveAttribute('aria-sort', /ending/);
  await goTo(demo, '/cars?saved=Best restored');
  await expect(sorted).toHaveAttribute('aria-sort', 'ascending');
  await demo.keyboard.press('Control+z');
  // The list stays as it is shown; what is saved of the view is the old order once more.
  await expect(menu).toHaveAccessibleName('View: Best restored, changed');
  await goTo(demo, '/cars');
  await goTo(demo, '/cars?saved=Best restored');
  await expect(demo.getByRole('columnheader', { name: /^Grade/ })).toHaveAttribute('aria-sort', 'descending');
  await menu.press('Enter');
  await demo.getByRole('menuitem', { name: /^Remove/ }).press('Enter');
  await expect(demo.getByRole('button', { name: 'Saved views' })).toBeVisible();
});

test('headings of sales are dragged to another place; a view says what of it is gone', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/sales');
  await expect(demo.getByRole('grid', { name: 'Sale records' })).toBeFocused();
  await demo
    .getByRole('columnheader', { name: 'Source' })
    .dragTo(demo.getByRole('columnheader', { name: 'Price' }));
  await expect
    .poll(async () => (await headings(demo, 'Sale records')).slice(0, 3))
    .toEqual(['Sold on', 'Source', 'Price']);
  await goTo(demo, '/sales?source=nobody&columns=price,mood,casting&sort=-mood');
  await demo.getByRole('button', { name: 'Saved views' }).click();
  await demo.getByRole('menuitem', { name: 'Save this view as …' }).click();
  await demo.getByRole('textbox', { name: 'Name' }).fill('Odd');
  await demo.keyboard.press('Enter');
  await expect(
    demo.getByText(
      'Left out of “Odd”, because it is no longer there: the source “nobody”, the column “mood”, sorting by “mood”.',
    ),
  ).toBeVisible();
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'sales-view-left-out');
  await demo.setViewportSize({ width: 768, height: 900 });
  await goTo(demo, '/sales?saved=Odd');
  await expect.poll(() => headings(demo, 'Sale records')).toEqual(['Sold on', 'Price', 'Casting']);
  await picture(demo, 'sales-view-narrow');
});
