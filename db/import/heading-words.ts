import { plainWord } from '../../valuation/reading/words.ts';
import type { ImportKind } from './types.ts';

/**
 * What single words of a heading speak of, in the languages that lists are kept in. Common practice, no
 * source.
 */
const wordLists = {
  money:
    'paid pay gave spent spend amt cost costs price prices preis prijs prix prezzo precio pris kosten kost coste costo bezahlt betaald betalt ' +
    'paye pagato pagado amount much betrag hammer',
  bought:
    'bought buy buying purchased purchase acquired acquisition got gekauft kauf einkauf achat achete acquisto acquistato comprado compra gekocht aankoop ' +
    'kopt kobt',
  sold: 'sold sale selling verkauft verkauf vendu vente venduto vendita vendido venta verkocht verkoop salgt solgt sald erlos opbrengst',
  day: 'date day when datum data fecha dato quand wann giorno dag jour on op am le il el',
  seller:
    'seller vendor dealer shop source from whom verkaufer handler vendeur vendedor venditore verkoper handelaar saljare seljare saelger chez',
  estimate:
    'estimate estimated est worth value valued guess wert valeur valore valor waarde schatzung schatzwert',
  currency: 'currency wahrung devise valuta moneda monnaie',
  colour:
    'colour color colours colors coloured farbe farben couleur couleurs kleur colore farg farve shade teinte lackierung',
  grade:
    'conditie konditie kondition condition conditions looks look grade grading zustand etat stato estado staat toestand skick stand rating score good shape erhaltung conservation',
  casting:
    'car model name casting toy vehicle modell modele modello modelo fahrzeug voiture macchinina coche auto bil',
  year: 'year yr jahr annee anno ano jaar ar baujahr jahrgang',
  base: 'underside base bottom underneath baseplate dessous fondo sotto bodem onderkant unterseite bodenplatte chassis undersida',
  rear: 'rear back tail tails feux heckleuchten rucklichter achterkant achterlichten posteriore trasera fanali luces',
  roof: 'roof dach toit tetto techo dak',
  interior: 'innen innenfarbe interior seats seat inside innenraum sitze interieur interni asientos',
  glazing: 'glass windows window glazing windscreen windshield scheiben vitres vetri ruiten cristales',
  wheels: 'wheels wheel tyres tires rader roues ruote ruedas wielen jantes',
  location:
    'location place keep lives found donde dove box shelf drawer cabinet stored storage kept tray lagerort rangement plaats luogo lugar ubicacion kast doos scatola caja boite kiste regal',
  number: 'ref reference',
  quantity: 'qty quantity many anzahl stuckzahl quantite quantita cantidad aantal antal',
  notes:
    'notes note comments comment remarks remark anything else observations bemerkung bemerkungen notizen anmerkung anmerkungen remarques note opmerkingen ' +
    'osservazioni notas anteckningar',
} as const;
type Subject = keyof typeof wordLists;
const subjectOf = new Map<string, Subject>();
for (const [subject, words] of Object.entries(wordLists) as [Subject, string][])
  for (const word of words.split(' ')) if (!subjectOf.has(word)) subjectOf.set(word, subject);

/** A heading with one of these speaks of something that no column of ours holds, whatever else it says. */
const otherThings = new Set(
  (
    'postage shipping carriage freight insurance insured tax fee fees premium asking reserve target list retail catalogue catalog guide book replacement ' +
    'profit gain loss restoration restore repair repairs hours photo photos picture link url max min limit bid bids high low versand porto versicherung ' +
    'frais livraison spedizione envio todo wanted want need parts part before after code codes would could should willing offer offers budget metal plastic material'
  ).split(' '),
);

/** Parts of a car: with one of them, "colour" is the part's, and a condition is no grade of the car. */
const parts = ['roof', 'interior', 'glazing', 'wheels', 'base', 'rear'] as const;
const ofParts: Record<(typeof parts)[number], string> = {
  roof: 'roof',
  interior: 'interior',
  glazing: 'glazing',
  wheels: 'wheels',
  base: 'base_paint',
  rear: 'rear_end',
};
/** What speaks for itself, the surest first. */
const plainly: [Subject, string][] = [
  ['quantity', 'quantity'],
  ['notes', 'notes'],
  ['colour', 'colour'],
  ['grade', 'grade'],
  ['year', 'release_year'],
  ['casting', 'casting'],
  ['location', 'location'],
  ['number', 'inventory_number'],
];
/** What only a list of one's own cars says. */
const ofLots: ReadonlySet<Subject> = new Set(['quantity', 'location', 'number']);

const moneyWords =
  /(?<!\p{L})(?:value|valued|worth|price|estimate|est|cost|wert|preis|valeur|prix|valore|prezzo|valor|precio|prijs|waarde)(?!\p{L})/iu;
