import { readPaid } from '../../valuation/reading/amounts.ts';
import { readDate } from '../../valuation/reading/date.ts';
import { isPlainColour, plainColourText } from '../../valuation/reading/plain-colour.ts';
import { isAboutFinish } from '../../valuation/reading/propose.ts';
import { countries } from '../../valuation/reading/sale-line/vocabulary.ts';
import { plainWord, readBasePaint, readFinishState, readGrade } from '../../valuation/reading/words.ts';
import { saysNo, saysYes } from '../../valuation/reading/yes-no.ts';
import { kindOfCell, noColours } from './files/cell-kind.ts';
import { cellText } from './files/cell-text.ts';
import type { Table } from './files/table.ts';
import { namesPlace } from './put-away.ts';

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
const isYear = (text: string): boolean => /^(?:19[4-9]|20[0-4])\d$/.test(text);
const isAmount = (text: string): boolean => !isDay(text) && !isYear(text) && readPaid(text, 'USD', {}).ok;
/** A year alone is a day that is not told wholly. */
const isDayOrYear = (text: string): number => (isDay(text) ? 1 : isYear(text) ? 0.5 : 0);
const places = new Set(countries.map(country => country.toLowerCase()));

const yesOrNo = (text: string): boolean => saysYes(text) || saysNo(text);

/** Where and from whom things are bought, in lists that head it "Where". Common practice, no source. */
const comesFrom =
  /(?<!\p{L})(?:shop|store|market|markets|fair|auction|auctions|boot|dealer|friend|dad|mum|mom|uncle|aunt|swap|swapmeet|meet|online|show|charity|estate sale|yard sale|garage sale|jumble|flohmarkt|borse|börse|brocante|marche|marché|rommelmarkt|mercado|mercatino)(?!\p{L})/iu;

/** How much a text looks like what a column of ours holds, between 0 and 1. */
const looks: Record<string, (text: string) => number | boolean> = {
  bought_on: isDayOrYear,
  sold_on: isDayOrYear,
  price_paid: text => isAmount(text) || /\d[\d.,]* ?(\p{Sc}|[A-Z]{3})|\p{Sc} ?\d/u.test(text),
  price: text => /\d/.test(text) && !isDay(text) && !isYear(text),
  sold_for: text => isAmount(text) || /\d[\d.,]* ?(\p{Sc}|[A-Z]{3})|\p{Sc} ?\d/u.test(text),
  colour: text =>
    isPlainColour(text) || plainColourText(text) !== null ? 1 : readFinishState(text).ok ? 0 : 0.3,
  finish_state: text => readFinishState(text.replace(/ *\([^()]*\)/, '')).ok || isAboutFinish(text),
  body_finish: text => /candy|enamel|metallic|matt|chrome|lacquer/i.test(text),
  base_paint: text => readBasePaint(text).ok || /paint|plain|bare|ptd|lack|peint|blank|brut/i.test(text),
  own_estimate: text => /\d/.test(text) && !isDay(text) && !isYear(text),
  country: text => places.has(text.toLowerCase()),
  // A number or a letter is the box in which it is kept.
  packaging: text =>
    yesOrNo(text) ||
    /^none$|box|card|blister|carton|caja|doos|scatola|bo[iî]te|\bbag|^c ?\d|repro|orig/i.test(text),
  is_original_paint: text => (yesOrNo(text) ? 0.9 : 0),
  was_sold: text => (yesOrNo(text) ? 0.9 : 0),
  is_owned: text => yesOrNo(text) || /^[01]$/.test(text),
  quantity: text => /^(?:x ?)?\d{1,3}(?:\.0+)? ?(?:x|pcs?|st(?:ü|ue)ck)?$/i.test(text),
  // Whether it has one says not where it is.
  location: text => (yesOrNo(text) || /\borig/i.test(text) ? 0 : namesPlace(text) ? 0.8 : 0.31),
  // Nobody is called by an amount, a day, or a way in which things change hands.
  seller: text =>
    isDay(text) || isAmount(text) || /^(?:gift|purchased?|transfer|bequest|donation|exchange)\b/i.test(text)
      ? 0
      : comesFrom.test(text)
        ? 0.8
        : 0.3,
  grade: text => readGrade(text).ok || /^[\d.,+\-/% ]+$|[★⭐*]|mint|beater|good|vg|fair|poor/i.test(text),
};

