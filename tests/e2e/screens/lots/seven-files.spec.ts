import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { answering } from '../../answering.ts';
import { expect, test } from '../../fixtures.ts';
import { goTo, settled, startEmpty } from '../../looking.ts';

const pathOf = (name: string) => fileURLToPath(new URL(`../../../fixtures/${name}`, import.meta.url));

/** Lists by seven hands with how many of their rows are cars, as the lists themselves say. */
const lists: [string, number][] = [
  ['strangers/sixty.csv', 60],
  ['strangers/stars.csv', 7],
  ['strangers/two-blocks.csv', 7],
  ['strangers/no-headings.csv', 8],
  ['strangers/one-cell.csv', 9],
  ['strangers/german.csv', 7],
  ['messy/barn-tin.xlsx', 9],
];
/** Twelve answers to what the longest of them asks. */
const answers = {
  'lt grn': 'Limewash',
  yel: 'yellow',
  'dk blue': 'dark blue',
  plain: 'none',
  painted: 'full',
  repaint: 'restored',
  beater: 'C2',
  'VG+': 'C6.5',
  '7+': 'C7.5',
  mint: 'C9.5',
  '8-9': 'C8.5',
  nice: 'C7',
};

test('seven messy files by seven hands, from an empty collection to decisions', async ({
  start,
  collection,
  picture,
}) => {
  test.setTimeout(400_000);
  const { page } = await start();
  await startEmpty(page, collection);
  await expect(page.getByRole('list', { name: 'First steps' })).toBeVisible();
  const taken = page.getByRole('complementary', { name: 'What will be imported' });
  const open = async (name: string) => {
    await goTo(page, '/');
    await goTo(page, '/lots/import?as=lot');
    await page.getByLabel('Spreadsheet to import').setInputFiles(pathOf(name));
    await expect(page.getByRole('button', { name: /^Import \d+ cars?$/ })).toBeEnabled();
    await settled(page);
  };
  const cellsRead = async () => {
    const [, understood = '0', all = '1'] =
      /([\d,]+) of ([\d,]+) cells/.exec((await taken.textContent()) ?? '') ?? [];
    return [understood, all].map(figure => Number(figure.replaceAll(',', ''))) as [number, number];
  };
  let rows = 0;
  let keys = 0;
  let answered = 0;
  const cells = { understood: 0, all: 0 };
  for (const [name, cars] of lists) {
    await open(name);
    // Every row that is a car is taken before anything is answered.
    const go = page.getByRole('button', { name: /^Import \d+ cars?$/ });
    await expect(taken).toContainText(new RegExp(`${cars} rows|^${cars} cars`));
    const before = await cellsRead();
    if (name.endsWith('sixty.csv')) {
      await picture(page, 'seven-files-asked');
      const done = await answering(page, answers, false);
      await settled(page);
      const [understood, all] = await cellsRead();
      console.log(
        `${name}: ${before[0]} of ${before[1]} cells understood, ${understood} of ${all} after ${done.answers} answers (${done.keys} keys).`,
      );
      expect(done.answers).toBeLessThanOrEqual(12);
      expect(understood / all).toBeGreaterThanOrEqual(0.9);
      keys += done.keys;
      answered += done.answers;
    }
    const [understood, all] = await cellsRead();
    cells.understood += understood;
    cells.all += all;
    rows += cars;
    await go.click();
    await expect(page.getByRole('heading', { level: 1, name: /^Imported \d+ cars/ })).toBeVisible();
  }

  await goTo(page, '/sales');
  await page.keyboard.press('Control+j');
  await expect(page.getByRole('textbox', { name: 'Sales, one a line' })).toBeFocused();
  const sold = readFileSync(pathOf('practice/sold.csv'), 'utf8');
  await page.evaluate(pasted => {
    const data = new DataTransfer();
    data.setData('text/plain', pasted);
    (document.activeElement ?? document.body).dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
    );
  }, sold);
  await expect(page.getByRole('button', { name: 'Add 6 sale records' })).toBeVisible();
  await page.keyboard.press('Control+s');
  await expect(page.getByRole('heading', { level: 1, name: 'Added 6 sale records' })).toBeVisible();
  keys += 3;

  await goTo(page, '/reference/names');
  await expect(page.getByRole('grid', { name: 'Names' })).toBeFocused();
  const waiting = page.getByText(/^\d+ names? of \d+ cars?/);
  await settled(page);
  await picture(page, 'seven-files-names');
  const names = Number(/^\d+/.exec((await waiting.textContent()) ?? '')?.[0]);
  let namesKeys = 0;
  for (let left = names - 1; left >= 0; left--) {
    namesKeys += 1;
    await page.keyboard.press('Enter');
    if (left > 0) await expect(page.getByText(new RegExp(`^${left} names? of`))).toBeVisible();
  }
  await expect(page.getByRole('heading', { name: 'Every name is settled' })).toBeVisible();
  keys += namesKeys;
  expect(namesKeys / names).toBeLessThanOrEqual(3);

  await goTo(page, '/');
  await settled(page);
  await picture(page, 'seven-files-home');
  const valued = /(\d+) of (\d+) cars have a value/.exec((await page.getByRole('main').textContent()) ?? '');
  await goTo(page, '/decide');
  await expect(page.getByRole('grid', { name: 'Cars to decide' })).toBeFocused();
  await page.keyboard.press('Control+a');
  await page.keyboard.press('r');
  const dialog = page.getByRole('dialog');
  await expect(dialog).toBeVisible();
  await page.keyboard.press('Enter');
  await expect(dialog).toBeHidden();
  keys += 3;
  console.log(
    `Seven files: ${rows} rows taken, ${answered} answers, ${cells.understood} of ${cells.all} cells understood, ${names} names settled in ${namesKeys} keys, ${valued?.[0] ?? 'all steps done'}; ${keys} keys in all.`,
  );
});
