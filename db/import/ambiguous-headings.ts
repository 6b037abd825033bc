import { readPaid } from '../../valuation/reading/amounts.ts';
import { readDate } from '../../valuation/reading/date.ts';
import { isPlainColour, plainColourText } from '../../valuation/reading/plain-colour.ts';
import { isAboutFinish } from '../../valuation/reading/propose.ts';
import { countries } from '../../valuation/reading/sale-line/vocabulary.ts';
import { readBasePaint, readFinishState, readGrade } from '../../valuation/reading/words.ts';
import { kindOfCell } from './files/cell-kind.ts';
import { cellText } from './files/cell-text.ts';
import type { Table } from './files/table.ts';

const mostSampled = 60;

/** The first texts of each column of a table, for headings that may mean one thing or another. */
export const textsUnder = ({ headings, sample }: Table): string[][] =>
  headings.map((_, index) =>
    sample
      .slice(0, mostSampled)
      .map(({ cells }) => cellText(cells[index] ?? null))
      .filter(text => text !== ''),
  );

const isDay = (text: string): boolean =>
  /^\d{1,4}[./ -]\d{1,2}[./ -]\d{2,4}$/.test(text) || readDate(text, 'dmy', null).ok;
const isAmount = (text: string): boolean => !isDay(text) && readPaid(text, 'USD', {}).ok;
const places = new Set(countries.map(country => country.toLowerCase()));

/** How much a text looks like what a column of ours holds, between 0 and 1. */
const looks: Record<string, (text: string) => number | boolean> = {
  bought_on: isDay,
  sold_on: isDay,
  price_paid: text => isAmount(text) || /\d[\d.,]* ?(\p{Sc}|[A-Z]{3})|\p{Sc} ?\d/u.test(text),
  sold_for: text => isAmount(text) || /\d[\d.,]* ?(\p{Sc}|[A-Z]{3})|\p{Sc} ?\d/u.test(text),
  colour: text =>
    isPlainColour(text) || plainColourText(text) !== null ? 1 : readFinishState(text).ok ? 0 : 0.3,
  finish_state: text => readFinishState(text.replace(/ *\([^()]*\)/, '')).ok || isAboutFinish(text),
  body_finish: text => /candy|enamel|metallic|matt|chrome|lacquer/i.test(text),
  base_paint: text => readBasePaint(text).ok || /paint|plain|bare|ptd|lack|peint|blank|brut/i.test(text),
  description: text => kindOfCell(text) === 'mixed',
  own_estimate: text => /\d/.test(text) && !isDay(text),
  country: text => places.has(text.toLowerCase()),
  // A number or a letter is the box in which it is kept.
  packaging: text =>
    /^(?:yes|no|y|n|x|none|ja|nein|nee|oui|non|s[ií])$|box|card|blister|carton|caja|doos|scatola|bo[iî]te|\bbag|^c ?\d|repro|orig/i.test(
      text,
    ),
  // Whether it has one says not where it is.
  location: text => (/^(?:yes|no|y|n|none|ja|nein|nee|oui|non|s[ií])$|\borig/i.test(text) ? 0 : 0.3),
  // Nobody is called by an amount, a day, or a way in which things change hands.
  seller: text =>
    isDay(text) || isAmount(text) || /^(?:gift|purchased?|transfer|bequest|donation|exchange)\b/i.test(text)
      ? 0
      : 0.3,
  grade: text => readGrade(text).ok || /^[\d.,+\-/% ]+$|[★⭐*]|mint|beater|good|vg|fair|poor/i.test(text),
};

/** True where texts are cars in words rather than names. */
export const isDescribed = (texts: readonly string[]): boolean =>
  texts.filter(text => kindOfCell(text) === 'mixed').length > texts.length * 0.2;

/** How much texts look like what a column of ours holds, between 0 and 1; null where nothing can be told. */
const likeness = (ours: string, texts: readonly string[]): number | null => {
  const look = looks[ours];
  return look && texts.length > 0
    ? texts.reduce((sum, text) => sum + Number(look(text)), 0) / texts.length
    : null;
};

/** True of texts without spaces, each another, as the numbers that an owner gives to cars are. */
const areNumbers = (texts: readonly string[]): boolean =>
  new Set(texts).size === texts.length && texts.every(text => /^\S+$/.test(text));

/** True of what numbers the lots of an auction, such as "101" and "12a". */
export const areLotNumbers = (texts: readonly string[]): boolean =>
  texts.length > 0 && texts.every(text => /^(?:lot )?#?\d{1,6} ?[a-z]?$/i.test(text));

/** True where nothing in the texts speaks against their being what a column of ours holds. */
export const mayBe = (ours: string, texts: readonly string[]): boolean =>
  ours === 'inventory_number' ? areNumbers(texts) : (likeness(ours, texts) ?? 1) >= 0.25;

/** Which of these columns of ours the texts look most like; the first where they tell nothing. */
export const likeliest = <T extends { ours: string }>(
  candidates: readonly T[],
  texts: readonly string[],
): T | null => {
  if (candidates.length === 1) return candidates[0] ?? null;
  let best: { candidate: T; score: number } | null = null;
  for (const candidate of candidates) {
    const score = likeness(candidate.ours, texts) ?? 0.2;
    if (!best || score > best.score) best = { candidate, score };
  }
  return best?.candidate ?? null;
};
