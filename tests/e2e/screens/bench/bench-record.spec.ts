import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import Database from 'better-sqlite3';
import { tableHashes } from '../../../../db/backup/manifest.ts';
import { trackedTables } from '../../../../db/history/tracking.ts';
import { hostClock } from '../../../helpers/hooks/host-clock.ts';
import { picture as photograph } from '../../../helpers/pictures/pictures.ts';
import { readRfc4180 } from '../../../helpers/rfc-4180.ts';
import { carsToDecide } from '../../deciding.ts';
import { expect, test } from '../../fixtures.ts';
import { goTo, settled } from '../../looking.ts';

test.skip(
  ({ host }) => host === 'window',
  'SKIPPED in the window: the clock of its service cannot be set from outside.',
);

/** Every row of a collection that history tracks, as a hash for each table, read while it is open. */
const rowsOf = (collection: string): Record<string, unknown> => {
  const sqlite = new Database(join(collection, 'collection.sqlite'), { readonly: true });
  try {
    const hashes = tableHashes(sqlite);
    return Object.fromEntries(trackedTables(sqlite).map(({ name }) => [name, hashes[name]]));
  } finally {
    sqlite.close();
  }
};

/** Saves what was made, as a browser does. */
const save = async (page: Page, path: string): Promise<void> => {
  const button = page.getByRole('button', { name: 'Save it' });
  const [download] = await Promise.all([page.waitForEvent('download'), button.click()]);
  await download.saveAs(path);
};

