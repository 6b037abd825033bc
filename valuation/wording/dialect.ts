/** The words that readers in the UK and the US write differently, as they stand inside a sentence. */
export interface Dialect {
  colour: string;
  colours: string;
  coloured: string;
  grey: string;
  customise: string;
  customised: string;
  customising: string;
  catalogue: string;
  catalogued: string;
  centre: string;
  judgement: string;
  tyre: string;
  /** What it costs to have a lot brought. */
  carriage: string;
  /** Left and right of a car, as its driver sits. */
  nearSide: string;
  offSide: string;
  /** The solvent for wiping down bare metal. */
  whiteSpirit: string;
}

const british: Dialect = {
  colour: 'colour',
  colours: 'colours',
  coloured: 'coloured',
  grey: 'grey',
  customise: 'customise',
  customised: 'customised',
  customising: 'customising',
  catalogue: 'catalogue',
  catalogued: 'catalogued',
  centre: 'centre',
  judgement: 'judgement',
  tyre: 'tyre',
  carriage: 'carriage',
  nearSide: 'near side',
  offSide: 'off side',
  whiteSpirit: 'white spirit',
};

const american: Dialect = {
  colour: 'color',
  colours: 'colors',
  coloured: 'colored',
  grey: 'gray',
  customise: 'customize',
  customised: 'customized',
  customising: 'customizing',
  catalogue: 'catalog',
  catalogued: 'cataloged',
  centre: 'center',
  judgement: 'judgment',
  tyre: 'tire',
  carriage: 'shipping',
  nearSide: 'left side',
  offSide: 'right side',
  whiteSpirit: 'mineral spirits',
};

/**
 * Regions whose readers write as in the United States: the states themselves, their territories,
 * and the Philippines.
 */
const americanRegions = new Set(['US', 'PR', 'GU', 'VI', 'AS', 'MP', 'UM', 'PH']);

/**
 * The words of a locale (a BCP 47 tag): American for English of the United States and where it is taught, and
 * for a tag that is none; British for every other, readers of other languages among them. One choice for the
 * whole of a screen or document.
 */
export const dialect = (locale: string): Dialect => {
  try {
    const { language, region } = new Intl.Locale(locale).maximize();
    return language === 'en' && region !== undefined && americanRegions.has(region) ? american : british;
  } catch {
    return american;
  }
};

/** British words that stand inside longer texts, each with the American one; capitals are followed. */
export const spellings: readonly [british: string, american: string][] = [
  ...Object.entries(british).map(([key, word]): [string, string] => [word, american[key as keyof Dialect]]),
  ['customises', 'customizes'],
  ['recognise', 'recognize'],
  ['recognised', 'recognized'],
  ['realised', 'realized'],
  ['neutralise', 'neutralize'],
  ['neutraliser', 'neutralizer'],
  ['judgements', 'judgments'],
  ['tyres', 'tires'],
  ['vapour', 'vapor'],
  ['aluminium', 'aluminum'],
  ['draught', 'draft'],
  ['labelled', 'labeled'],
  ['cancelled', 'canceled'],
  ['totalled', 'totaled'],
  ['neighbours', 'neighbors'],
  ['licence', 'license'],
];
const americanFor = new Map(spellings);
const britishWord = new RegExp(`\\b(?:${spellings.map(([word]) => word).join('|')})\\b`, 'gi');

/**
 * A text written in British words as the locale's reader writes it: whole words of the table,
 * capital letters kept.
 */
export const spell = (text: string, locale: string): string =>
  dialect(locale) === british
    ? text
    : text.replace(britishWord, word => {
        const other = americanFor.get(word.toLowerCase()) ?? word;
        return word.charAt(0) === word.charAt(0).toUpperCase()
          ? other.charAt(0).toUpperCase() + other.slice(1)
          : other;
      });
