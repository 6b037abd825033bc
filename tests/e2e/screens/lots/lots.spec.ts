import { fileURLToPath } from 'node:url';
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo } from '../../looking.ts';

const messy = (name: string) => fileURLToPath(new URL(`../../../fixtures/messy/${name}`, import.meta.url));

/**
 * Sixteen cars as they come out of a tin: a few letters for each, and its grade in one of the
 * ways of writing it.
 */
const tin: [string, string][] = [
  ['bellm dam', '7'],
  ['osmer', '4.5'],
  ['hob hon', 'C5'],
  ['isob', '6'],
  ['ashl ink', '5'],
  ['vane', '7/10'],
  ['night clar', '3'],
  ['mystery coupe', '2'],
  ['pellb', '6,5'],
  ['halc', '6'],
  ['larkh', '7.5'],
  ['thread', '5'],
  ['sext', '4'],
  ['whirl', '5.5'],
  ['kelder', '8'],
  ['dryst', '9'],
];

test('a lot of sixteen is catalogued by keyboard alone in under five minutes', async ({ demo, picture }) => {
  const { keyboard } = demo;
  let presses = 0;
  const type = async (text: string) => {
    presses += text.length;
    await keyboard.type(text, { delay: 12 });
  };
  const press = async (...keys: string[]) => {
    presses += keys.length;
    for (const key of keys) await keyboard.press(key);
  };
  await press('Alt+2');
  await expect(demo.getByRole('grid', { name: 'Lots' })).toBeFocused();
  await keyboard.press('Shift+Tab');
  await keyboard.press('Enter');
  await expect(demo.getByRole('textbox', { name: 'Name of the lot' })).toBeFocused();
  await type('Trial tin');
  await press('Tab', 'Tab');
  await expect(demo.getByRole('textbox', { name: 'Seller' })).toBeFocused();
  await type('Fair');
  await press('Tab', 'Tab');
  await type('64');
  await press('Enter');
  const grid = demo.getByRole('grid', { name: 'Cars of Trial tin' });
  await expect(grid).toBeFocused();
  for (const [casting, grade] of tin) {
    await type(casting);
    await press('Tab', 'Tab', 'Tab', 'Tab');
    await type(grade);
    await press('Enter');
  }
  const facts = demo.getByRole('banner').or(demo.locator('main header')).last();
  await expect(facts).toContainText('16 cars · all graded');
  await expect(facts).toContainText('64.00 USD');
  await expect(demo.getByText('shared 64.00 = 64.00 USD ✓')).toBeVisible();
  await expect(demo.getByText('mystery coupe')).toBeVisible();
  await picture(demo, 'lot-by-keyboard');
  // A person types four keys a second without haste.
  expect(presses / 4).toBeLessThan(300);
  expect(await breaches(demo)).toEqual([]);
});

test('rows pasted from a spreadsheet become cars, and one undo takes them back', async ({ demo }) => {
  await goTo(demo, '/lots/5');
  const grid = demo.getByRole('grid', { name: 'Cars of Barn tin' });
  await expect(grid).toBeFocused();
  await expect(demo.locator('main header')).toContainText('16 cars');
  await demo.keyboard.press('Control+i');
  await demo.evaluate(() => {
    const data = new DataTransfer();
    data.setData('text/plain', 'Isobar\tEmber\nHalcyard\tCopperleaf\nSomething else\tbrown\n');
    document.activeElement?.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
    );
  });
  await expect(demo.locator('main header')).toContainText('19 cars');
  await expect(demo.getByText('Something else')).toBeVisible();
  await demo.keyboard.press('Control+z');
  await expect(demo.locator('main header')).toContainText('16 cars');
});

test('the parts of a car are graded by keyboard, and kept when the editor is left', async ({ demo }) => {
  await goTo(demo, '/lots/5');
  await expect(demo.getByRole('grid', { name: 'Cars of Barn tin' })).toBeFocused();
  const roof = demo.getByRole('textbox', { name: 'Grade of the roof' });
  await roof.focus();
  await demo.keyboard.type('6,5');
  await demo.keyboard.press('ArrowDown');
  await expect(demo.getByRole('textbox', { name: 'Grade of the base' })).toBeFocused();
  await demo.keyboard.press('r');
  await expect(demo.getByRole('combobox', { name: 'Originality of the base' })).toHaveValue('reproduction');
  await demo.keyboard.press('Control+Enter');
  await expect(demo.getByText('Condition saved')).toBeVisible();
  await expect(roof).toHaveValue('C6.5');
});

