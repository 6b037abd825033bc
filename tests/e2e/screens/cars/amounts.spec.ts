/** Amounts that are typed into a form: none is lost by who presses its button at once. */
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo } from '../../looking.ts';

test('a form takes an amount as it is typed, and does not go out with one that cannot be read', async ({
  demo,
}) => {
  await goTo(demo, '/cars/4');
  const books = demo.getByRole('region', { name: 'Cost and sale' });
  await books.getByRole('button', { name: 'Add an expense' }).click();
  const add = books.getByRole('button', { name: 'Add', exact: true });
  await books.getByRole('textbox', { name: 'What for' }).fill('axle tube');
  await expect(add).toBeDisabled();
  const amount = books.getByRole('textbox', { name: 'Amount' });
  await amount.pressSequentially('7.5');
  await expect(amount).toBeFocused();
  await expect(amount).toHaveValue('7.5');
  await expect(add).toBeEnabled();
  await add.click();
  await expect(books.getByText('axle tube')).toBeVisible();
  await expect(books.getByText('7.50').first()).toBeVisible();

  await books.getByRole('button', { name: 'Sell this car' }).click();
  await books.getByRole('textbox', { name: 'Proceeds' }).fill('120');
  const fees = books.getByRole('textbox', { name: 'Fees' });
  await fees.fill('about ten');
  await books.getByRole('textbox', { name: 'Buyer' }).press('Enter');
  await expect(fees).toHaveAttribute('aria-invalid', 'true');
  await expect(fees).toBeFocused();
  expect(await breaches(demo)).toEqual([]);
  await fees.fill('10');
  await books.getByRole('button', { name: 'Sell it' }).click();
  await expect(books.getByRole('button', { name: 'Undo this sale' })).toBeVisible();
});