test('a rough car becomes a restored one, said to be so everywhere, and undo brings all back', async ({
  start,
  demoCollection,
  home,
  picture,
}) => {
  const clock = hostClock(home, new Date('2026-11-02T09:00:00Z'));
  const { page } = await start({ env: clock.env });
  await carsToDecide(page, 'recommendation=restore&finish=original');
  const bare = rowsOf(demoCollection);

  // The season, and the car on the bench.
  await page.keyboard.press('Space');
  await page.getByRole('button', { name: 'Put 1 on the bench' }).click();
  const job = page.getByRole('region', { name: /^Job on / });
  await expect(job).toBeVisible();
  const number = ((await job.getAttribute('aria-label')) ?? '').replace('Job on ', '');
  const carId = Number(
    /\/cars\/(\d+)/.exec(
      (await job.getByRole('link', { name: number, exact: true }).getAttribute('href')) ?? '',
    )?.[1],
  );
  await settled(page);

  // Each line of the plan says why it is there.
  const steps = job.getByRole('listitem').filter({ has: page.getByRole('button', { name: /^Done: / }) });
  const lines = await steps.locator('[aria-expanded] > span:last-child').allTextContents();
  expect(lines.length).toBeGreaterThan(15);
  for (const line of lines) expect(line).toMatch(/\d.* · \S/);

  // The clock runs twice on one step, with a photograph before and after.
  const current = job.locator('[aria-current="step"]');
  for (const counted of ['30 min', '1 h']) {
    await page.keyboard.press('t');
    await expect(current.getByRole('timer')).toBeVisible();
    await settled(page);
    clock.jump(30);
    await page.keyboard.press('t');
    await expect(current.getByText(counted, { exact: true })).toBeVisible();
    await settled(page);
  }
  for (const [i, moment] of ['before', 'after'].entries()) {
    await current
      .locator('label')
      .filter({ hasText: new RegExp(`^${moment}$`) })
      .click();
    await current.locator('input[type=file]').setInputFiles({
      name: `${moment}.jpg`,
      mimeType: 'image/jpeg',
      buffer: Buffer.from(await photograph('jpeg', { background: i === 0 ? '#a33' : '#33a' })),
    });
    await expect(current.getByRole('figure')).toHaveCount(i + 1);
    await settled(page);
  }

  // A part of a donor, and one from the shelf.
  const partButton = job.getByRole('button', { name: 'Part…' });
  await partButton.click();
  await job.getByLabel('From', { exact: true }).selectOption('donor');
  await job.getByLabel('Donor car').selectOption({ index: 1 });
  await job.getByLabel('Which part it is').selectOption('glazing');
  await job.getByRole('button', { name: 'Add the part' }).click();
  await expect(job.getByText(/glazing original, from /)).toBeVisible();
  await partButton.click();
  await job.getByLabel('Part on the shelf').selectOption({ index: 1 });
  await job.getByLabel('Which part it is').selectOption('wheels');
  await job.getByRole('button', { name: 'Add the part' }).click();
  await expect(job.getByText(/from the shelf/)).toBeVisible();
  await settled(page);
  expect(rowsOf(demoCollection).part).not.toEqual(bare.part);

  // The look before closing, glazing front and rear.
  await job.getByRole('button', { name: /^Look it over before/ }).click();
  for (const where of [/Glazing in front/, /Glazing at the rear/]) {
    await job.getByRole('checkbox', { name: where }).check();
    await settled(page);
  }
  const before = rowsOf(demoCollection);

  await job.getByRole('button', { name: /^Finish…/ }).click();
  await page.getByLabel('Overall grade').fill('C8.5');
  await page.getByRole('textbox', { name: /^Colou?r$/ }).fill('Night violet');
  await page.getByLabel('Closed with').selectOption('screw');
  await page.getByLabel('Left as it was').fill('scratches in the glazing, too deep');
  await page.getByRole('button', { name: /^Record the work/ }).click();
  // The form shows the sentence too, before it is recorded.
  await expect(page).toHaveURL(/#\/cars\/\d+$/);
  const disclosure = page.getByText('Restored: this is not the factory finish.').first();
  await expect(disclosure).toBeVisible();
  await settled(page);

  const told = [
    /Restored: this is not the factory finish/,
    /It wears Night violet; it was made in [A-Z]/,
    /another colou?r/,
    /visible post closure/,
    /scratches in the glazing, too deep/,
  ];
  const tells = (text: string, where: string) => {
    const plain = text.replaceAll(/\s+/g, ' ');
    for (const pattern of told) expect(plain, where).toMatch(pattern);
  };
  tells((await disclosure.textContent()) ?? '', 'the page');
  await picture(page, 'record-page');

  // The list and the photo wall.
  await goTo(page, `/cars?text=${number}`);
  const row = page.getByRole('row').filter({ hasText: number });
  await expect(row).toContainText('C8.5, restored');
  await expect(row).toContainText(/Night violet, was /);
  await picture(page, 'record-list');
  await goTo(page, `/cars?view=wall&text=${number}`);
  const card = page.getByRole('listitem').filter({ hasText: number });
  await expect(card).toContainText('C8.5, restored');
  await expect(card).toContainText(/Night violet, was /);
  await settled(page);
  await picture(page, 'record-wall');

  // The season says what was reached beside what was expected.
  await goTo(page, '/decide');
  await page.getByRole('tab', { name: /^Season/ }).click();
  const outlook = page.getByRole('table', { name: 'Reached, ahead and expected' });
  await expect(outlook.getByRole('row', { name: /^Reached 1 car / })).toBeVisible();
  await expect(outlook.getByRole('row', { name: /^Ahead 0 cars / })).toBeVisible();
  await outlook.scrollIntoViewIfNeeded();
  await settled(page);
  await picture(page, 'record-season');

  // The report as PDF and as CSV.
  await goTo(page, '/reports');
  await page.getByLabel('Photographs').uncheck();
  await page.getByRole('button', { name: 'Make the PDF' }).click();
  const pdf = join(home, 'report.pdf');
  await save(page, pdf);
  const text = execFileSync('pdftotext', [pdf, '-'], { encoding: 'utf8', maxBuffer: 64_000_000 });
  const pages = text.split('\f').map(one => one.replaceAll(/\s+/g, ' '));
  // Another car of the demo wears that colour as well.
  const entry = pages.find(one => one.includes('It wears Night violet') && one.includes(number))!;
  expect(entry).toContain(number);
  expect(entry).toMatch(/Night violet, was /);
  expect(entry).toContain('C8.5, restored');
  tells(entry, 'the PDF');
  await page.getByRole('radio', { name: /CSV/ }).check();
  await page.getByRole('button', { name: 'Make the CSV' }).click();
  const csv = join(home, 'report.csv');
  await save(page, csv);
  const [heads, ...rows] = readRfc4180(readFileSync(csv, 'utf8').replace(/^\uFEFF/, ''));
  const own = rows.find(cells => cells[heads!.indexOf('inventory_number')] === number)!;
  const cell = (name: string) => own[heads!.indexOf(name)] ?? '';
  expect([cell('finish_state'), cell('worn_colour'), cell('grade')]).toEqual([
    'restored',
    'Night violet',
    '8.5',
  ]);
  tells(cell('disclosure'), 'the CSV');

  // One undo takes the record back, the others all the rest, the shelf included.
  await goTo(page, `/cars/${carId}`);
  await expect(disclosure).toBeVisible();
  const rowsNow = () => JSON.stringify(rowsOf(demoCollection));
  const undo = async () => {
    const now = rowsNow();
    await page.keyboard.press('Control+z');
    await expect.poll(rowsNow).not.toBe(now);
    await settled(page);
  };
  const same = (rows: Record<string, unknown>) =>
    JSON.stringify(rowsOf(demoCollection)) === JSON.stringify(rows);
  let back = 0;
  for (; !same(before) && back < 4; back++) await undo();
  expect(rowsOf(demoCollection)).toEqual(before);
  for (; !same(bare) && back < 40; back++) await undo();
  expect(rowsOf(demoCollection)).toEqual(bare);
});
