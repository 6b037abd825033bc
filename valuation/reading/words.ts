import {
  type BasePaint,
  basePaints,
  type FinishState,
  finishStates,
  type Grade,
  gradeLabel,
  isGrade,
  type PartName,
  partNames,
  type Rarity,
  rarities,
  settableStatuses,
} from '../words.ts';
import { inFigures } from './number-words.ts';
import { type Cell, isAmountCell, notUnderstood, type Reading, shownNumber, understood } from './reading.ts';
import { wheelsIn } from './wheels.ts';

/** Lower case, one space between words, no accents, hyphens as spaces: what two spellings of a word share. */
export const plainWord = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[\s\-_]+/g, ' ')
    .trim();

/**
 * A grade as people write it: `C7.5`, `7`, `7/10`, `7,5`, `C 7½`, `7 1/2`, `C nine`, `C-VIII`, `grade 7`. Refuses
 * other words, ranges and quarter points.
 */
export const readGrade = (cell: Cell): Reading<Grade> => {
  if (cell instanceof Date)
    return notUnderstood(
      'the spreadsheet has turned this grade into a date; format the column as text and type it again',
    );
  const written = shownText(cell);
  const shown = written.replace(/^(?:graded?|gr|condition|cond|zustand)[.:]? ?(?=c ?\d|\d)/i, '');
  const text = (/^c[ .-]/i.test(shown) ? inFigures(shown.replace(/^c[ .-]+/i, ''), true) : shown)
    .replace(/ ?½| 1\/2/g, '.5')
    .replace(/\s+/g, '')
    .replace(',', '.');
  const match = /^[cC]?\.?(\d{1,2}(?:\.\d+)?)(?:\/10)?$/.exec(text);
  const value = Number(match?.[1]);
  if (!match) return notUnderstood(`"${shown}" is not a grade from C1 to C10 such as ${gradeLabel(7.5)}`);
  if (value >= 1 && value <= 10 && !isGrade(value))
    return notUnderstood(`"${shown}": grades go in half points, such as ${gradeLabel(7.5)}`);
  if (!isGrade(value)) return notUnderstood(`"${shown}" is outside C1 to C10`);
  return understood(value);
};

const finishWords: Record<string, FinishState> = {
  'factory finish': 'original',
  factory: 'original',
  'original paint': 'original',
  'original finish': 'original',
  unrestored: 'original',
  orig: 'original',
  touchup: 'touched up',
  'touch up': 'touched up',
  retouched: 'touched up',
  touched: 'touched up',
  'd origine': 'original',
  originallack: 'original',
  originalzustand: 'original',
  'peinture d origine': 'original',
  resto: 'restored',
  gerestaureerd: 'restored',
  origineel: 'original',
  restauriert: 'restored',
  restaure: 'restored',
  restauree: 'restored',
  restaurato: 'restored',
  restaurado: 'restored',
  ausgebessert: 'touched up',
  retouche: 'touched up',
  entlackt: 'stripped',
  decape: 'stripped',
  restoration: 'restored',
  custom: 'customised',
  customized: 'customised',
  customised: 'customised',
  strip: 'stripped',
};
/** Only words that say where; "painted" alone could be a quarter or the whole. Common practice, no source. */
const baseWords: Record<string, BasePaint> = {
  no: 'none',
  unpainted: 'none',
  'not painted': 'none',
  bare: 'none',
  'front 1/4': 'front quarter',
  'front qtr': 'front quarter',
  'rear qtr': 'rear quarter',
  'back qtr': 'rear quarter',
  'rear 1/4': 'rear quarter',
  'back quarter': 'rear quarter',
  'back 1/4': 'rear quarter',
  complete: 'full',
  all: 'full',
  whole: 'full',
  'fully painted': 'full',
  'all painted': 'full',
  'completely painted': 'full',
  'full paint': 'full',
  'ganz lackiert': 'full',
  'komplett lackiert': 'full',
  'entierement peint': 'full',
  'entierement peinte': 'full',
  unlackiert: 'none',
  'nicht lackiert': 'none',
  'non peint': 'none',
  'non peinte': 'none',
  'bare metal': 'none',
  'no paint': 'none',
  'no paint on base': 'none',
  ongelakt: 'none',
  'niet gelakt': 'none',
  'geheel gelakt': 'full',
  'volledig gelakt': 'full',
};

/**
 * A painted end of the base, in either order and as it is shortened: "painted front", "rear ptd", "front
 * of base painted".
 */
