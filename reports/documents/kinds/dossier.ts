import type { Evidence, IsoDate, Minor, PartState, Range } from '../../../valuation/types.ts';
import { actionLabel } from '../../../valuation/wording/action-label.ts';
import { spell } from '../../../valuation/wording/dialect.ts';
import {
  counted,
  dayText,
  moneyText,
  type Reader,
  sentenceCase,
  signedText,
} from '../../../valuation/wording/reader.ts';
import { reportedEvidence } from '../../../valuation/wording/values/evidence-text.ts';
import {
  carGradeLabel,
  type FinishState,
  type Grade,
  type WhichWorth,
  whichWorths,
  worthNames,
} from '../../../valuation/words.ts';
import {
  type CarFacts,
  carColour,
  carName,
  conditionText,
  footerText,
  identityFacts,
  partsTable,
  rangeText,
  statementText,
} from '../car-facts.ts';
import type { DocumentBlock, DocumentPhoto, PaperDocument } from '../document.ts';

/** Who a paper is for, and what of a car may stand on it. */
export interface Edition {
  reader: Reader;
  owner: string;
  paper: 'a4' | 'us-letter';
  /** Leaves out every value and price. */
  withoutValues: boolean;
  /** Leaves out where the car is kept. */
  withoutPlaces: boolean;
  /** The day for which it holds. */
  on: IsoDate;
}

/** A photograph with when it was taken in the car's life. */
export interface CarPhoto extends DocumentPhoto {
  state: string;
}

export interface DossierFacts extends CarFacts {
  lot: string | null;
  /** Of a lot that was only seen: it is not the owner's. */
  isSeen: boolean;
  location: string;
  notes: string;
  cost: Minor | null;
  costCurrency: string | null;
  factorySpecification: string;
  worths: Record<WhichWorth, (Range & { own: boolean }) | null>;
  evidence: Evidence;
  checks: {
    checkedOn: IsoDate;
    grade: Grade | null;
    finishState: FinishState;
    notes: string;
    parts: (PartState & { note: string })[];
  }[];
  expenses: { spentOn: IsoDate; what: string; minor: Minor; currency: string }[];
  disposal: {
    soldOn: IsoDate;
    proceeds: Minor;
    fees: Minor;
    currency: string;
    venue: string;
    gain: Minor | null;
  } | null;
  history: { label: string; at: string }[];
  photos: CarPhoto[];
}

const before = /before|found|as bought|start/i;
const after = /after|finished|restored|done/i;

/** Photographs of before beside those of after, pair by pair; the others follow. */
const photoBlocks = (photos: readonly CarPhoto[]): DocumentBlock[] => {
  const early = photos.filter(photo => before.test(photo.state));
  const late = photos.filter(photo => after.test(photo.state));
  const pairs = Math.min(early.length, late.length);
  const paired = Array.from({ length: pairs }, (_, i) => [early[i]!, late[i]!]).flat();
  const rest = photos.filter(photo => !paired.includes(photo));
  return [
    ...(paired.length > 0
      ? [
          { kind: 'heading' as const, level: 2 as const, text: 'Before and after' },
          { kind: 'photos' as const, columns: 2 as const, photos: paired },
        ]
      : []),
    ...(rest.length > 0
      ? [
          { kind: 'heading' as const, level: 2 as const, text: 'Photographs' },
          { kind: 'photos' as const, columns: 2 as const, photos: rest },
        ]
      : []),
  ];
};

const valueBlocks = ({ worths, evidence }: DossierFacts, { reader, on }: Edition): DocumentBlock[] => [
  { kind: 'heading', level: 2, text: `What it is worth on ${dayText(on, reader.locale)}` },
  {
    kind: 'facts',
    facts: whichWorths.map(which => ({ label: worthNames[which], value: rangeText(worths[which], reader) })),
  },
  // Where there is no figure, nothing rests on what is known.
  ...(worths.asFound
    ? [
        {
          kind: 'paragraph' as const,
          tone: 'quiet' as const,
          text: `What the figures rest on: ${reportedEvidence(evidence, worths.asFound.own) || 'nothing yet'}`,
        },
      ]
    : []),
];

const checkBlocks = ({ checks }: DossierFacts, locale: string): DocumentBlock[] =>
  checks.length === 0
    ? []
    : [
        { kind: 'heading', level: 2, text: 'Condition checks' },
        ...checks.flatMap((check): DocumentBlock[] => [
          {
            kind: 'heading',
            level: 3,
            text: `${dayText(check.checkedOn, locale)}${check.grade === null ? '' : `, ${spell(carGradeLabel(check.grade, check.finishState), locale)}`}`,
          },
          ...(check.notes ? [{ kind: 'paragraph' as const, text: check.notes }] : []),
          ...(check.parts.length > 0 ? [partsTable(check.parts, locale)] : []),
        ]),
      ];

