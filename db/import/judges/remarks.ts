import { isAboutFinish } from '../../../valuation/reading/propose.ts';
import { readSaleLine, type SaleLine } from '../../../valuation/reading/sale-line/read-sale-line.ts';
import { plainHeading } from '../../records/unread.ts';
import { plain } from '../../reference/plain.ts';
import { hearPieces } from './description.ts';
import type { FeatureTexts } from './feature-text.ts';
import type { RowReader } from './judge.ts';
import type { WordBook } from './word-book.ts';

/** Fields that remarks are read for; what else they say stays a remark. */
const fieldsOfRemarks = [
  'missing_parts',
  'reproduction_parts',
  'base_paint',
  'finish_state',
  'release_name',
  'rear_end',
  'roof',
  'interior',
  'glazing',
  'wheels',
  'accessory',
  'country',
  'packaging',
  'packaging_grade',
  'metal',
] as const;

/** Without one of these there is nothing to read in a remark. */
const telling =
  /miss|gone|lost|lack|repro|without|\bno\b|\bw\/|ohne|sans|fehl|manqu|ontbr|paint|lack|gelakt|gespoten|repintad|verniciat|restor|restaur|repeint|strip|touch|custom|orig|whls|roof|\brf\b|int[eé]r|\bint\b|inside|innen|seats?|glass?|\bgls\b|glazing|tint|windows?|wshld|windscreen|windshield|screen|wheels?|wielen|r[äa]der|roues|made in|hong ?kong|\bhk\b|\busa\b|dach|sitze|scheibe|ruit|vitre|toit|\bdak\b|base|bare|nach|box|card|ovp|originalverp|\bbag|dent|ding|crack|\brot\b|pitt/i;
const aboutParts = /repro|missing|fehl|manqu|nachbau|\bgone\b|\blost\b/i;

interface Remark {
  facts: [string, string][];
  /** One of the casting's own colours. */
  colour: string | null;
  unread: { field: string; text: string }[];
  heard: SaleLine['heard'];
}

const ofParts = new Set(['missing_parts', 'reproduction_parts', 'packaging', 'packaging_grade', 'metal']);
/** True where a list has a column of a field, or one of all parts. */
const isToldBy = (places: ReadonlyMap<string, number>, field: string): boolean =>
  places.has(field) || (ofParts.has(field) && places.has('parts'));

/**
 * Reads remarks for what is certain in them of parts, base paint and finish; they themselves stay as they
 * are. What they say of the finish or of parts in words that can be meant differently is not understood.
 */
export const remarksReader = (texts: FeatureTexts, { words }: WordBook) => {
  const known = new Map<string, Remark>();
  const ownBy = new Map<string, typeof words>();
  /** The owner's words for texts under a heading. */
  const ownOf = (heading: string): typeof words => {
    const before = ownBy.get(heading);
    if (before) return before;
    const own = words.filter(
      ({ column, field }) =>
        plainHeading(column) === plainHeading(heading) ||
        (column === '*' && (field === 'nothing' || fieldsOfRemarks.some(one => one === field))),
    );
    ownBy.set(heading, own);
    return own;
  };
  const isTelling = (
    text: string,
    castingId: number | null,
    own: typeof words,
    readsColour: boolean,
  ): boolean =>
    telling.test(text) ||
    texts.mayName(castingId, text) ||
    (readsColour && texts.namesColour(castingId, text)) ||
    own.some(word => plain(text).includes(plain(word.text)));
  const readRemark = (text: string, castingId: number | null, heading: string, own: typeof words): Remark => {
    const line = readSaleLine(text, texts.lexiconOf(castingId, own, `remark ${heading}`), {
      currency: 'USD',
      orders: {},
      today: '9999-12-31',
      column: heading,
      day: null,
      price: null,
      source: ' ',
    });
    const named = new Set<string>([...fieldsOfRemarks, ...own.map(({ field }) => field)]);
    return {
      facts: Object.entries(line.fields).filter(([field]) => named.has(field)),
      colour: texts.isColourOf(castingId, line.fields.colour) ? (line.fields.colour ?? null) : null,
      heard: line.heard,
      unread: line.unread.flatMap(({ text: left }) =>
        isAboutFinish(left)
          ? [{ field: 'finish_state', text: left }]
          : aboutParts.test(left)
            ? [{ field: 'notes', text: left }]
            : [],
      ),
    };
  };
  return (row: RowReader, castingId: number | null, column = 'notes'): void => {
    const text = row.text(column);
    if (text === '' || text.length > 2000) return;
    const heading = row.heading(column);
    const own = ownOf(heading);
    const { isOurs, places } = row.habits.mapping;
    // A list without a column of colours may name them among its remarks.
    const readsColour = !places.has('colour');
    // Most remarks tell nothing that has a field; they are not remembered either.
    if (!isTelling(text, castingId, own, readsColour)) return;
    const key = `${castingId} ${heading} ${text}`;
    const remark = known.get(key) ?? readRemark(text, castingId, heading, own);
    if (known.size >= 20_000) known.clear();
    known.set(key, remark);
    for (const [field, value] of remark.facts)
      if (!row.has(field) && !(isOurs && isToldBy(places, field))) row.give(field, value, column);
    if (readsColour && remark.colour !== null && !row.has('colour'))
      row.give('colour', remark.colour, column);
    hearPieces(row, column, remark.heard);
    for (const { field, text: left } of remark.unread)
      if (field !== 'finish_state' || !row.tellsFinish)
        row.miss(column, `"${left}" is not understood`, left, field);
  };
};
