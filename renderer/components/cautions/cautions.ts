/** The cautions of bench work that can hurt. Common practice; the safety data sheet of the product in hand comes first. */

export const cautionKinds = ['solvents', 'acid', 'plating', 'dust', 'spray'] as const;
export type CautionKind = (typeof cautionKinds)[number];

export interface Caution {
  title: string;
  sentences: readonly string[];
}

/** What holds for every one of them. */
export const always =
  'Follow the safety data sheet of the product you use, and your local codes; where one is needed, ask a licensed professional.';

export const cautions: Readonly<Record<CautionKind, Caution>> = {
  solvents: {
    title: 'Solvents and strippers',
    sentences: [
      'Use a stripper without methylene chloride.',
      'Work in the open air or with forced draught, away from flame and sparks, in gloves and goggles that the product’s sheet names.',
      'Let used rags dry flat outdoors; take what is left to where such waste is collected.',
    ],
  },
  acid: {
    title: 'Acid',
    sentences: [
      'Acid goes into water, never water into acid.',
      'Acid attacks zinc alloy and gives off hydrogen: dip briefly, look often, in open air, away from flame.',
      'Goggles, gloves and an apron; plenty of water at hand; neutralise and rinse before it dries.',
    ],
  },
  plating: {
    title: 'Plating',
    sentences: [
      'Plating gives off hydrogen too: open air, away from flame, and no current until the lids are off.',
      'Work in gloves and goggles, keep the bath from food and drains, and take spent bath to where such waste is collected.',
    ],
  },
  dust: {
    title: 'Dust',
    sentences: [
      'Old toy paint may hold lead: no dry sanding, grinding or blasting. Work wet, wipe up wet, and wash hands before eating.',
      'Keep it away from children and from kitchens; collect paint waste, do not rinse it down a drain.',
    ],
  },
  spray: {
    title: 'Spray',
    sentences: [
      'Spray in the open or in a booth with its extractor on, away from flame and pilot lights.',
      'Wear the respirator that the paint’s sheet names: a dust mask does not stop vapour.',
    ],
  },
};

const words: Readonly<Record<CautionKind, RegExp>> = {
  solvents: /strip|thinner|solvent|white spirit|acetone|degreas/i,
  acid: /acid|pickl|descal|dip\b/i,
  plating: /plat(e|ing)\b|electro/i,
  dust: /sand|grind|blast|abra|wire brush|drill|polish/i,
  spray: /spray|aerosol|airbrush|primer|paint|lacquer|enamel|clear coat/i,
};

/** The cautions that a piece of work calls for, by the words that it is described with. Old paint that comes off is dust too. */
export const cautionsFor = (texts: readonly string[]): CautionKind[] => {
  const named = cautionKinds.filter(kind => texts.some(text => words[kind].test(text)));
  const paintComesOff = texts.some(text => /strip|sand|grind|blast/i.test(text));
  return cautionKinds.filter(kind => named.includes(kind) || (kind === 'dust' && paintComesOff));
};
