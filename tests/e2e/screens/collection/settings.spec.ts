import { expect, test } from '../../fixtures.ts';
import { breaches, goTo } from '../../looking.ts';

test('assumptions are changed as one version with a note, and undone', async ({ demo, picture }) => {
  await goTo(demo, '/settings');
  const figure = demo.getByRole('textbox', { name: 'original, C6, percent of C10' });
  await expect(figure).toHaveValue('38');
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'settings');
  await figure.fill('150');
  await figure.press('Enter');
  await expect(figure).toHaveAttribute('aria-invalid', 'true');
  await figure.fill('50');
  await figure.press('Tab');
  // A C7 must not be worth less than a C6, so that it is carried along.
  await expect(demo.getByRole('textbox', { name: 'original, C7, percent of C10' })).toHaveValue('50');
  await expect(demo.getByText('2 figures changed')).toBeVisible();
  await demo
    .getByRole('textbox', { name: 'Reason for the change (optional)' })
    .fill('Rubbed cars sell well here');
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'settings-changed');
  await demo.getByRole('button', { name: 'Save as version 1' }).click();
  await expect(demo.getByText('version 1: Rubbed cars sell well here')).toBeVisible();
  await expect(demo.getByText('2 figures changed')).toBeHidden();
  await demo.keyboard.press('Escape');
  await demo.getByRole('button', { name: 'Undo', exact: true }).first().click();
  await expect(demo.locator('#assumptions').getByText('the starting points, unchanged')).toBeVisible();
  await expect(figure).toHaveValue('38');
});

test('rates are set and removed, and parts are counted in their grid', async ({ demo }) => {
  await goTo(demo, '/settings');
  const currency = demo
    .getByRole('region', { name: 'Exchange rates' })
    .getByRole('combobox', { name: 'Currency' });
  await currency.fill('JPY');
  await currency.press('Enter');
  await demo.getByRole('textbox', { name: 'USD for one JPY' }).fill('0,0068');
  await demo.keyboard.press('Enter');
  const rate = demo.getByRole('row').filter({ hasText: 'JPY' });
  await expect(rate).toContainText('0.0068');
  await rate.getByRole('button', { name: /^Remove the rate of JPY/ }).click();
  await expect(rate).toHaveCount(0);

  const shelf = demo.getByRole('grid', { name: 'Parts shelf' });
  const axle = shelf.getByRole('row').filter({ hasText: 'Axle wire' });
  await axle.getByRole('gridcell').nth(1).click();
  await demo.keyboard.type('40');
  await demo.keyboard.press('Enter');
  await expect(axle.getByRole('gridcell').nth(1)).toHaveText('40');
});

test('the collection is backed up, checked, and put back after asking once more', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/settings');
  const name = demo.getByRole('textbox', { name: 'Name', exact: true });
  await expect(name).not.toHaveValue('');
  const before = await name.inputValue();
  await demo.getByRole('button', { name: 'Back up now' }).click();
  await expect(demo.getByText(/^Backed up as /)).toBeVisible();
  await name.fill('Changed since');
  await name.press('Enter');
  await expect(demo.getByText('Settings changed')).toBeVisible();
  await demo.getByRole('button', { name: 'Check the collection' }).click();
  await expect(demo.getByText(/^The collection is sound/)).toBeVisible();
  await picture(demo, 'settings-checked');
  await demo
    .getByRole('button', { name: /^Restore the backup of/ })
    .first()
    .click();
  const dialog = demo.getByRole('dialog', { name: 'Restore this backup?' });
  await expect(dialog.getByRole('button', { name: 'Leave it as it is' })).toBeFocused();
  expect(await breaches(demo)).toEqual([]);
  await dialog.getByRole('button', { name: 'Restore this backup' }).click();
  await expect(demo.getByText(/^Restored\./)).toBeVisible();
  await expect(name).toHaveValue(before);
});

test('past worths are held against what cars brought, and today’s are kept', async ({ demo, picture }) => {
  await goTo(demo, '/settings');
  const heldUp = demo.getByRole('region', { name: 'How the estimates have held up' });
  await expect(heldUp.getByText(/^Over 6 sales, /)).toBeVisible();
  await expect(heldUp.getByRole('row')).toHaveCount(7);
  await heldUp.scrollIntoViewIfNeeded();
  await picture(demo, 'settings-held-up');
  await demo.getByRole('button', { name: 'Save the values' }).click();
  await expect(demo.getByText(/^Values of \d+ cars saved for (31 Oct|Oct 31,) 2026$/)).toBeVisible();
});