const otherState =
  /(?<!\p{L})(?:mint|near mint|nm|mib|mip|moc|boxed|unboxed|loose|excellent|exc|vg|poor|c ?\d{1,2}|rrp|(?:when|from) new|new|original|issue|launch|neu|neuf|nuevo|nuovo|paint|labou?r|plating|chroming|decals?|respray|refurb\p{L}*)(?!\p{L})/iu;

/**
 * True of a heading over what a car in another state brings, what it cost when new, or what work on it cost, as
 * "Value (mint)", "Original price" and "Paint cost".
 */
export const isOfOtherState = (heading: string): boolean =>
  moneyWords.test(heading) && otherState.test(heading);

const longest = 9;
const wouldPay =
  /(?<!\p{L})(?:(?:i|we|you|he|she|they)['’](?:d|ll)|for sale|zu verkaufen|[aà] vendre|en venta|te koop|in vendita)(?!\p{L})/iu;

/** Beside a word for a day they say nothing more of it, or that something changed hands then. */
const besideDay = new Set(
  (
    'of the a an i it we my this that in did was to at by which what der die das des la le du de el il lo ' +
    'order ordered invoice receipt transaction deal trade swap auction fair show event end ended closing close delivery delivered arrival arrived ' +
    'received recd rcvd rec obtained found gift given won inherited came in into collection joined zugang erhalten recu entree ' +
    'bestellung rechnung commande facture m d y mm dd yy yyyy tt jj jjjj aaaa'
  ).split(' '),
);

const ofMoney = (
  subjects: ReadonlySet<Subject>,
  as: ImportKind,
  words: readonly string[],
): string[] | null => {
  const has = (subject: Subject) => subjects.has(subject);
  if (as === 'reference' || has('notes')) return null;
  const isOfDeal = (['money', 'bought', 'sold', 'seller', 'estimate', 'day'] as const).some(has);
  // How a car was when it was bought, or what its seller said of it, is neither of the two.
  if (isOfDeal && (has('grade') || has('colour'))) return [];
  if (has('currency')) return has('sold') ? [] : [as === 'lot' ? 'price_paid_currency' : 'currency'];
  const [day, price] = as === 'sales' ? ['sold_on', 'price'] : ['sold_on', 'sold_for'];
  if (has('sold')) return has('money') ? [price] : has('day') || has('year') ? [day] : [day, price];
  if (has('estimate')) return as === 'lot' ? ['own_estimate'] : [];
  // The day of something else, as of restoring, is no day of buying.
  const isPlainDay = has('day') && words.every(word => subjectOf.has(word) || besideDay.has(word));
  if (as === 'sales')
    return has('money') ? ['price'] : isPlainDay ? ['sold_on'] : has('seller') ? ['source'] : null;
  if (has('money')) return has('day') ? ['price_paid', 'bought_on'] : ['price_paid'];
  if (has('seller')) return ['seller'];
  if (has('bought')) return has('day') || has('year') ? ['bought_on'] : ['bought_on', 'price_paid', 'seller'];
  return isPlainDay ? ['bought_on'] : null;
};

/**
 * Our columns that a heading may mean by the words in it, as "What he paid" or "Couleur de la carrosserie";
 * none where it speaks of something else too. To be held against the cells below it: words alone prove
 * little.
 */
export const meaningsByWords = (as: ImportKind, heading: string): string[] => {
  const words: string[] = plainWord(heading).match(/\p{L}+/gu) ?? [];
  // What a lot cost is no one car's, and what somebody would pay is no price.
  if (as === 'lot' && words.length > 1 && words.includes('lot')) return [];
  if (wouldPay.test(heading) || isOfOtherState(heading)) return [];
  if (words.length > longest || words.some(word => otherThings.has(word))) return [];
  const subjects = new Set(words.flatMap(word => subjectOf.get(word) ?? []));
  const part = parts.filter(name => subjects.has(name));
  if (part.length > 0) {
    const isOfPart = part.length === 1 && !subjects.has('grade') && !subjects.has('money');
    return isOfPart ? [ofParts[part[0] as (typeof parts)[number]]] : [];
  }
  if (as === 'lot' && subjects.has('quantity') && !subjects.has('money')) return ['quantity'];
  const found = ofMoney(subjects, as, words);
  if (found) return found;
  const plain = plainly.find(([subject]) => subjects.has(subject));
  if (!plain || (as === 'reference' && ['quantity', 'grade', 'location', 'notes'].includes(plain[0])))
    return [];
  return ofLots.has(plain[0]) && as !== 'lot' ? [] : [plain[1]];
};

/** True of a heading that speaks of what a car is called and of nothing else, as "Car" and "Model name". */
export const isOfNames = (heading: string): boolean => {
  const words = plainWord(heading).match(/\p{L}+/gu) ?? [];
  return words.length > 0 && words.every(word => subjectOf.get(word) === 'casting');
};
