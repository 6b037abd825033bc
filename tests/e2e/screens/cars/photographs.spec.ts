import { picture as drawn, heicFile } from '../../../helpers/pictures/pictures.ts';
import { expect, test } from '../../fixtures.ts';
import { breaches, goTo, inScheme, settled } from '../../looking.ts';

test('photographs of a lot are dealt out on a contact sheet by keyboard, and one undo takes them back', async ({
  demo,
  picture,
}) => {
  await goTo(demo, '/lots/5');
  await expect(demo.getByRole('grid', { name: 'Cars of Barn tin' })).toBeFocused();
  const numbers = await demo.getByRole('gridcell', { name: /^Q-\d+$/ }).allTextContents();
  const [first, second] = numbers as [string, string];
  const heic = (name: string, buffer: Buffer) => ({ name, mimeType: 'image/heic', buffer });
  await demo.getByLabel('Photographs of the lot').setInputFiles([
    heic('IMG_4001.HEIC', heicFile('turned')),
    heic('IMG_4002.HEIC', heicFile('mirrored')),
    {
      name: `${first} base.png`,
      mimeType: 'image/png',
      buffer: await drawn('png', { width: 300, height: 200 }),
    },
    heic('broken.heic', heicFile('turned').subarray(0, 800)),
  ]);
  const sheet = demo.getByRole('dialog', { name: 'Photographs of Barn tin' });
  await expect(sheet.getByText('1 of 3 have a car')).toBeVisible();
  await expect(demo.getByText(/broken\.heic: The photograph is damaged/)).toBeVisible();
  await demo.getByRole('button', { name: 'Dismiss' }).last().click();
  const car = (name: string) => sheet.getByRole('textbox', { name: `Car of ${name}` });
  await expect(car(`${first} base.png`)).toHaveValue(first);
  await car('IMG_4001.HEIC').focus();
  await demo.keyboard.type('nothing such');
  await expect(sheet.getByText('No such car in this lot')).toBeVisible();
  await demo.keyboard.press('Control+z');
  await demo.keyboard.type(second.toLowerCase());
  await demo.keyboard.press('Enter');
  await expect(car('IMG_4001.HEIC')).toHaveValue(second);
  await expect(car('IMG_4002.HEIC')).toBeFocused();
  await demo.keyboard.press('Control+z');
  await expect(car('IMG_4001.HEIC')).toHaveValue('');
  await expect(car('IMG_4001.HEIC')).toBeFocused();
  await demo.keyboard.type(second);
  await demo.keyboard.press('Enter');
  await demo.keyboard.press('ArrowLeft');
  await expect(car('IMG_4001.HEIC')).toBeFocused();
  await settled(demo);
  for (const scheme of ['light', 'dark'] as const) {
    await inScheme(demo, scheme);
    await picture(demo, `contact-sheet-${scheme}`);
    expect(await breaches(demo)).toEqual([]);
  }
  await demo.setViewportSize({ width: 768, height: 900 });
  await settled(demo);
  await picture(demo, 'contact-sheet-768');
  await sheet.getByRole('button', { name: 'Add 2 photographs' }).click();
  await expect(demo.getByText('2 photographs added')).toBeVisible();
  await demo.keyboard.press('Control+z');
  await expect(demo.getByText(/Added 2 photographs to 2 cars of Barn tin/).first()).toBeVisible();
});