test('a share fixed by hand has the rest shared again; the bid and the details can be used by everyone', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/lots/5');
  await expect(demo.getByRole('grid', { name: 'Cars of Barn tin' })).toBeFocused();
  const share = demo.getByRole('textbox', { name: /Share of the lot's cost/ });
  await share.fill('100');
  await share.press('Enter');
  await expect(demo.getByText('shared 412.50 = 412.50 USD ✓ · 1 fixed by hand')).toBeVisible();
  await demo.getByRole('button', { name: 'Highest bid' }).click();
  await expect(demo.getByText(/^Bid .* at most\./)).toBeVisible();
  await picture(demo, 'lot-bid');
  expect(await breaches(demo)).toEqual([]);
  await demo.keyboard.press('Escape');
  await demo.getByRole('button', { name: 'Details and cost' }).click();
  await expect(demo.getByRole('dialog')).toBeVisible();
  expect(await breaches(demo)).toEqual([]);
  await demo.keyboard.press('Escape');
  await demo.getByRole('button', { name: /without photo/ }).click();
  await expect(demo.getByRole('button', { name: 'Show all 16' })).toBeVisible();
});

test('a lot that was seen is bid for, and becomes the lot when it is bought, without anything typed again', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/lots/new');
  await demo.getByRole('textbox', { name: 'Name of the lot' }).fill('Seen tray');
  await demo.getByRole('checkbox', { name: 'Only seen so far, not bought' }).check();
  await expect(demo.getByRole('textbox', { name: 'Price' })).toHaveCount(0);
  await picture(demo, 'lot-seen-new');
  expect(await breaches(demo)).toEqual([]);
  await demo.getByRole('button', { name: 'Enter its cars' }).click();
  const grid = demo.getByRole('grid', { name: 'Cars of Seen tray' });
  await expect(grid).toBeFocused();
  for (const casting of ['osmer', 'isob']) {
    await demo.keyboard.type(casting);
    await demo.keyboard.press('Tab');
    await demo.keyboard.press('Tab');
    await demo.keyboard.press('Tab');
    await demo.keyboard.press('Tab');
    await demo.keyboard.type('6');
    await demo.keyboard.press('Enter');
  }
  const facts = demo.locator('main header');
  await expect(facts).toContainText('seen, not bought · 2 cars · all graded');
  const openBid = () => demo.getByRole('button', { name: 'Highest bid' }).click();
  await openBid();
  await demo.getByRole('textbox', { name: 'Premium' }).fill('25');
  await demo.getByRole('textbox', { name: /^(Shipping|Carriage)$/ }).fill('6.50');
  await demo.getByRole('textbox', { name: /^(Shipping|Carriage)$/ }).blur();
  await expect(demo.getByText(/^Bid .* at most\./)).toBeVisible();
  await demo.getByRole('button', { name: 'Save this bid' }).click();
  await expect(demo.getByRole('button', { name: 'Bid saved' })).toBeVisible();
  await picture(demo, 'lot-bid-saved');
  await demo.keyboard.press('Escape');
  await expect(facts).toContainText('seen, not bought');
  await goTo(demo, '/');
  await expect(facts).toContainText('2 seen, not bought');
  await goTo(demo, '/cars?status=seen');
  await expect(demo.getByRole('status', { name: 'Totals of the cars shown' })).toContainText(
    '2 cars, 2 seen, not bought',
  );
  await picture(demo, 'cars-seen');
  await demo.goBack();
  await demo.goBack();
  await openBid();
  await expect(demo.getByRole('textbox', { name: 'Premium' })).toHaveValue('25 %');
  await demo.getByRole('button', { name: 'Bought…' }).click();
  const dialog = demo.getByRole('dialog', { name: 'Seen tray is bought' });
  await dialog.getByRole('textbox', { name: 'Price' }).fill('20');
  await dialog.getByRole('textbox', { name: 'Price' }).blur();
  await expect(dialog).toContainText('31.50 USD');
  await picture(demo, 'lot-bought');
  expect(await breaches(demo)).toEqual([]);
  await dialog.getByRole('button', { name: 'Save it as bought' }).click();
  await expect(demo.getByText('shared 31.50 = 31.50 USD ✓')).toBeVisible();
  await expect(facts).toContainText('31.50 USD · 2 cars · all graded');
  await expect(facts).not.toContainText('not bought');
  await demo.keyboard.press('Control+z');
  await expect(facts).toContainText('seen, not bought');
});

