import type { IsoDate, PartState } from '../../types.ts';
import { type Closure, deviationLabel, type FidelityGrade, type FinishState } from '../../words.ts';
import { spell } from '../dialect.ts';
import { closureText } from '../work/work-text.ts';

/** What was done to a car, as far as it is recorded. */
export interface WorkFacts {
  finishedOn: IsoDate | null;
  fidelity: FidelityGrade | null;
  departures: readonly string[];
  closure: Closure | 'not opened' | '';
  bearings: string;
  axles: string;
  leftAsWas: string;
  /** The colour in which it was painted, also where that is the one that it was made in. */
  colour: string;
  who: string;
  /** Work since then that painted nothing, the oldest first. */
  later: readonly { finishedOn: IsoDate; who: string }[];
}

/** What a disclosure is made of. Empty texts where nothing is recorded. */
export interface DisclosureFacts {
  finishState: FinishState;
  /** What its variation was made in. */
  madeColour: string;
  /** What it wears now, where that is recorded and another. */
  wornColour: string;
  wornFinish: string;
  parts: readonly PartState[];
  mark: string;
  work: WorkFacts | null;
}

/** A day as it is written in full: "2 January 2026". */
const fullDate = (on: IsoDate, locale: string): string =>
  new Intl.DateTimeFormat(locale, { dateStyle: 'long', timeZone: 'UTC' }).format(new Date(`${on}T00:00:00Z`));

const stateText = (state: FinishState, locale: string): string => {
  switch (state) {
    case 'original':
      return '';
    case 'touched up':
      return 'Touched up: the finish is not wholly the factory’s.';
    case 'restored':
      return 'Restored: this is not the factory finish.';
    case 'customised':
      return spell('Customised: this is not the factory finish, and it does not follow the factory.', locale);
    case 'stripped':
      return 'Stripped: the factory finish has been removed.';
  }
};

const ended = (text: string): string => (/[.!?]$/.test(text) ? text : `${text}.`);

const colourText = (
  { madeColour, wornColour, wornFinish, finishState, work }: DisclosureFacts,
  locale: string,
): string => {
  const painted = work?.colour.trim() ?? '';
  if (wornColour === '' && painted !== '' && painted.toLowerCase() === madeColour.toLowerCase())
    return spell(
      `It wears ${[madeColour, wornFinish].filter(Boolean).join(', ')}; it was made in that colour.`,
      locale,
    );
  const wears = [wornColour, wornFinish].filter(Boolean).join(', ');
  if (wears !== '')
    return madeColour === '' ? `It wears ${wears}.` : `It wears ${wears}; it was made in ${madeColour}.`;
  return finishState === 'restored' || finishState === 'customised'
    ? spell('The colour that it wears now is not recorded.', locale)
    : '';
};

const fidelityText = ({ fidelity, departures }: WorkFacts, locale: string): string => {
  const list = departures.map(kind => spell(deviationLabel(kind), locale)).join(', ');
  if (departures.length > 0) return `It departs from the factory specification: ${list}.`;
  switch (fidelity) {
    case null:
      return 'How closely it follows the factory specification is not recorded.';
    case 'to specification':
      return 'No departure from the factory specification is known.';
    case 'with deviations':
      return 'It departs from the factory specification; in what is not recorded.';
    case 'custom':
      return 'It was not meant to follow the factory specification.';
  }
};

const byText = (who: string): string => (who.trim() === '' ? '' : ` by ${who.trim()}`);

/** When the work was finished and who did it, as far as either is known, and work since then. */
const doneText = ({ finishedOn, who, later }: WorkFacts, locale: string): string[] => {
  const by = byText(who);
  const first =
    finishedOn === null
      ? by === ''
        ? []
        : [`The work on it was done${by}`]
      : [`Work on it was finished on ${fullDate(finishedOn, locale)}${by}`];
  const since = later.map(
    one => `Later work on it was finished on ${fullDate(one.finishedOn, locale)}${byText(one.who)}`,
  );
  return [...first, ...since].map(ended);
};

const workSentences = (work: WorkFacts, locale: string): string[] => [
  ...doneText(work, locale),
  fidelityText(work, locale),
  ...(work.closure === ''
    ? []
    : [
        work.closure === 'not opened'
          ? 'It was not opened.'
          : `It was opened and ${closureText(work.closure)}.`,
      ]),
  ...(work.bearings === '' ? [] : [`Wheel bearings: ${ended(work.bearings)}`]),
  ...(work.axles === '' ? [] : [`Axles: ${ended(work.axles)}`]),
  ...(work.leftAsWas === '' ? [] : [`Left as it was: ${ended(work.leftAsWas)}`]),
];

/** The parts that are not its own or not there, as sentences; empty where it has all of its own. */
export const notItsOwnText = (parts: readonly PartState[], locale: string): string => {
  const replaced = parts
    .filter(({ originality }) => originality === 'reproduction' || originality === 'period replacement')
    .map(({ part, originality }) => spell(`${originality} ${part}`, locale));
  const missing = parts
    .filter(({ originality }) => originality === 'missing')
    .map(({ part }) => spell(part, locale));
  return [
    replaced.length > 0 ? `Parts that are not its own: ${replaced.join(', ')}.` : '',
    missing.length > 0 ? `Missing: ${missing.join(', ')}.` : '',
  ]
    .filter(Boolean)
    .join(' ');
};

/**
 * What must be said of a car whose factory finish is not whole, or which was worked on: one paragraph in
 * plain words, the same on screen, in reports, in exports and on paper for selling. Empty only for a car with
 * its factory finish that nobody is recorded to have worked on and that wears what it was made in.
 */
export const disclosureText = (facts: DisclosureFacts, locale: string): string => {
  const { finishState, parts, mark, work } = facts;
  const told =
    finishState !== 'original' || work !== null || facts.wornColour !== '' || facts.wornFinish !== '';
  if (!told) return '';
  const unknownWork = finishState === 'restored' || finishState === 'customised';
  const sentences = [
    stateText(finishState, locale),
    colourText(facts, locale),
    ...(work
      ? workSentences(work, locale)
      : unknownWork
        ? ['How closely it follows the factory specification is not recorded.']
        : []),
    notItsOwnText(parts, locale),
    mark === '' ? '' : `Restorer’s mark: ${ended(mark)}`,
  ];
  return sentences.filter(Boolean).join(' ');
};

/**
 * What a car wears now beside what it was made in: "Teal, was Ember"; the one it was made in where nothing
 * else is recorded.
 */
export const colourNow = (made: string, worn: string): string => {
  if (worn === '' || worn.toLowerCase() === made.toLowerCase()) return made;
  return made === '' ? worn : `${worn}, was ${made}`;
};
