import { nearest } from '../../../valuation/reading/nearest.ts';
import {
  inEnglish,
  isPlainColour,
  isShortened,
  onlyColourWith,
} from '../../../valuation/reading/plain-colour.ts';
import { isAboutFinish } from '../../../valuation/reading/propose.ts';
import {
  type LexiconCasting,
  makeLexicon,
  type OwnWord,
} from '../../../valuation/reading/sale-line/lexicon.ts';
import { readSaleLine, type SaleLine } from '../../../valuation/reading/sale-line/read-sale-line.ts';
import { formsAbroad, spellingOf } from '../../../valuation/reading/sale-line/spellings.ts';
import { escaped, fold } from '../../../valuation/reading/sale-line/text.ts';
import { numbers } from '../../../valuation/reading/sale-line/vocabulary.ts';
import { saysNo, saysYes } from '../../../valuation/reading/yes-no.ts';
import type { PartName, VariationFeature } from '../../../valuation/words.ts';
import type { LoadedReference } from '../../reference/match.ts';
import { plain } from '../../reference/plain.ts';

/** What the text of one of a car's features comes to. */
export interface FeatureReading {
  /** As the reference writes it, or as it stands. */
  value?: string;
  /** What it says besides, by our columns. */
  facts?: Record<string, string>;
  /** A remark on condition, which is no kind of this feature: it goes to the notes. */
  isRemark?: boolean;
  unread?: { text: string; reason: string }[];
  heard?: SaleLine['heard'];
}

const partOf: Partial<Record<VariationFeature, PartName>> = {
  roof: 'roof',
  interior: 'interior',
  glazing: 'glazing',
  wheels: 'wheels',
  accessory: 'accessory',
};

const remark =
  /^(?:all |very |quite |still )?(?:orig(?:inal)?s?|ok(?:ay)?|good|fine|nice|perfect|complete|correct|clean|worn|scuffed|scratched|chipped|cracked|bent|dirty|dusty|poor|bad|yes|y|x|present|there|loose|rusty|gut|ja|da|bon|bonne?s?|oui|gesprungen|gebrochen|verkratzt|zerkratzt|kratzer|stumpf|f[eê]l[eé]e?|cass[eé]e?|ray[eé]e?|rot[oa]|rott[oa]|gebarsten|bekrast)[.!]*$/i;
const gone = /^(?:is |are |all )?(?:missing|gone|lost|fehlt|fehlen|manquante?s?)[.!]*$/i;
const repro = /^(?:is |are |all )?(?:repros?|reproductions?|nachbau|reproduction parts?)[.!]*$/i;
const aboutParts =
  /missing|m[ie]?ss?n?g|gone|lost|(?<![a-z])lack|repro|replac|fehl|manqu|nachbau|without|ohne|sans/i;
const noColour =
  /^(?:un|re|over)?-?painted|^repaint|^stripped|^bare|^faded|^polished|^original?|^restored|^unbekannt|^unlackiert|^various|^unknown|^custom/i;