test('from nothing to a messy list taken in: every row with its outcome, and one undo', async ({
  screens,
  picture,
}) => {
  await expect(screens.getByRole('heading', { level: 1, name: 'Playworn' })).toBeVisible();
  expect(await breaches(screens)).toEqual([]);
  await screens.getByRole('button', { name: 'Import a spreadsheet' }).click();
  await expect(screens.getByRole('textbox', { name: 'Folder' })).toBeFocused();
  expect(await breaches(screens)).toEqual([]);
  await screens.getByRole('button', { name: 'Create it and choose a file' }).click();
  await expect(screens.getByRole('heading', { level: 1, name: 'Import a spreadsheet' })).toBeVisible();
  expect(await breaches(screens)).toEqual([]);
  await screens.getByLabel('Spreadsheet to import').setInputFiles(messy('barn-tin.csv'));
  const taken = screens.getByRole('complementary', { name: 'What will be imported' });
  await expect(taken).toContainText('9 cars would be imported');
  await expect(taken).toContainText('1 line left out: a total');
  await expect(screens.getByText('Read as Windows-1252').first()).toBeVisible();
  // The grade that nobody can read is asked about, as long as its column is one of grades.
  await expect(screens.getByText('C11').first()).toBeVisible();
  await screens.getByRole('combobox', { name: 'What Condition means' }).selectOption('not read');
  await expect(screens.getByText('C11')).toHaveCount(0);
  await screens.getByRole('combobox', { name: 'What Condition means' }).selectOption('grade');
  await expect(screens.getByText('C11').first()).toBeVisible();
  await picture(screens, 'import-look');
  expect(await breaches(screens)).toEqual([]);
  await taken.getByRole('textbox', { name: 'Price' }).fill('412.50');
  await screens.getByRole('button', { name: 'Import 9 cars' }).click();
  await expect(
    screens.getByRole('heading', { level: 1, name: 'Imported 9 cars into barn tin' }),
  ).toBeVisible();
  await picture(screens, 'import-done');
  expect(await breaches(screens)).toEqual([]);
  await screens.getByRole('button', { name: 'Undo this import' }).click();
  await expect(screens.getByRole('heading', { level: 1, name: 'The import was undone' })).toBeVisible();
  await goTo(screens, '/lots');
  await expect(screens.getByRole('heading', { name: 'Enter your first lot' })).toBeVisible();
  expect(await breaches(screens)).toEqual([]);
});

test('a spreadsheet chosen after leaving and coming back is the one that is shown and taken', async ({
  demo,
}) => {
  const taken = demo.getByRole('complementary', { name: 'What will be imported' });
  const choose = (name: string, rows: string) =>
    demo.getByLabel('Spreadsheet to import').setInputFiles({
      name,
      mimeType: 'text/csv',
      buffer: Buffer.from(rows),
    });
  await goTo(demo, '/lots/import');
  await choose('first.csv', 'Number,Casting\nF-1,Osmerry\nF-2,Osmerry\nF-3,Osmerry\n');
  await expect(taken).toContainText('3 cars would be imported');
  await goTo(demo, '/sales');
  await goTo(demo, '/lots/import');
  await choose('second.csv', 'Tag,Car,Shelf\nS-1,Halcyard,A1\n');
  await expect(demo.getByRole('rowheader', { name: 'Shelf' })).toBeVisible();
  await expect(demo.getByRole('rowheader', { name: 'Number' })).toHaveCount(0);
  await expect(taken).toContainText('1 car would be imported');
});