const paintedEnd =
  /^(?:(?:painted|ptd) )?(front|frt|fr|rear|rr|back|bk|vorne|vorn|hinten|avant|arriere|voorste|voorkant|achterste|achterkant)(?: (?:end|half|part|quarter|qtr\.?|qrtr|1\/4|kwart))?(?: of (?:the )?base)?(?: only)?(?: (?:is )?(?:painted|ptd|paint|lackiert|peint|peinte|gelakt)(?: only)?)?(?: base)?$/;
const paintedInFrench = /^peinte? a l['’ ](avant|arriere)$/;
const isPainting = /painted|ptd|paint|lackiert|peint|gelakt/;
const frontEnds = new Set(['front', 'frt', 'fr', 'vorne', 'vorn', 'avant', 'voorste', 'voorkant']);
const rarityWords: Record<string, Rarity> = {
  normal: 'common',
  'very rare': 'rare',
  'hard to find': 'scarce',
};
const partWords: Record<string, PartName> = {
  body: 'body finish',
  paint: 'body finish',
  finish: 'body finish',
  glass: 'glazing',
  windows: 'glazing',
  window: 'glazing',
  windshield: 'glazing',
  screen: 'glazing',
  windscreen: 'glazing',
  wheel: 'wheels',
  tyres: 'wheels',
  tires: 'wheels',
  axle: 'axles',
  seats: 'interior',
  accessories: 'accessory',
  label: 'labels',
  decals: 'labels',
  stickers: 'labels',
  posts: 'post and rivet closure',
  rivets: 'post and rivet closure',
  rivet: 'post and rivet closure',
  post: 'post and rivet closure',
  bumper: 'bumpers',
  lamp: 'lamps',
  headlamp: 'lamps',
  headlight: 'lamps',
  headlamps: 'lamps',
  headlights: 'lamps',
  metal: 'casting metal',
  casting: 'casting metal',
  bodyshell: 'casting metal',
  bonnet: 'opening parts',
  hood: 'opening parts',
  boot: 'opening parts',
  trunk: 'opening parts',
  doors: 'opening parts',
  door: 'opening parts',
  tailgate: 'opening parts',
  'boot lid': 'opening parts',
  'trunk lid': 'opening parts',
  boxed: 'packaging',
  'blister card': 'packaging',
  packet: 'packaging',
  package: 'packaging',
  bag: 'packaging',
  box: 'packaging',
  carton: 'packaging',
  card: 'packaging',
  blister: 'packaging',
};

/** What lists in other languages call parts. Common practice, no source. */
const partsAbroad: Partial<Record<PartName, string>> = {
  roof: 'dach,toit,tetto,techo,dak',
  glazing:
    'scheibe,scheiben,frontscheibe,fenster,verglasung,vitre,vitres,pare brise,pare-brise,parabrezza,vetro,vetri,parabrisas,cristal,cristales,voorruit,ruit,ruiten',
  wheels: 'rad,rader,reifen,roue,roues,ruota,ruote,rueda,ruedas,wiel,wielen',
  interior: 'innenraum,sitze,interieur,interni,sedili,asientos',
  base: 'baseplate,base plate,boden,bodenplatte,socle,fondo,bodem',
  axles: 'achse,achsen,essieu,essieux,assi,eje,ejes,assen',
  bumpers: 'stossstange,stossstangen,pare-chocs,pare chocs,paraurti,parachoques',
  lamps: 'scheinwerfer,phare,phares,fari,faros,koplamp,koplampen',
  accessory: 'zubehor,accessoire,accessoires,accessori,accesorios',
  packaging: 'schachtel,verpackung,boite,scatola,caja,doos',
};
for (const [part, words] of Object.entries(partsAbroad) as [PartName, string][])
  for (const word of words.split(',')) partWords[word] = part;
const noParts =
  /^(?:|none|no|nil|n\/a|nothing|nichts|keine?|rien|aucune?|niente|nessun[oa]?|nada|ningun[oa]?|niets|geen)$/;

const shownText = (cell: Cell): string =>
  (isAmountCell(cell) ? `${shownNumber(cell.number)} ${cell.sign}` : String(cell ?? '')).trim();

const chosen = <T extends string>(
  cell: Cell,
  words: readonly T[],
  others: Record<string, T>,
  what: string,
): Reading<T> => {
  const shown = shownText(cell);
  const word = plainWord(shown);
  // A cell that says "constructor" must not find what every object has.
  const found = words.find(w => w === word) ?? (Object.hasOwn(others, word) ? others[word] : undefined);
  return found
    ? understood(found)
    : notUnderstood(`"${shown}" is not a ${what}; write one of: ${words.join(', ')}`);
};

/**
 * Words that say of restored cars and of customised ones alike that another paint is on them. Common
 * practice, no source.
 */
const repainting =
  /^(?:(?:full |complete |old |amateur )?(?:repaint|repainted|over ?painted|refinished|re ?sprayed|umlackiert|neu lackiert|nachlackiert|repeint|repeinte|verniciato|repintado))(?: .*)?$/;

/**
 * A finish state, in our words or common others; anything else is refused, naming the choices. "Repainted" is
 * asked: a restored car is, and a customised one too.
 */
export const readFinishState = (cell: Cell): Reading<FinishState> => {
  const shown = shownText(cell);
  return repainting.test(plainWord(shown).replace(/['’]/g, ' '))
    ? notUnderstood(`"${shown}" is used for more than one finish: say which it is`)
    : chosen(shown.replace(/['’]/g, ' '), finishStates, finishWords, 'finish state');
};

/**
 * How much of the base is painted, in our words or common others; anything else is refused,
 * naming the choices.
 */
export const readBasePaint = (cell: Cell): Reading<BasePaint> => {
  const word = plainWord(shownText(cell))
    .replace(/^base (?:is )?/, '')
    .replace(/[.,]+$/, '');
  const end = isPainting.test(word) ? (paintedEnd.exec(word) ?? paintedInFrench.exec(word))?.[1] : undefined;
  return end === undefined
    ? chosen(cell, basePaints, baseWords, 'base paint')
    : understood(frontEnds.has(end) ? 'front quarter' : 'rear quarter');
};

/** A rarity, in our words or common others; anything else is refused, naming the choices. */
export const readRarity = (cell: Cell): Reading<Rarity> => chosen(cell, rarities, rarityWords, 'rarity');

/** Nothing but how many wheels, and which. */
const wheelWords =
  /^(?:(?:one|two|three|four|both|all|[1-4]|x|of|the|its|a|front|frt|rear|back|left|right|side) ?)+(?:wheels?|whls?|tyres?|tires?)$/;

const whereItSits = /^(?:(?:the|its|front|rear|back|left|right|nearside|offside) )+(?!wheel|whl|tyre|tire)/;

/** Part names, or their beginnings, separated by commas, semicolons, slashes, plus signs or "and". */
export const readParts = (cell: Cell): Reading<PartName[]> => {
  const whole = plainWord(String(cell ?? ''));
  if (noParts.test(whole)) return understood([]);
  const found = new Set<PartName>();
  const words = whole.replaceAll('post and rivet closure', 'posts').split(/[,;/+&|]| and /);
  for (const word of words) {
    if (!word.trim()) continue;
    const named = chosen(word, partNames, partWords, 'part');
    // Where a part sits is no other part: "rear axle", "left door".
    const part = named.ok
      ? named
      : chosen(word.trim().replace(whereItSits, ''), partNames, partWords, 'part');
    const begun = word.trim().length < 3 ? [] : partNames.filter(name => name.startsWith(word.trim()));
    const wheels = wheelWords.test(word.trim()) ? wheelsIn(word) : [];
    if (part.ok) found.add(part.value);
    else if (wheels.length > 0) for (const wheel of wheels) found.add(wheel);
    else if (begun[0] && begun.length === 1) found.add(begun[0]);
    else if (!named.ok) return named;
  }
  return understood(partNames.filter(part => found.has(part)));
};

/** A four-digit year, or two digits from 40 on, which are of the last century: castings are no older. */
export const readYear = (cell: Cell): Reading<number> => {
  if (cell instanceof Date) return understood(cell.getUTCFullYear());
  const shown = shownText(cell);
  const match = /^(?:(\d{4})|['’]?(\d{2}))(?:\.0+)?$/.exec(shown);
  const year = match?.[1] ? Number(match[1]) : 1900 + Number(match?.[2]);
  const isPlausible = match?.[1] ? year >= 1900 && year <= 2100 : year >= 1940;
  return match && isPlausible ? understood(year) : notUnderstood(`"${shown}" is not a year such as 1969`);
};

/**
 * What its owner does with a car. A sold one is refused: its sale is recorded on its own page, with
 * what it brought.
 */
export const readStatus = (cell: Cell): Reading<(typeof settableStatuses)[number]> =>
  chosen(cell, settableStatuses, {}, 'status that a list can give');