/** True of a name with one of the reference's colours behind it, as "Silver Kite ember C7". */
const tellsColour = (text: string, colours: ReadonlySet<string>): boolean => {
  const words = plainWord(text).split(' ');
  return words.some(
    (word, at) => at > 0 && (colours.has(word) || colours.has(`${word} ${words[at + 1] ?? ''}`)),
  );
};

const describedShare = (texts: readonly string[], colours: ReadonlySet<string>): number =>
  texts.filter(text => kindOfCell(text) === 'mixed' || tellsColour(text, colours)).length / texts.length;

/** True where texts are cars in words rather than names; `colours` are the reference's, as plain words. */
export const isDescribed = (texts: readonly string[], colours: ReadonlySet<string>): boolean =>
  describedShare(texts, colours) > 0.2;

/** True of remarks in sentences: they hold no grade and nothing else, but tell of it. */
export const areSentences = (texts: readonly string[]): boolean =>
  texts.length > 0 && texts.filter(text => text.split(/\s+/).length >= 4).length >= texts.length * 0.6;

/** How much texts look like what a column of ours holds, between 0 and 1; null where nothing can be told. */
const likeness = (ours: string, texts: readonly string[], colours = noColours): number | null => {
  if (texts.length === 0) return null;
  if (ours === 'description') return describedShare(texts, colours);
  const look = looks[ours];
  return look ? texts.reduce((sum, text) => sum + Number(look(text)), 0) / texts.length : null;
};

/** Features that are parts too, each with the column of the part's own state. */
const stateOf: Readonly<Record<string, string>> = {
  roof: 'roof_state',
  base_paint: 'base_state',
  glazing: 'glazing_state',
  interior: 'interior_state',
  wheels: 'wheels_state',
  accessory: 'accessory_state',
};
/** Of the paint, whose colour and finish have columns as well. */
const ofBody =
  /^(?:body|bodywork|paint|finish|lack|lackierung|karosserie|carrosserie|peinture|carrozzeria|pintura)$/;
const mark = /^(c ?)?(10|\d)(?:[.,]5| ?½)?( ?\/ ?10)?$/i;

/** Of the whole body, under which nobody writes of colours when they write of its state. */
const ofBodyAlone = /^(?:body|bodywork|karosserie|carrosserie|carrozzeria|carroceria)$/;

/** True of marks out of ten. Where none is above five, they may be of another scale, or count something. */
const areMarks = (texts: readonly string[]): boolean => {
  const found = texts.map(text => mark.exec(text)).filter(one => one !== null);
  return (
    found.length >= texts.length * 0.6 &&
    found.some(
      ([, letter, figure, tenth]) => Number(figure) > 5 || letter !== undefined || tenth !== undefined,
    )
  );
};

/** How good something is, in words. Common practice, no source. */
const inWordsOfCondition =
  /^(?:(?:very|v|quite|all|still|near|slightly|a bit|heavily) )?(?:mint|excellent|exc|good|vg|fine|nice|fair|poor|bad|rough|ok|okay|worn|play-?worn|chipped|chips|scratched|scuffed|faded|perfect|tatty|gut|sehr gut|schlecht|bon|moyen|mauvais|goed|slecht|buono|bueno)[+\-.!]*$/i;
const areConditions = (texts: readonly string[]): boolean =>
  texts.length > 0 && texts.filter(text => inWordsOfCondition.test(text)).length >= texts.length * 0.6;

