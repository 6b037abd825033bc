import { type Hazard, hazards, type Option } from '../../words.ts';

/**
 * The cautions of bench work, by hazard, the gravest first: one text for the screens, the command line and
 * the README. All of it is from memory and common practice; the authority says where to look it up. The
 * safety data sheet of the product in hand comes before any of it.
 */

export { type Hazard, hazards };

export interface Caution {
  title: string;
  /** The first says the gravest; each stands alone. */
  sentences: readonly string[];
  /** Where to look it up; named from memory. */
  authority: string;
}

/** What holds for every one of them. */
export const generalCautions: readonly string[] = [
  'Follow the safety data sheet of the product you use, and your local codes; where one is needed, ask a licensed professional.',
  'Let air through while you mix and clean up as well; nobody under age works alone.',
  'If something is swallowed, breathed in or in the eyes: rinse or get into fresh air, and call a poison centre or the emergency number with the label in your hand.',
  'A restored toy whose paint nobody knows is a collector’s item: not for small children.',
];

export const cautions: Readonly<Record<Hazard, Caution>> = {
  acid: {
    title: 'Acids',
    sentences: [
      'Do not put zinc alloy in acid, not even briefly: the zinc dissolves, fine detail and posts go first, and it gives off hydrogen, which burns, and fumes.',
      'Never let acid meet bleach or any other chlorine product: that makes chlorine gas.',
      'Hydrochloric acid gives off a choking fume that rusts every tool nearby, nitric acid a brown one that can harm the lungs hours later: outdoors only, or with a respirator for acid gas.',
      'Where you use acid on something else: acid goes into water, never water into acid. Face shield, goggles, gloves and apron; never a closed jar, which bursts.',
      'Neutralise slowly with bicarbonate, a little at a time, because it froths. Keep acid locked away and labelled.',
      'On skin or in the eyes: rinse under running water for 15 minutes and get medical help.',
    ],
    authority: 'the acid’s safety data sheet; OSHA 29 CFR 1910.1200; poison-centre advice on mixing cleaners',
  },
  caustic: {
    title: 'Lye and other caustics',
    sentences: [
      'Caustic soda, lye and oven cleaner dissolve zinc and aluminium too and give off hydrogen: not for these castings.',
      'They can blind, and their mist and dust burn the lungs: face shield and goggles, long gloves, the respirator that the sheet names. In the eyes: rinse for 15 minutes and get medical help at once.',
      'The powder goes into cold water, a little at a time, never water onto the powder: it boils and spits.',
      'Never in one bucket with acid, and never in aluminium.',
    ],
    authority: 'the safety data sheet of sodium hydroxide; NIOSH Pocket Guide',
  },
  plating: {
    title: 'Plating',
    sentences: [
      'No cyanide bath, no chromic acid or chromates, no stainless-steel anode (it makes hexavalent chromium), no salt water as the bath (it makes chlorine): those belong to a licensed plating shop.',
      'Plating gives off hydrogen: in open air or under extraction, away from flame, never in a closed tank.',
      'Nickel can make skin allergic for life; its salts may cause cancer and are toxic to water life: gloves, goggles, breathe no mist, nothing down a drain. Take spent bath to where such waste is collected.',
      'Use an isolated low-voltage supply on a socket with a residual-current device (RCD, GFCI); power off before hands go in.',
      'Zinc alloy needs a strike coat first, not an acid bath.',
    ],
    authority: 'OSHA 29 CFR 1910.1026 on hexavalent chromium; NIOSH on nickel; EPA rules on plating waste',
  },
  lead: {
    title: 'Old paint and lead',
    sentences: [
      'Old toy paint may hold lead, and old yellow, orange and green may be lead chromate: no dry sanding, grinding or blasting, no wire wheel.',
      'No heat gun, torch or hot plate on old paint: it gives off lead fume.',
      'Work wet and wipe up wet, in goggles and a half mask with P100 filters; a HEPA vacuum, never a household one or compressed air.',
      'Keep children, and anyone pregnant, away. Not in a kitchen or over a kitchen sink. Wash hands before eating; keep work clothes apart and wash them apart.',
      'Sludge, water and rags with old paint are hazardous waste: collect them as your local rules say, nothing down a drain. A test swab can miss lead.',
    ],
    authority:
      'EPA 40 CFR 745.85 on lead-safe work; OSHA 29 CFR 1910.1025; CPSC 16 CFR 1303 on lead in paint',
  },
  strippers: {
    title: 'Paint strippers, methylene chloride and NMP',
    sentences: [
      'Use no stripper with methylene chloride: it has killed people in closed rooms. NMP strippers can harm an unborn child, also through the skin.',
      'Read on the sheet what a stripper holds and whether it may go on zinc alloy; one whose sheet does not say is not for these castings.',
      'In open air or with forced draught, in the gloves, goggles and respirator that the sheet names; never warm a stripper, and never close it up in a jar with metal.',
    ],
    authority:
      'EPA 40 CFR 751 on methylene chloride, and its proposal on NMP; the stripper’s safety data sheet',
  },
  solvents: {
    title: 'Solvents',
    sentences: [
      'In open air or with forced draught and a respirator for organic vapour, in the gloves and goggles that the product’s sheet names.',
      'Vapour is heavier than air and runs to pilot lights: no flame, no sparks, no smoking.',
      'Keep solvents in their own closed cans, never in a cup or a bottle for drink.',
    ],
    authority: 'OSHA 29 CFR 1910.1200 and 1910.134; the product’s safety data sheet',
  },
  spray: {
    title: 'Spraying',
    sentences: [
      'Two-pack (2K) paint and clear coat hold isocyanates, which can cause lifelong asthma: never at home with a cartridge mask; supplied air, in a trained shop only.',
      'Spray in the open or in a booth whose extractor is made for it (spark-free), away from flame and pilot lights.',
      'Wear the respirator that the paint’s sheet names, gloves and goggles: a dust mask does not stop vapour.',
      'Cans are under pressure and flammable: never warmed on a stove, never pierced. Overspray and filters burn; treat them as waste.',
    ],
    authority: 'NIOSH alerts on isocyanates; OSHA 29 CFR 1910.107 and 1910.134; NFPA 33',
  },
  resins: {
    title: 'Casting resin, glue and solder',
    sentences: [
      'Polyurethane casting resin and two-pack products hold isocyanates, epoxy can make skin allergic for life: gloves, goggles, moving air, the respirator that the sheet names, nothing on the skin.',
      'Super glue bonds skin and eyelids, its fume irritates, and on cotton it can get hot enough to burn.',
      'Old solder holds lead: moving air, wash hands. Plastic that is overheated in vacuum-forming gives off harmful fume.',
    ],
    authority: 'the products’ safety data sheets; NIOSH',
  },
  tools: {
    title: 'Eyes and rotating tools',
    sentences: [
      'Eye protection whenever posts are drilled, axles cut or rivets peened: thin drills snap, rivets jump, cut ends fly.',
      'Clamp the car; a polishing wheel snatches small parts. No gloves, sleeves or loose hair near a spindle.',
      'Wire wheels throw bristles: face shield, and never on old paint.',
    ],
    authority: 'OSHA 29 CFR 1910.133 and 1910.215; the tool’s manual',
  },
  heat: {
    title: 'Heat',
    sentences: [
      'Never in an oven that is used for food, and no paint that is still wet with solvent in any oven: vapour explodes.',
      'No flame or heat gun on old paint (lead fume), nor on plastic, plating or an unknown coating.',
    ],
    authority: 'the paint’s safety data sheet; EPA 40 CFR 745.85',
  },
  dust: {
    title: 'Metal dust and steel wool',
    sentences: [
      'Fine zinc or aluminium dust burns fiercely and, wet in a closed bin, gives off hydrogen: sweep it up often, keep it dry and open, away from sparks.',
      'Steel wool across a battery catches fire: keep them apart.',
      'A dust mask (P100) and eye protection; no compressed air.',
    ],
    authority: 'NFPA 484; fire-service advice',
  },
  waste: {
    title: 'Fire and waste',
    sentences: [
      'Rags with solvent, oil or lacquer can catch fire by themselves: dry them flat outdoors, or keep them wet in a lidded metal can, out of reach of children and pets.',
      'Sludge, rags, filters, spent baths and what is left in cans are hazardous waste: take them to where your local rules have such waste collected, nothing down a drain or into household waste.',
      'Keep a fire extinguisher that the sheets allow within reach, and the way out free.',
    ],
    authority: 'RCRA and local rules on household hazardous waste; fire-service (NFPA) advice on oily rags',
  },
};

