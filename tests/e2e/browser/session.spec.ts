/** How a browser comes in: by an address that works once, and stays in by its tab. */
import { once } from 'node:events';
import { existsSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { writeEntryPage } from '../../../electron/launcher/entry-page.ts';
import { expect, test } from '../fixtures.ts';
import { serve } from '../hosts.ts';
import { startChanged } from '../looking.ts';

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
  const said = [
    [address ?? '', 'This address has been used already. If it was not you who opened it, close Playworn.'],
    [new URL('/', address).href, 'Press Enter there for a new one.'],
  ] as const;
  for (const [to, sentence] of said) {
    const second = await context.newPage();
    await second.goto(to);
    await expect(second.getByText(notConnected)).toBeVisible();
    await expect(second.getByText(sentence)).toBeVisible();
  }
});

test('the page that only the owner can read leads a browser in', async ({ page, home, collection }) => {
  const { address, child } = await serve({ home, collection });
  const { url, remove } = writeEntryPage(address, home);
  await page.goto(url);
  await expect(page.getByRole('heading').first()).toBeVisible();
  await expect(page.getByText(notConnected)).toHaveCount(0);
  expect(page.url()).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/(#\/.*)?$/);
  // The page is not gone back to: its address has been used.
  expect(await page.evaluate(() => history.length)).toBeLessThanOrEqual(2);
  remove();
  const ended = once(child, 'exit');
  child.kill('SIGINT');
  await ended;
});

test('the token is in no address, and in no cookie', async ({ start, context }) => {
  const { page } = await start();
  const addresses: string[] = [];
  page.on('request', request => addresses.push(request.url()));
  // The code is exchanged by now; a page that is left before that has no token.
  await expect(page.getByRole('heading').first()).toBeVisible();
  await page.reload();
  await expect(page.getByRole('heading').first()).toBeVisible();
  const kept = await page.evaluate(() => Object.values(sessionStorage));
  expect(kept.length).toBe(1);
  for (const address of [...addresses, page.url()]) expect(address).not.toContain(kept[0]);
  expect(await context.cookies()).toEqual([]);
  expect(await page.evaluate(() => Object.values(localStorage).join())).not.toContain(kept[0]);
});

test('Ctrl+C pressed again while the collection is being closed cuts nothing short', async ({
  page,
  home,
  collection,
}) => {
  const { address, child } = await serve({ home, collection });
  await page.goto(address);
  await startChanged(page, collection);
  const ended = once(child, 'exit');
  child.stdout?.on('data', chunk => {
    if (String(chunk).includes('Closing')) for (let i = 0; i < 3; i++) child.kill('SIGINT');
  });
  child.kill('SIGINT');
  expect(await ended).toEqual([0, null]);
  expect(existsSync(join(collection, 'collection.open'))).toBe(false);
  const [backup, ...more] = readdirSync(join(collection, 'backups'));
  expect(more).toEqual([]);
  expect(readdirSync(join(collection, 'backups', backup!))).toContain('manifest.json');
});

test('a backup that fails on closing is said, and changes how the host ends', async ({
  page,
  home,
  collection,
}) => {
  const { address, child } = await serve({ home, collection });
  await page.goto(address);
  await startChanged(page, collection);
  rmSync(join(collection, 'backups'), { recursive: true, force: true });
  writeFileSync(join(collection, 'backups'), 'not a folder');
  let said = '';
  for (const stream of [child.stdout, child.stderr])
    stream?.on('data', chunk => {
      said += chunk;
    });
  const ended = once(child, 'exit');
  child.kill('SIGINT');
  expect(await ended).toEqual([1, null]);
  expect(said).toContain('No backup was made on closing');
});
