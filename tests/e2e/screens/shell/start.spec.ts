import { expect, test } from '../../fixtures.ts';

test('without a collection, the first start is shown', async ({ screens, picture }) => {
  await expect(screens.getByRole('heading', { level: 1 })).toBeVisible();
  await picture(screens, 'first-start');
});

test('with a collection, its screens are shown', async ({ demo, picture }) => {
  await expect(demo.getByRole('navigation').first()).toBeVisible();
  await picture(demo, 'home');
});
