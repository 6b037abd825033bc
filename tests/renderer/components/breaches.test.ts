import { type Browser, chromium } from '@playwright/test';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { breachesNow } from '../../helpers/breaches.ts';
import { chromiumPath } from '../gallery/open-gallery.ts';

const executablePath = chromiumPath();

describe.skipIf(!executablePath)('looking for breaches', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: executablePath ?? '', args: ['--no-sandbox'] });
  });
  afterAll(() => browser?.close());

  it('finds each text that is too faint, and none that is not, however often their colours occur', async () => {
    const page = await browser.newPage();
    const text = (id: string, colour: string, ground: string) =>
      `<p id="${id}" style="color: ${colour}; background: ${ground}">Quillon</p>`;
    await page.setContent(
      `<!doctype html><html lang="en"><title>Drawer</title><body><main><h1>Drawer</h1>${[
        text('faint', '#999999', '#ffffff'),
        text('dark', '#333333', '#ffffff'),
        text('faint-again', '#999999', '#ffffff'),
        text('turned', '#ffffff', '#333333'),
        text('half-seen', 'rgba(51, 51, 51, 0.4)', '#ffffff'),
        text('same', '#999999', '#111111'),
      ].join('')}</main></body></html>`,
    );
    for (const rules of ['all', 'of colour', 'all'] as const) {
      const found = await breachesNow(page, rules);
      expect(found.map(breach => breach.split(':')[0])).toEqual(['color-contrast']);
      expect(found[0]?.match(/id="[a-z-]+"/g)).toEqual(['id="faint"', 'id="faint-again"', 'id="half-seen"']);
    }
    await page.evaluate(() => document.querySelector('h1')?.insertAdjacentHTML('afterend', '<img src="x">'));
    expect((await breachesNow(page)).map(breach => breach.split(':')[0])).toEqual([
      'color-contrast',
      'image-alt',
    ]);
    await page.close();
  });
});
