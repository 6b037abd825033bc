import type { FoundName } from './casting.ts';
import { type Lexicon, wordsOf } from './lexicon.ts';
import { fold, type Line, words } from './text.ts';
import {
  bodyless,
  carsWord,
  kindsOfCars,
  numberWord,
  partNoun,
  repro,
  wanting,
  wantingFirst,
} from './vocabulary.ts';

/** Why a line is no sale of one car. */
export type NotASale = 'lot' | 'not a car' | 'no price' | 'no date';

const many = `(?:[2-9]|\\d{2,3}|${numberWord})`;
const lotPatterns = [
  words(`(?:job|mixed|bulk) lot|joblot|konvolut|sammlung|bundle|assortment|assorted`),
  words(`(?:lot|collection|group|bunch|set|box|posten|paket) (?:of|von|mit|de) (?:about )?${many}`),
  words(`${many} (?:[\\p{L}-]+ ){0,2}(?:${carsWord})`),
  words(
    `(?:collection|group|bunch|box|pair|couple|quantity|qty|selection|number|handful|bag|tin|tray) of (?:[\\p{L}-]+ ){0,2}(?:${carsWord}|${kindsOfCars})`,
  ),
  words('x ?(?:[2-9]|1\\d)|(?:[2-9]|1\\d) ?x'),
];
/** Beside a price, which is taken: "£30 the lot", "A$90 both", "pair £12". */
const forAll =
  /\ue000 *(?:for )?(?:both|all|(?:the|all the) (?:lot|pair|set)|zusammen|together) *(?=$|[,;|()])|(?<!\p{L})(?:pair|both)(?: for)?:? *\ue000/u;
/** A count that begins the line, and a price that is said to be the total: "3 Silver Kite £90 total". */
const countBefore = new RegExp(`^[^\\p{L}\\d]*${many} $`, 'u');
const totalled = /\ue000 *(?:in )?total(?!\p{L})/u;
const partsLot = words(
  `(?:set|pair|lot|box|bag|tin|jar|tray|handful) of (?:${many} )?(?:[\\p{L}-]+ ){0,2}(?:${partNoun})`,
);
const emptyBox = words(
  'empty (?:box|blister|package|packet)|(?:box|blister|package|instructions|parts|wheels|base|body) only|box for|leere[rs]? (?:box|schachtel|karton|ovp)|leer(?:karton|schachtel|box)|boite vide|lege doos|scatola vuota|caja vacia',
);
const goods = words(bodyless);
const beside =
  /(?:with|w|in|and|incl\.?|including|\+|&|plus|mit|no|without|w\/o|ohne) *(?:a |an |the |its |original |dealer )*$/;
const forIt =
  /(?:^|[^\p{L}])(?:for|fits|fit|fur|pour|per|para) +(?:a |an |the |your |my |any |ein |eine |einen )*$/u;
const partThing = words(`(?:${partNoun})|box|blister|case|stand|parts?`);
const counted = words(`(?:bag|box|tin|jar|pack|packet|lot|set) of (?:${many})`);
const loosePart = words(`(?:${repro}|replacement|spare|loose) (?:${partNoun})`);

/** True of a name that is one of the things beside cars, such as "Display cabinet (oak)" and "Spare wheels". */
export const isOfGoods = (name: string): boolean => {
  const text = fold(name);
  const at = text.search(goods);
  return (
    (at >= 0 && !beside.test(text.slice(0, at))) ||
    text.replace(loosePart, '').trim() === '' ||
    /^(?:spare |loose )?parts?(?= *(?:$|[-:,(]))/.test(text)
  );
};

/** True where what was sold is a poster, a box or parts, and no car. */
const isNoCar = (line: Line, names: FoundName[], accessories: ReadonlySet<string>): boolean => {
  const text = line.rest();
  if (line.matches(emptyBox).length > 0) return true;
  if (line.matches(goods).some(match => !beside.test(text.slice(0, match.index)))) return true;
  const first = names[0]?.span.start ?? null;
  if (first !== null) {
    const before = text.slice(0, first);
    return (
      names.every(({ span }) => forIt.test(text.slice(0, span.start))) &&
      (before.match(partThing) !== null || wordsOf(before).some(word => accessories.has(word)))
    );
  }
  // Without a known name: reproduction wheels, or a set of wheels, that begin the line.
  const start = text.search(/[\p{L}\p{N}]/u);
  return (
    line.matches(partsLot).some(match => match.index === start || forItLater(text, match.index)) ||
    line
      .matches(loosePart)
      .some(
        match => match.index === start && (forItLater(text, match.index) || line.matches(counted).length > 0),
      )
  );
};

const forItLater = (text: string, from: number): boolean => / (?:for|fits|fur|pour) /.test(text.slice(from));

/** True where several cars went for one price. */
const isLot = (line: Line, names: FoundName[]): boolean => {
  const text = line.rest();
  if (new Set(names.map(({ name }) => name.castingId)).size > 1) {
    const places = new Set(names.map(({ span }) => span.start));
    if (places.size > 1) return true;
  }
  const several = new RegExp(
    `(?:^|[^\\p{L}\\p{N}./])(?:${many}|both|pair of|couple of) (?:[\\p{L}-]+ ){0,1}$`,
    'u',
  );
  if (forAll.test(text)) return true;
  if (totalled.test(text) && names.some(({ span }) => countBefore.test(text.slice(0, span.start))))
    return true;
  if (names.some(({ isPlural, span }) => isPlural && several.test(text.slice(0, span.start)))) return true;
  return lotPatterns.some(pattern =>
    line.matches(pattern).some(match => {
      const after = text.slice(match.index + match[0].length);
      return !new RegExp(`^ (?:[\\p{L}-]+ )?(?:${partNoun}|lamps|lights)(?!\\p{L})`, 'u').test(after);
    }),
  );
};

/** The last words of what belongs to cars, such as "canoe". */
const accessoriesOf = ({ features }: Lexicon): Set<string> =>
  new Set([...(features.get('accessory')?.keys() ?? [])].flatMap(text => wordsOf(text).at(-1) ?? []));

/** Null where the words are those of one car. */
export const kindOf = (line: Line, names: FoundName[], lexicon: Lexicon): 'lot' | 'not a car' | null =>
  isNoCar(line, names, accessoriesOf(lexicon)) ? 'not a car' : isLot(line, names) ? 'lot' : null;

export const unsold = words(
  `unsold|not sold|no bids?|no takers?|no interest|no sale|(?:did not|didn't|failed to) sell|nicht verkauft|reserve (?:was )?(?:not|never) (?:met|reached)|(?:did not|didn't|failed to|not) (?:meet|make|reach|hit)(?:ing)? (?:the |its )?reserve|not paid|unpaid|never paid|invendu|${wanting}|(?:will|would|can) pay|(?<=^ *)(?:${wantingFirst}|recherche|gezocht)`,
);