const paintComesOff = String.raw`\b(?:strip(?:s|ped|ping|per|pers)?\b(?! of)|(?:paint|varnish) remover)`;
const heat = String.raw`\bheat[- ]?gun|\b(?:blow ?)?torch\b|\bhot ?plate\b|\bovens?\b(?! cleaner)|\bbak(?:e|ed|ing)\b`;
const twoPack = String.raw`\b2[ -]?k\b|\btwo[- ](?:pack|part)\b|isocyanate|polyurethane`;
const words = (pattern: string): RegExp => new RegExp(pattern, 'i');

/** The words of a piece of work that call for a caution. Made wide: one caution too many does no harm. */
const calls: Readonly<Record<Hazard, RegExp>> = {
  acid: words(
    String.raw`\bacids?\b(?!-free| free)|muriatic|vinegar|pickl|descal|rust remover|\bdipp(?:ed|ing)\b|^dip\b|\bdip (?:it|in|bath)\b|(?:^| )(?<!lucky )dip$|\betch|neutrali[sz]|\bbleach|chlorine`,
  ),
  caustic: words(
    String.raw`caustic|\blye\b|sodium hydroxide|(?:drain|oven) cleaner|neutrali[sz]|\bstripping bath`,
  ),
  plating: words(
    String.raw`\b(?:re-?)?plat(?:ing|ed)\b|electro-?(?:plat|lys|lyt)|\bnickel|\bchrom(?:e|ed|ing|ic|ate)|strike coat|anodi[sz]`,
  ),
  lead: words(
    String.raw`${paintComesOff}|\bsand(?:s|ed|ing|paper)\b|\bsand (?:it|down|back|the)\b|grind|blast|abras|wire[- ](?:brush|wheel)|scrap(?:e|er|ing)\b|old paint|${heat}`,
  ),
  strippers: words(String.raw`${paintComesOff}|methylene chloride|\bNMP\b`),
  solvents: words(
    String.raw`${paintComesOff}|thinners?\b|solvent|white spirit|acetone|degreas|brake fluid|isopropyl|\bIPA\b|alcohol|methylated|xylene|naphtha|toluene|\bMEK\b|turpentine|gasoline|petrol\b|lighter fluid|nail varnish`,
  ),
  spray: words(
    String.raw`\bspray|aerosol|airbrush|primer|\bpaint(?:s|ed|ing)?\b(?! ?-?(?:stripp|remov))|lacquer|enamel|clear ?coat|\bclear$|varnish(?! remover)|${twoPack}`,
  ),
  resins: words(
    String.raw`\bresin|epoxy|super ?glue|cyanoacrylate|\bglu(?:e|ed|ing)\b|solder|vacuum[- ]form|${twoPack}`,
  ),
  tools: words(
    String.raw`drill|\btap\b(?! water)|wire[- ](?:brush|wheel)|\bbuff|polish|grind|rotary|lathe|hammer|\bpeen|\brivet|\bcut(?:s|ting)?\b.*\baxle|\bsaw|\baxles?\b.*\bcut|punch`,
  ),
  heat: words(heat),
  dust: words(
    String.raw`steel wool|wire wool|swarf|filings|(?:metal|zinc|aluminium|magnesium) dust|\bgrind|\bblast`,
  ),
  waste: words(String.raw`\bsludge|\brags?\b|\bwaste\b|spent bath|${paintComesOff}`),
};

