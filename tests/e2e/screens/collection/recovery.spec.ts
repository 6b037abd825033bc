/**
 * A collection that cannot be opened, and the way back from each state; the real files are damaged as
 * disks and people do.
 */
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import Database from 'better-sqlite3';
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo } from '../../looking.ts';

test.describe.configure({ timeout: 240_000 });

const title = 'This collection cannot be opened';
const file = (dir: string) => join(dir, 'collection.sqlite');
const backupsOf = (dir: string) => readdirSync(join(dir, 'backups'));

/** What can become of the database of a closed collection, and what the page says of it. */
const states: [string, (dir: string) => void, RegExp][] = [
  ['empty', dir => writeFileSync(file(dir), ''), /collection\.sqlite, is empty/],
  [
    'cut in half',
    dir => truncateSync(file(dir), Math.floor(readFileSync(file(dir)).length / 2)),
    /is cut short: it has [\d,]+ bytes and should have [\d,]+/,
  ],
  [
    'overwritten',
    dir => {
      const bytes = readFileSync(file(dir));
      writeFileSync(file(dir), bytes.fill('x', 0, 100));
    },
    /no longer begins as a database does/,
  ],
  ['missing', dir => rmSync(file(dir)), /collection\.sqlite, is gone/],
  [
    'newer',
    dir => {
      const database = new Database(file(dir));
      database.pragma('user_version = 9999');
      database.close();
    },
    /newer/i,
  ],
];

/** Makes a backup by the screens, and says so much: the demo is made without one. */
const backUp = async (page: Page): Promise<void> => {
  await goTo(page, '/settings');
  await page.getByRole('button', { name: 'Back up now' }).click();
  await expect(page.getByText(/^Backed up as /)).toBeVisible();
};

const cars = (page: Page) => page.getByRole('navigation').first();

for (const [name, damage, says] of states)
  test(`a database that is ${name}: said, and restored from its backup`, async ({
    start,
    demoCollection,
    picture,
  }) => {
    const first = await start();
    await backUp(first.page);
    await first.close();
    damage(demoCollection);

    const { page } = await start();
    await expect(page.getByRole('heading', { level: 1, name: title })).toBeVisible();
    await expect(page.getByRole('alert').first()).toContainText(says);
    const nearest = page.getByRole('button', { name: 'Restore this one …' });
    await expect(nearest).toBeVisible({ timeout: 30_000 });
    await expect(page.getByRole('heading', { name: /^The nearest to what you last had: / })).toBeVisible();
    await expect(page.getByText(/^90 cars, 5 lots, \d+ photographs\. Read in full and sound/)).toBeVisible();
    expect(await breaches(page)).toEqual([]);
    await picture(page, `recovery-${name.replaceAll(' ', '-')}`);
    const before = backupsOf(demoCollection);

    await nearest.focus();
    await page.keyboard.press('Enter');
    const dialog = page.getByRole('dialog', { name: 'Restore this backup?' });
    await expect(dialog.getByRole('button', { name: 'Leave it as it is' })).toBeFocused();
    await expect(dialog).toContainText(
      name === 'missing' ? 'There is no present state' : 'The present state is saved',
    );
    expect(await breaches(page)).toEqual([]);
    await dialog.getByRole('button', { name: 'Restore this backup' }).click();
    await expect(cars(page)).toBeVisible({ timeout: 30_000 });
    await expect(page.getByRole('heading', { name: title })).toHaveCount(0);
    // What was there is saved beside the backups that were there.
    const after = backupsOf(demoCollection);
    expect(after).toEqual(expect.arrayContaining(before));
    expect(after.length).toBe(before.length + (name === 'missing' ? 0 : 1));
    await page.reload();
    await expect(cars(page)).toBeVisible();
  });

test('without a backup the page says what is left, and sets the damaged database aside', async ({
  start,
  demoCollection,
  picture,
}) => {
  rmSync(join(demoCollection, 'backups'), { recursive: true, force: true });
  writeFileSync(file(demoCollection), '');
  const { page } = await start();
  await expect(page.getByRole('heading', { level: 1, name: title })).toBeVisible();
  await expect(page.getByText('There is no backup in this folder that can be restored.')).toBeVisible();
  expect(await breaches(page)).toEqual([]);
  await page.setViewportSize({ width: 420, height: 800 });
  await picture(page, 'recovery-none-narrow');
  await page.getByRole('button', { name: 'Set the damaged one aside …' }).click();
  await page.getByRole('button', { name: 'Set it aside', exact: true }).click();
  await expect.poll(() => existsSync(file(demoCollection))).toBe(false);
  expect(backupsOf(demoCollection)).toEqual([expect.stringMatching(/^set-aside-/)]);
  await expect(page.getByText('A damaged state, set aside')).toBeVisible();
});

test('a new collection is not made over backups: the form leads to them', async ({
  start,
  demoCollection,
  home,
  picture,
  expectedComplaints,
}) => {
  expectedComplaints.push(/422|507/);
  const first = await start();
  await backUp(first.page);
  await first.close();
  rmSync(file(demoCollection));
  const { page } = await start();
  await page.getByRole('button', { name: 'Start a new collection, or see the demo' }).click();
  await expect(page.getByRole('link', { name: 'See what is wrong, and its backups' })).toBeVisible();
  await page.getByRole('button', { name: 'Start empty' }).click();
  await expect(page.getByLabel('Folder', { exact: true })).toHaveValue(demoCollection);
  await page.getByRole('button', { name: 'Create the collection' }).click();
  await expect(page.getByText('A new collection cannot be made over them.')).toBeVisible();
  expect(await breaches(page)).toEqual([]);
  await picture(page, 'first-start-over-backups');
  expect(existsSync(file(demoCollection))).toBe(false);
  await page.getByRole('button', { name: 'See them, and restore one' }).click();
  await expect(page.getByRole('heading', { level: 1, name: title })).toBeVisible();
  await expect(page.getByRole('button', { name: 'Restore this one …' })).toBeVisible();
  // Another folder is still open to be chosen, and one without a collection is said in place.
  await page.getByRole('button', { name: 'Open another folder' }).click();
  await page.getByLabel('Folder of the collection').fill(join(home, 'nothing'));
  await page.getByRole('button', { name: 'Open', exact: true }).click();
  await expect(page.getByText(/There is no collection in .*nothing/)).toBeVisible();
});

test('a damaged folder opened beside an open collection shows its backups, and leads back', async ({
  start,
  demoCollection,
  home,
  expectedComplaints,
}) => {
  expectedComplaints.push(/507/);
  const other = join(home, 'Other');
  const { page } = await start();
  await backUp(page);
  const [name] = backupsOf(demoCollection);
  await page.getByRole('button', { name: /demo/ }).first().click();
  await page.getByRole('menuitem', { name: 'Open another collection …' }).click();
  mkdirSync(join(other, 'backups', name!), { recursive: true });
  for (const part of readdirSync(join(demoCollection, 'backups', name!)))
    copyFileSync(join(demoCollection, 'backups', name!, part), join(other, 'backups', name!, part));
  await page.getByLabel('Folder of the collection').fill(other);
  await page.getByRole('button', { name: 'Open', exact: true }).click();
  await expect(page.getByRole('heading', { level: 1, name: title })).toBeVisible();
  await page.getByRole('button', { name: 'Back to the open collection' }).click();
  await expect(cars(page)).toBeVisible();
});
