import { runAction } from '../../../../db/history/history.ts';
import { openCollection } from '../../../../db/open-collection.ts';
import { saveBeliefs } from '../../../../db/records/worth/beliefs.ts';
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo } from '../../looking.ts';

test('what the owner believes is said, changed and taken back, on settings and on a casting, by keyboard', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/settings');
  const beliefs = demo.getByRole('region', { name: 'What you believe' });
  await expect(beliefs.getByText('Nothing said yet.')).toBeVisible();
  const about = beliefs.getByRole('combobox', { name: 'About' });
  await about.focus();
  await demo.keyboard.type('Weatherglass');
  // Whoever chooses by arrow sees first what there is to choose.
  await expect(demo.getByRole('option', { name: /Weatherglass/ }).first()).toBeVisible();
  await demo.keyboard.press('ArrowDown');
  await demo.keyboard.press('Enter');
  // Chosen again it stays chosen.
  await about.click();
  await demo
    .getByRole('option', { name: /Weatherglass/ })
    .first()
    .click();
  await expect(about).toHaveValue(/Weatherglass/);
  await beliefs.getByRole('textbox', { name: 'Brings from' }).fill('90');
  const to = beliefs.getByRole('textbox', { name: 'Up to' });
  await to.fill('60');
  await to.press('Tab');
  await expect(beliefs.getByRole('alert')).toHaveText('The first amount is above the second.');
  await expect(beliefs.getByRole('button', { name: 'Add' })).toBeDisabled();
  await to.fill('130');
  await to.press('Enter');
  const row = beliefs.getByRole('row').filter({ hasText: 'A common Weatherglass' });
  await expect(row).toContainText('90.00 – 130.00');
  await expect(row).toContainText('No sale since');
  expect(await breaches(demo)).toEqual([]);
  await beliefs.scrollIntoViewIfNeeded();
  await picture(demo, 'settings-beliefs');

  await row.getByRole('button', { name: 'Change what a common Weatherglass brings' }).click();
  const changed = beliefs.getByRole('row').getByRole('textbox', { name: 'Up to' });
  await changed.fill('150');
  await changed.press('Enter');
  await expect(row).toContainText('90.00 – 150.00');
  await demo.getByRole('button', { name: 'Undo', exact: true }).first().click();
  await expect(row).toContainText('90.00 – 130.00');

  await goTo(demo, '/reference');
  await demo.getByRole('link', { name: 'Weatherglass' }).first().click();
  const here = demo.getByRole('region', { name: 'What you believe' });
  await expect(here.getByRole('row').filter({ hasText: 'A common Weatherglass' })).toBeVisible();
  expect(await breaches(demo)).toEqual([]);
  await here.scrollIntoViewIfNeeded();
  await picture(demo, 'casting-beliefs');
  await here.getByRole('button', { name: 'Take back what a common Weatherglass brings' }).click();
  await expect(here.getByText('Nothing said yet.')).toBeVisible();
});

test('what was believed stands among the estimates that sales since have tried', async ({
  start,
  demoCollection,
}) => {
  const at = '2026-03-14T09:26:53.000Z';
  const collection = await openCollection(demoCollection, { at, host: 'browser' });
  await runAction(collection, 'Believed', at, async trx => {
    const { id } = await trx
      .selectFrom('casting')
      .select('id')
      .where('name', '=', 'Weatherglass')
      .executeTakeFirstOrThrow();
    const car = { level: 'casting', of: id, grade: 8, finishState: 'original', note: '' } as const;
    await saveBeliefs(trx, [{ ...car, low: 100, high: 200, currency: 'USD', believedOn: '2020-01-01' }]);
  });
  await collection.close({ at });
  const { page } = await start();
  await goTo(page, '/settings');
  const estimates = page.getByRole('region', { name: 'How the estimates have held up' });
  await expect(estimates.getByRole('listitem')).toHaveText(
    /^A common Weatherglass.*: \d+ sales since, typically \d+ % above its middle: the sales say otherwise, and overrule it\.$/,
  );
});