/** The hazards in a piece of work, by the words that it is described with; in the order of `hazards`. */
export const hazardsIn = (texts: readonly string[]): Hazard[] =>
  hazards.filter(hazard => texts.some(text => calls[hazard].test(text)));

/** The hazards that an option brings where no steps say: those of its starting steps. Leaving brings none. */
const hazardsOfOption: Readonly<Record<Option, readonly Hazard[]>> = {
  leave: [],
  conserve: ['lead', 'tools'],
  restore: ['lead', 'strippers', 'solvents', 'spray', 'tools', 'dust', 'waste'],
  customise: ['lead', 'strippers', 'solvents', 'spray', 'tools', 'dust', 'waste'],
  donor: ['tools'],
};

/**
 * The hazards of doing an option to a car: those of its steps where they are known, else those that the
 * option always brings, with those that the words of its owner add; in the order of `hazards`.
 */
export const hazardsOf = (
  option: Option,
  texts: readonly string[] = [],
  ofSteps: readonly Hazard[] = hazardsOfOption[option],
): Hazard[] => {
  const named = hazardsIn(texts);
  return hazards.filter(hazard => ofSteps.includes(hazard) || named.includes(hazard));
};

/** One line where there is no room for the texts, such as under a list in a terminal. */
export const cautionLine =
  'This work can injure you: never put zinc alloy in acid, never dry-sand old paint. Read the cautions first, in README.md or under a car’s plan.';
