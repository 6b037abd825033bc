import type { PartName } from '../../words.ts';

/** Common words of sale titles in several languages, without accents. Common practice, no source. */

const list = (words: string): string[] => words.split(/\s+/).filter(Boolean);

const englishColours =
  list(`purple violet lilac mauve lavender magenta pink rose fuchsia red crimson scarlet maroon burgundy
  orange amber yellow gold lemon mustard green lime olive emerald aqua teal turquoise cyan blue navy azure brown bronze copper
  tan beige cream ivory white black grey gray silver charcoal`);
const germanColours = list(
  'rot blau grun gelb weiß weiss schwarz grau braun lila violett rosa turkis silber golden creme hellblau dunkelblau hellgrun dunkelgrun hellrot dunkelrot hellbraun dunkelbraun hellgrau dunkelgrau',
);
const otherColours =
  list(`rouge bleu bleue vert verte jaune blanc blanche noir noire gris grise marron violette dore argent
  rosso blu verde giallo bianco nero grigio viola arancio arancione azzurro celeste marrone argento
  rojo azul amarillo blanco negro morado naranja rosado plateado dorado
  rood rode blauw blauwe groen groene geel gele zwart zwarte wit witte grijs grijze paars paarse oranje bruin bruine zilver goud roze`);

const alternatives = (words: Iterable<string>): string =>
  [...new Set(words)].sort((a, b) => b.length - a.length || (a < b ? -1 : 1)).join('|');

/** Not of "near mint", which is one condition. */
export const mint = '(?<!(?:near|nr\\.?|n\\.?) )mint';
/** A shade of green; before any other colour it is a condition. */
const mintShade = `${mint}(?=[ -]green(?!\\p{L}))`;

/** A colour in plain words; German ones with the ending that their noun gives them, in the group `ending`. */
const colourWord = (ending: string) =>
  `(?:(?:light|dark|pale|bright|deep|metallic|candy|lime|${mintShade}|olive|sea|sky|navy|royal|ice|grass|apple|lemon|brick|cherry|midnight|powder|petrol|hell|dunkel)[ -])?(?:${alternatives([...englishColours, ...otherColours])}|(?:${alternatives(germanColours)})${ending}(?!\\p{L}))`;
export const plainColour = colourWord('(?<ending>em|en|er|es|e)?');
export const anyColour = colourWord('(?:em|en|er|es|e)?');
export const colourWords: ReadonlySet<string> = new Set([
  ...englishColours,
  ...germanColours,
  ...otherColours,
]);

const partLists: [PartName, string][] = [
  [
    'glazing',
    'glass glazing windows window windshield windscreen scheibe scheiben verglasung fenster glas vitres vitrage cristales vetri ruit ruiten ramen voorruit gls wndw screen wshld wscreen windshld',
  ],
  [
    'wheels',
    'wheels wheel whls whl wheelset tyres tyre tires tire rader rad reifen felgen roues roue ruedas ruote wielen wiel banden',
  ],
  ['axles', 'axles axle achse achsen'],
  ['interior', 'interior seats seat innenraum inneneinrichtung sitze interieur'],
  [
    'opening parts',
    'bonnet hood lid lids bootlid boot trunk tailgate door doors motorhaube haube kofferraum heckklappe tur turen motorkap kofferdeksel capot hayon portes cofano portiera capo puerta puertas',
  ],
  [
    'bumpers',
    'bumper bumpers stossstange stossstangen stosstange stosstangen parechoc parechocs paraurti parachoques',
  ],
  [
    'lamps',
    'headlamp headlamps headlight headlights lamp lamps scheinwerfer phare phares koplamp koplampen fari faros',
  ],
  ['roof', 'roof dach toit techo tetto dak'],
  ['base', 'base baseplate bodenplatte boden'],
  ['labels', 'labels label decals decal stickers sticker aufkleber'],
  ['accessory', 'accessory accessories zubehor'],
  ['post and rivet closure', 'rivets rivet posts'],
];
export const partNouns: ReadonlyMap<string, PartName> = new Map(
  partLists.flatMap(([part, words]) => list(words).map(word => [word, part] as const)),
);
export const partNoun = alternatives(partNouns.keys());
/**
 * Parts that a grade beside them is said of: what stands before "C8" is more often a feature than a part that
 * opens.
 */
export const gradedNoun = alternatives(
  partLists.flatMap(([part, words]) => (part === 'opening parts' || part === 'lamps' ? [] : list(words))),
);

/**
 * Bodies that a name may end with: after the first word of a known name, another one makes it another car.
 */