/** The column of a part's own state, where the cells under the name of a feature or of the paint are marks; else null. */
export const stateMeant = (
  heading: string,
  meanings: readonly string[],
  texts: readonly string[],
): string | null => {
  const feature = meanings.find(name => stateOf[name] !== undefined);
  const word = plainWord(heading);
  const state = ofBody.test(word) ? 'body_state' : feature && stateOf[feature];
  return state && (areMarks(texts) || (ofBodyAlone.test(word) && areConditions(texts))) ? state : null;
};

/** True of texts without spaces, each another, as the numbers that an owner gives to cars are. */
const areNumbers = (texts: readonly string[]): boolean =>
  new Set(texts).size === texts.length && texts.every(text => /^\S+$/.test(text));

/** Columns of ours that a yes or a no says nothing of. */
const inWords: ReadonlySet<string> = new Set([
  ...['maker', 'series', 'casting', 'description', 'release_name', 'colour', 'body_finish'],
  ...['country', 'seller', 'location', 'source'],
]);
/** Columns of ours that say nothing but yes and no. */
const inYesAndNo: ReadonlySet<string> = new Set(['is_owned', 'is_original_paint', 'was_sold']);

const ofPaint: ReadonlySet<string> = new Set(['colour', 'body_finish', 'finish_state']);

/** What a heading can mean by whether the cells say yes and no, and nothing else. */
export const asYesOrNo = <T extends { ours: string }>(found: T[], texts: readonly string[]): T[] => {
  const areAnswers = texts.length > 0 && texts.every(text => yesOrNo(text) || /^[01]$/.test(text));
  // Of how much of the paint is left, a column of figures says no colour.
  const areShares = texts.length > 0 && texts.every(text => /^\d{1,3} ?%?$/.test(text));
  return found.filter(
    ({ ours }) => !(areAnswers ? inWords : inYesAndNo).has(ours) && !(areShares && ofPaint.has(ours)),
  );
};

const ofNames: ReadonlySet<string> = new Set(['casting', 'description', 'release_name']);
/** True of a heading over what cars are called. */
export const isOfCars = (found: readonly { ours: string }[]): boolean =>
  found.some(({ ours }) => ofNames.has(ours));

/** True of the numbers of the rows, or of the cars. */
export const areFigures = (texts: readonly string[]): boolean =>
  texts.length > 0 && texts.every(text => /^#?\d{1,6}[.)]?$/.test(text));

/**
 * What a heading over names can mean whose cells are figures, while another column has the names: the cars'
 * own numbers, where each is another.
 */
export const asNumbers = <T extends { ours: string }>(found: T[], texts: readonly string[]): T[] => {
  const others = found.filter(({ ours }) => !ofNames.has(ours));
  const [first] = found;
  return others.length > 0 || !first || !areNumbers(texts)
    ? others
    : [{ ...first, ours: 'inventory_number' }];
};

/** True of what numbers the lots of an auction, such as "101" and "12a". */
export const areLotNumbers = (texts: readonly string[]): boolean =>
  texts.length > 0 && texts.every(text => /^(?:lot )?#?\d{1,6} ?[a-z]?$/i.test(text));

/** True of texts most of which are grades, or words for how good a car is. */
export const areGrades = (texts: readonly string[]): boolean => (likeness('grade', texts) ?? 0) >= 0.6;

/** True where nothing in the texts speaks against their being what a column of ours holds. */
export const mayBe = (ours: string, texts: readonly string[]): boolean =>
  ours === 'inventory_number' ? areNumbers(texts) : (likeness(ours, texts) ?? 1) >= 0.25;

/** Which of these columns of ours the texts look most like; the first where they tell nothing. `colours` are the reference's, as plain words. */
export const likeliest = <T extends { ours: string }>(
  candidates: readonly T[],
  texts: readonly string[],
  colours: ReadonlySet<string> = noColours,
): T | null => {
  if (candidates.length === 1) return candidates[0] ?? null;
  let best: { candidate: T; score: number } | null = null;
  for (const candidate of candidates) {
    const score = likeness(candidate.ours, texts, colours) ?? 0.2;
    if (!best || score > best.score) best = { candidate, score };
  }
  return best?.candidate ?? null;
};