const moneyBlocks = (
  { expenses, disposal, cost, costCurrency }: DossierFacts,
  { reader }: Edition,
): DocumentBlock[] => {
  const own = (minor: Minor, currency: string) => `${currency} ${moneyText(minor, { ...reader, currency })}`;
  const facts = [
    ...(cost !== null && costCurrency ? [{ label: 'Cost', value: own(cost, costCurrency) }] : []),
    ...(disposal
      ? [
          {
            label: 'Sold',
            value: `${dayText(disposal.soldOn, reader.locale)} for ${own(disposal.proceeds, disposal.currency)}, fees ${own(disposal.fees, disposal.currency)}${disposal.gain === null ? '' : `, gain ${signedText(disposal.gain, { ...reader, currency: disposal.currency })}`}`,
          },
        ]
      : []),
  ];
  return facts.length + expenses.length === 0
    ? []
    : [
        { kind: 'heading', level: 2, text: 'Cost and spending' },
        { kind: 'facts', facts },
        ...(expenses.length > 0
          ? [
              {
                kind: 'table' as const,
                columns: [
                  { title: 'Day' },
                  { title: 'What', width: 'wide' as const },
                  { title: 'Amount', align: 'right' as const },
                ],
                rows: expenses.map(({ spentOn, what, minor, currency }) => [
                  dayText(spentOn, reader.locale),
                  what,
                  own(minor, currency),
                ]),
              },
            ]
          : []),
      ];
};

/** All that is known of one car: identity, disclosure, value, checks, photographs, spending, history. */
export const dossierDocument = (car: DossierFacts, edition: Edition): PaperDocument => {
  const { reader, withoutValues, withoutPlaces } = edition;
  return {
    title: `${car.inventoryNumber}  ${carName(car)}`,
    subtitle: sentenceCase(conditionText(car, reader.locale)),
    author: edition.owner,
    footer: footerText,
    paper: edition.paper,
    blocks: [
      { kind: 'paragraph', tone: 'statement', text: statementText(car, reader.locale) },
      {
        kind: 'facts',
        facts: [
          ...identityFacts(car, reader.locale),
          { label: 'Grade', value: conditionText(car, reader.locale) },
          ...(car.lot
            ? [
                car.isSeen
                  ? { label: 'Seen, not bought', value: car.lot }
                  : { label: 'Came with', value: car.lot },
              ]
            : []),
          ...(car.location && !withoutPlaces ? [{ label: 'Kept in', value: car.location }] : []),
        ],
      },
      ...(car.factorySpecification
        ? [{ kind: 'paragraph' as const, text: `Factory specification: ${car.factorySpecification}` }]
        : []),
      ...(car.notes ? [{ kind: 'paragraph' as const, text: car.notes }] : []),
      ...(withoutValues ? [] : valueBlocks(car, edition)),
      ...photoBlocks(car.photos),
      ...checkBlocks(car, reader.locale),
      ...(withoutValues ? [] : moneyBlocks(car, edition)),
      // What was done is told by its words, which may name prices and places.
      ...(withoutValues || withoutPlaces || car.history.length === 0
        ? []
        : [
            {
              kind: 'heading' as const,
              level: 2 as const,
              text: `History, ${counted(car.history.length, 'entry', 'entries')}`,
            },
            {
              kind: 'table' as const,
              columns: [{ title: 'Day' }, { title: 'What', width: 'wide' as const }],
              rows: car.history.map(({ label, at }) => [
                dayText(at, reader.locale),
                actionLabel(label, reader.locale),
              ]),
            },
          ]),
    ],
  };
};

/**
 * One page for a buyer, honest: state, departures, reproduction parts, grade by part; no price paid, no
 * place, no value.
 */
export const saleSheetDocument = (car: DossierFacts, edition: Edition): PaperDocument => {
  const { locale } = edition.reader;
  const latest = car.photos.filter(photo => !before.test(photo.state));
  return {
    title: carName(car),
    subtitle: [carColour(car), conditionText(car, locale)].filter(Boolean).join(', '),
    author: edition.owner,
    footer: `${car.inventoryNumber}, ${dayText(edition.on, locale)}. ${footerText}`,
    paper: edition.paper,
    blocks: [
      { kind: 'paragraph', tone: 'statement', text: statementText(car, locale) },
      { kind: 'photos', columns: 2, photos: (latest.length > 0 ? latest : car.photos).slice(0, 2) },
      { kind: 'facts', facts: identityFacts(car, locale) },
      ...(car.parts.length > 0 ? [partsTable(car.parts, locale)] : []),
    ],
  };
};
