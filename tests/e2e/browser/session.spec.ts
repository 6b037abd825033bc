/** How a browser comes in: by an address that works once, and stays in by its tab. */
import { expect, test } from '../fixtures.ts';

const notConnected = 'Playworn is not connected';

test('the code is erased from the address, and a reload stays in', async ({ start }) => {
  const { page } = await start();
  await expect(page.getByRole('heading').first()).toBeVisible();
  expect(page.url()).not.toContain('code=');
  await page.reload();
  await expect(page.getByRole('heading').first()).toBeVisible();
  await expect(page.getByText(notConnected)).toHaveCount(0);
});

test('the same address does not let a second tab in, nor does the bare one', async ({
  start,
  context,
  expectedComplaints,
}) => {
  expectedComplaints.push(/401/);
  const { address } = await start();
  for (const to of [address ?? '', new URL('/', address).href]) {
    const second = await context.newPage();
    await second.goto(to);
    await expect(second.getByText(notConnected)).toBeVisible();
  }
});

test('the token is in no address, and in no cookie', async ({ start, context }) => {
  const { page } = await start();
  const addresses: string[] = [];
  page.on('request', request => addresses.push(request.url()));
  await page.reload();
  await expect(page.getByRole('heading').first()).toBeVisible();
  const kept = await page.evaluate(() => Object.values(sessionStorage));
  expect(kept.length).toBe(1);
  for (const address of [...addresses, page.url()]) expect(address).not.toContain(kept[0]);
  expect(await context.cookies()).toEqual([]);
  expect(await page.evaluate(() => Object.values(localStorage).join())).not.toContain(kept[0]);
});
