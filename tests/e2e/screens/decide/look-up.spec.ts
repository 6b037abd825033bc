import { expect, test } from '../../fixtures.ts';
import { breaches, goTo, inScheme, settled } from '../../looking.ts';

test('Home and Decide say which sales to look up next, and what they are worth', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/');
  const home = demo.getByRole('region', { name: 'What to look up next' });
  await expect(home).toBeVisible();
  const first = home.getByRole('listitem').first();
  await expect(first).toContainText(
    /^3 sales of .+ in about C.+ worth some [\d.,]+ to what you decide on \d+ cars?$/,
  );
  const said = await first.textContent();
  await home.scrollIntoViewIfNeeded();
  await settled(demo);
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'look-up-home');
  await goTo(demo, '/decide');
  const line = demo.getByRole('region', { name: 'What to look up next' });
  await expect(line).toContainText(said!);
  await line.getByText(/^\d+ more$/).click();
  await expect(line.getByRole('listitem').first()).toBeVisible();
  await inScheme(demo, 'dark');
  await settled(demo);
  expect(await breaches(demo)).toEqual([]);
  await picture(demo, 'look-up-decide');
  await line.getByRole('link').first().click();
  await expect(demo).toHaveURL(/#\/sales\/paste/);
});
