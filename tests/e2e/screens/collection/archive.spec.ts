import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo } from '../../looking.ts';

test('an archive is made, checked, restored and opened from Settings', async ({ demo, home, picture }) => {
  await goTo(demo, '/settings?part=archive');
  const make = demo.getByRole('form', { name: 'Make an archive' });
  const out = join(home, 'archive.zip');
  await make.getByLabel('Write the archive to').fill(out);
  await make.getByRole('checkbox', { name: /^With a report/ }).uncheck();
  await make.getByRole('button', { name: 'Make the archive' }).click();
  await expect(make.getByText(/^The archive is written: \d+ files/)).toBeVisible();
  expect(existsSync(out)).toBe(true);
  const restore = demo.getByRole('form', { name: 'Check or restore an archive' });
  await restore.getByLabel('Archive', { exact: true }).fill(out);
  await restore.getByRole('button', { name: 'Check it' }).click();
  await expect(restore.getByText(/^All \d+ files are as they were archived/)).toBeVisible();
  await restore.scrollIntoViewIfNeeded();
  await picture(demo, 'settings-archive');
  expect(await breaches(demo)).toEqual([]);

  const bytes = readFileSync(out);
  // Within the first photograph's bytes.
  const at = bytes.indexOf('/data/photos/') + 5000;
  bytes[at] = bytes[at]! ^ 255;
  const damaged = join(home, 'damaged.zip');
  writeFileSync(damaged, bytes);
  await restore.getByLabel('Archive', { exact: true }).fill(damaged);
  await restore.getByRole('button', { name: 'Check it' }).click();
  await expect(restore.getByRole('listitem')).toHaveText(
    /^data\/photos\/.* (cannot be read|is not as it was archived)\.$/,
  );

  await restore.getByLabel('Archive', { exact: true }).fill(out);
  await restore.getByLabel('Restore it to').fill(join(home, 'back'));
  await restore.getByRole('button', { name: 'Restore it' }).click();
  await expect(restore.getByText('The database is just as it was archived.')).toBeVisible();
  await restore.getByRole('button', { name: 'Open the restored collection' }).click();
  await expect(demo.getByRole('heading', { level: 1 })).toBeVisible();
  expect(existsSync(join(home, 'back', 'collection.sqlite'))).toBe(true);
});

test('a scanned inventory number and Enter go straight to its car', async ({ demo }) => {
  await goTo(demo, '/lots');
  await demo.keyboard.press('Control+K');
  await expect(demo.getByRole('textbox', { name: 'Search everything' })).toBeFocused();
  // As a scanner types: all at once, with Enter behind it.
  await demo.keyboard.type('q-014\n');
  await expect(demo).toHaveURL(/#\/cars\/\d+$/);
  await expect(demo.getByText('Q-014', { exact: true }).first()).toBeVisible();
  await expect(demo.getByRole('textbox', { name: 'Search everything' })).toHaveCount(0);
});