/** How good a part is, or how many there are, as "8", "7/10" and "4 (2 flat)": of which kind it is, they do not say. */
const figure = /^[^\p{L}]*\d[^\p{L}]*(?:\(.*)?$/u;
const severalFacts =
  /[,;()/]|\d|(?:^|\P{L})(?:base|roof|interior|seats?|wheels?|glass|windows?|painted|with|and|dach|boden|toit)(?:\P{L}|$)/iu;

const ask = (text: string, reason: string): FeatureReading => ({ unread: [{ text, reason }] });

const withNumberAsWord = (text: string): string =>
  text.replace(/^\d(?= )/, figure => numbers[figure] ?? figure);

/** By what a text is seen to name something of a casting's own. */
interface Marks {
  /** Beginnings of the words of its releases, rear ends, wheels and accessories. */
  stems: RegExp | null;
  /** Its colours as they are compared. */
  colours: readonly string[];
}

/**
 * Reads what a car's features are said to be, against the reference; equal texts of one
 * casting are read once.
 */
export class FeatureTexts {
  readonly #reference: LoadedReference;
  readonly #words: readonly OwnWord[];
  readonly #marks = new Map<number, Marks>();
  readonly #stems = new Map<string, readonly string[]>();
  /** Many castings have the same beginnings. */
  readonly #patterns = new Map<string, RegExp>();
  readonly #known = new Map<string, FeatureReading>();
  readonly #lexicons = new Map<string, ReturnType<typeof makeLexicon>>();
  #colours: ReadonlySet<string> | null = null;

  constructor(reference: LoadedReference, words: readonly OwnWord[]) {
    this.#reference = reference;
    this.#words = words;
  }

  /** What a text is read with: the features of its casting, and words. */
  lexiconOf(castingId: number | null, words: readonly OwnWord[], key: string) {
    const name = `${castingId} ${key}`;
    const known = this.#lexicons.get(name);
    if (known) return known;
    const casting = castingId === null ? undefined : this.#reference.castingOf(castingId);
    const castings: LexiconCasting[] = casting
      ? [{ ...casting, releases: this.#reference.releasesOf(casting.id) }]
      : [];
    const made = makeLexicon(castings, [...words], this.#reference.textsOf('colour').values());
    if (this.#lexicons.size >= 500) this.#lexicons.clear();
    this.#lexicons.set(name, made);
    return made;
  }

  /**
   * True where a text may name a release, a rear end, wheels or an accessory of the casting: it has the
   * beginning of one of their words.
   */
  mayName(castingId: number | null, text: string): boolean {
    return castingId !== null && (this.#marksOf(castingId).stems?.test(text) ?? false);
  }

  isColourOf(castingId: number | null, colour: string | undefined): boolean {
    const casting = castingId === null ? undefined : this.#reference.castingOf(castingId);
    return colour !== undefined && (casting?.features.colour.includes(colour) ?? false);
  }

  /** True where a text has a whole name of one of the casting's colours in it. */
  namesColour(castingId: number | null, text: string): boolean {
    if (castingId === null) return false;
    const folded = fold(text);
    return this.#marksOf(castingId).colours.some(colour => folded.includes(colour));
  }

  #marksOf(castingId: number): Marks {
    const known = this.#marks.get(castingId);
    if (known) return known;
    const colours = this.#reference.castingOf(castingId)?.features.colour.map(fold) ?? [];
    const made = { stems: this.#stemsOf(castingId), colours };
    if (this.#marks.size >= 5000) this.#marks.clear();
    this.#marks.set(castingId, made);
    return made;
  }

  #stemsOf(castingId: number): RegExp | null {
    const casting = this.#reference.castingOf(castingId);
    const named = [
      ...(casting
        ? [...casting.features.rearEnd, ...casting.features.wheels, ...casting.features.accessory]
        : []),
      ...this.#reference.releasesOf(castingId).map(({ name }) => name),
    ];
    const stems = new Set(named.flatMap(one => this.#stemsOfName(one)));
    if (stems.size === 0) return null;
    const source = [...stems].sort().map(escaped).join('|');
    const known = this.#patterns.get(source);
    if (known) return known;
    const made = new RegExp(source, 'i');
    if (this.#patterns.size >= 5000) this.#patterns.clear();
    this.#patterns.set(source, made);
    return made;
  }

  /** Castings share most of their features' names. */
  #stemsOfName(name: string): readonly string[] {
    const known = this.#stems.get(name);
    if (known) return known;
    const stems = (fold(name).match(/\p{L}{3,}/gu) ?? [])
      .flatMap(word => [word, ...formsAbroad(word).split('|')])
      .flatMap(word => /^\p{L}{3,}/u.exec(word)?.[0].slice(0, 5) ?? []);
    if (this.#stems.size >= 5000) this.#stems.clear();
    this.#stems.set(name, stems);
    return stems;
  }

  /** A feature of a casting, null where that is not known; `column` is the heading over it. */
  read(castingId: number | null, feature: VariationFeature, text: string, column: string): FeatureReading {
    const key = `${castingId} ${feature} ${column} ${text}`;
    const known = this.#known.get(key);
    if (known) return known;
    const reading =
      feature === 'colour' ? this.#colour(castingId, text, column) : this.#feature(castingId, feature, text);
    if (this.#known.size >= 20_000) this.#known.clear();
    this.#known.set(key, reading);
    return reading;
  }

  #allColours(): ReadonlySet<string> {
    this.#colours ??= new Set([...this.#reference.textsOf('colour').values()].map(text => fold(text).trim()));
    return this.#colours;
  }

  #named(castingId: number | null, feature: VariationFeature, text: string): string | undefined {
    const casting = castingId === null ? undefined : this.#reference.castingOf(castingId);
    const own = casting?.features[feature] ?? [];
    if (own.includes(text)) return text;
    const plainText = plain(text);
    return own.find(one => plain(one) === plainText) ?? this.#reference.textsOf(feature).get(plainText);
  }

  /**
   * The one text of the casting's own that this is another spelling of, as "2 lamp" or "with fins"; of a
   * colour, the only one with its word.
   */
  #spelled(castingId: number | null, feature: VariationFeature, text: string): string | undefined {
    const casting = castingId === null ? undefined : this.#reference.castingOf(castingId);
    const written = fold(text)
      .trim()
      .replace(/^(?:with|mit|avec|met|w) (?:the )?/, '');
    const between = feature === 'rearEnd' ? 'rear|back' : undefined;
    const fitting = (casting?.features[feature] ?? []).filter(own =>
      new RegExp(
        `^(?:${spellingOf(fold(own).trim(), { isShort: true, isBeside: true, between })})$`,
        'u',
      ).test(written),
    );
    if (fitting.length > 0) return fitting.length === 1 ? fitting[0] : undefined;
    if (feature === 'colour')
      return onlyColourWith(written, casting?.features.colour ?? [], this.#allColours());
    const english = inEnglish(written);
    return casting?.features[feature].find(own => fold(own).trim() === english);
  }

  #feature(castingId: number | null, feature: VariationFeature, text: string): FeatureReading {
    const named =
      this.#named(castingId, feature, text) ??
      this.#named(castingId, feature, withNumberAsWord(text)) ??
      this.#spelled(castingId, feature, text);
    if (named !== undefined) return { value: named };
    if (text.includes('?')) return ask(text, `"${text}" is in doubt`);
    if (figure.test(text)) return ask(text, `"${text}" is a number, not a kind`);
    if (feature === 'bodyFinish' && (isAboutFinish(text) || noColour.test(text)))
      return ask(text, `"${text}" says what became of the paint, not which it was`);
    if (remark.test(text) || saysYes(text) || /^false$/i.test(text)) return { isRemark: true };
    const part = partOf[feature];
    if (part && gone.test(text)) return { facts: { missing_parts: part } };
    if (part && repro.test(text)) return { facts: { reproduction_parts: part } };
    if (aboutParts.test(text))
      return ask(text, `"${text}" says what became of a part, not of which kind it is`);
    if (part && part !== 'roof' && /^(?:no|none|keine?|aucun)$/i.test(text))
      return ask(text, `"${text}": whether it is missing or never was there is not said`);
    if (feature === 'rearEnd' && saysNo(text)) return ask(text, `"${text}" does not say of which kind it is`);
    if (part && isShortened(text)) return ask(text, `what "${text}" is short for is not known`);
    return { value: text };
  }

  #colour(castingId: number | null, text: string, column: string): FeatureReading {
    const named = this.#named(castingId, 'colour', text) ?? this.#spelled(castingId, 'colour', text);
    if (named !== undefined) return { value: named };
    if (isPlainColour(text)) return { value: text };
    if (isAboutFinish(text)) return ask(text, `"${text}" says what became of the paint, not which it was`);
    if (noColour.test(text)) return ask(text, `"${text}" names no paint`);
    if (text.includes('?')) return ask(text, `"${text}" is in doubt`);
    if (severalFacts.test(text)) return this.#facts(castingId, text, column);
    if (isShortened(text)) return ask(text, `what "${text}" is short for is not known`);
    const casting = castingId === null ? undefined : this.#reference.castingOf(castingId);
    const close = casting && nearest(text, casting.features.colour);
    if (close) return ask(text, `this casting has no variation in "${text}" (did you mean "${close}"?)`);
    return { value: text };
  }

  /** Several facts in the cell of a colour: what is certain of them; the rest is not understood. */
  #facts(castingId: number | null, text: string, column: string): FeatureReading {
    const line = readSaleLine(text, this.lexiconOf(castingId, this.#words, 'cell'), {
      currency: 'USD',
      orders: {},
      today: '9999-12-31',
      column,
      day: null,
      price: null,
      source: ' ',
    });
    const { colour, source: _, casting: __, release_name: ___, ...facts } = line.fields;
    const isRead = colour !== undefined || Object.keys(facts).length > 0;
    if (!isRead) return ask(text, `"${text}" is not understood as paint`);
    return {
      heard: line.heard,
      ...(colour !== undefined && { value: colour }),
      facts: facts as Record<string, string>,
      unread: line.unread.map(({ text: left }) => ({ text: left, reason: `"${left}" is not understood` })),
    };
  }
}
