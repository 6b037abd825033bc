import { expect, type Page } from '@playwright/test';
import { settled } from './looking.ts';

/** What a user's hands did. */
export interface Handwork {
  answers: number;
  keys: number;
}

/**
 * Answers what is asked, from the first field on, by keyboard alone; counts answers and keys. What has no meaning
 * here is passed by, and so is what is proposed where `takesProposals` is false.
 */
export const answering = async (
  page: Page,
  meanings: Record<string, string>,
  takesProposals = true,
): Promise<Handwork> => {
  const counts = { answers: 0, keys: 0 };
  const press = async (key: string) => {
    counts.keys += 1;
    await page.keyboard.press(key);
  };
  const fields = page.locator('[data-meaning-field]');
  const asked = await fields.count();
  await fields.first().focus();
  for (let at = 0; at < asked; at += 1) {
    const field = fields.nth(at);
    await expect(field).toBeFocused();
    const text = /“(.*)”/.exec((await field.getAttribute('aria-label')) ?? '')?.[1] ?? '';
    const meaning = meanings[text];
    if (meaning === undefined && (!takesProposals || (await field.inputValue()) === '')) {
      if (at < asked - 1) await press('ArrowDown');
      continue;
    }
    if (meaning !== undefined) {
      counts.keys += meaning.length;
      await page.keyboard.press('Control+a');
      await page.keyboard.type(meaning);
    }
    await press('Enter');
    counts.answers += 1;
    await settled(page);
    await expect(field).toHaveAttribute('data-state', 'answered');
  }
  return counts;
};