export const bodyNouns: ReadonlySet<string> = new Set(
  list(`saloon sedan coupe van estate wagon racer hauler truck lorry bus coach convertible roadster pickup tanker ambulance
  flyer runabout tractor trailer breakdown taxi cab buggy special speedster limousine jeep post`),
);

/** What is said of a part's state: its colour may then be anything. */
export const conditionWord =
  'fine|good|nice|ok|okay|perfect|cracked|chipped|scratched|broken|worn|poor|bad|scuffed|crazed|yellowed|dirty|clean|loose|bent|faded|replaced|damaged|split';

/**
 * What stands behind a part that is not meant itself: "no roof rack", "no base rust", "missing wheel arch".
 */
export const aboutPart =
  'racks?|bars?|lights?|lamps?|rust|rot|cracks?|chips?|scratches|damage|wear|marks?|loss|play|arch|arches|bag|post|bumps?|dents?|corrosion|paint|box|issues?|problems?';

export const without =
  'missing|msg|without|w/o|no|lacks|lacking|lost|minus|ohne|sans|sin|senza|zonder|fehlende|fehlen|fehlt';
/** That a car is wanted: anywhere in a line, and where it begins the line. Common practice, no source. */
export const wanting = 'wtb|want(?:ed)? to buy|looking for|in search of';
export const wantingFirst = 'wanted|suche|gesucht|cherche|zoek|cerco|busco';
export const gone =
  'missing|msg|gone|lost|absent|lacking|fehlt|fehlen|fehlend|manquant|manquante|manquantes|ontbreekt|ontbreken|mancante|mancanti|falta|faltan';
export const repro =
  'reproductions|reproduction|repros|repro|replicas|replica|nachbau|nachbauten|nachgefertigt|nachgebaut|nagemaakt|refabrique|repliken|reproductie|reproducties|riproduzione|reproduccion';
/** A figure of a grade: "8", "7.5", "7½". */
export const numberedGrade = '\\d{1,2}(?:[.,]\\d)?(?: ?½| 1/2)?';
export const about = 'about|approx\\.?|approximately|around|maybe|circa|ca\\.?|etwa|perhaps|probably|say|~';

export const bodyless =
  'poster|posters|shop display|store display|counter display|display box|shop sign|dealer sign|catalogue|catalog|brochure|leaflet|advert|advertisement|keyring|t-shirt|display stand|display cabinet|display case|glass cabinet|pin badge|collectors? button|collector s button|price guide|price list|sticker sheet|instruction sheet|carry case|carrying case|collector case|katalog|prospekt|plakat|affiche|affiches|locandina|cartel';
export const carsWord =
  'cars|autos|models|vehicles|castings|diecasts|die-casts|die casts|pieces|stuck|modelle|voitures|coches|toys';
export const kindsOfCars = 'vans|lorries|trucks|wagons|coaches|buses|saloons|sedans|tourers|racers|pickups';
export const numberWord =
  'two|three|four|five|six|seven|eight|nine|ten|twelve|dozen|zwei|drei|vier|funf|sechs|deux|trois';
export const numbers: Readonly<Record<string, string>> = {
  '2': 'two',
  '3': 'three',
  '4': 'four',
  '5': 'five',
  '6': 'six',
  '1': 'one',
};

export const sourceNoun =
  'auction|auctions|fair|fairs|toyfair|swapmeet|swap meet|dealer|shop|online|toy show|market|flea market|car boot sale|boot sale|garage sale|yard sale|club|borse|flohmarkt|auktion|handler|estate sale|est\\. sale|asking price|asking|private sale|private|privat|show|brocante|beurs|veiling|messe|vide-grenier|mercatino|rommelmarkt|vente aux encheres';

export const countries: readonly string[] = [
  'England',
  'Great Britain',
  'Portugal',
  'Spain',
  'France',
  'Germany',
  'West Germany',
  'Italy',
  'Hong Kong',
  'Macau',
  'Mexico',
  'Brazil',
  'Argentina',
  'USA',
  'Japan',
  'Hungary',
  'Bulgaria',
  'Singapore',
  'Malaysia',
  'China',
  'Thailand',
  'India',
];

/** Words that say nothing of the car once the rest of a line is read. */
export const fillers: ReadonlySet<string> = new Set(
  list(`a an the in on at of for to from with w and und mit et con y e its it is was were are be been i saw see seen go goes went gone
  sold sale selling paid price total car toy toys diecast model item there that this one der die das ein eine im am auf bei fur verkauft by has have had le la les den`),
);
