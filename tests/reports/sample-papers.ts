import type { PaperDocument } from '../../reports/documents/document.ts';
import { benchSheetDocument } from '../../reports/documents/kinds/bench-sheet.ts';
import { bidSheetDocument } from '../../reports/documents/kinds/bid-sheet.ts';
import { claimDocument } from '../../reports/documents/kinds/claim.ts';
import {
  type DossierFacts,
  dossierDocument,
  type Edition,
  saleSheetDocument,
} from '../../reports/documents/kinds/dossier.ts';
import { ledgerDocument } from '../../reports/documents/kinds/ledger.ts';
import { wantListDocument } from '../../reports/documents/kinds/want-list.ts';
import { worksheetDocument } from '../../reports/documents/kinds/worksheet.ts';
import type { Decision, Range, WorkPlan } from '../../valuation/types.ts';

const edition: Edition = {
  reader: { locale: 'en-US', currency: 'USD' },
  owner: 'P. Marrow',
  paper: 'a4',
  withoutValues: false,
  withoutPlaces: false,
  on: '2026-03-14',
};

const range = (low: number, mid: number, high: number): Range => ({ low, mid, high });

const parts: DossierFacts['parts'] = [
  { part: 'body finish', grade: 8, originality: 'original', note: 'Two coats, rubbed by hand' },
  { part: 'wheels', grade: 7, originality: 'reproduction', note: 'A set from the parts box' },
  { part: 'glazing', grade: 6.5, originality: 'original', note: 'Haze: '.repeat(20).trim() },
];

/** A restored car with all that a paper can say; `photo` is a file of a picture. */
const car = (photo: string): DossierFacts => ({
  inventoryNumber: 'Q-0007',
  series: 'Weir',
  casting: 'Osmerry',
  releaseName: 'Osmerry Sprint',
  releaseYear: 1970,
  features: {
    colour: 'Ember',
    bodyFinish: 'candy lacquer',
    basePaint: 'none',
    rearEnd: 'twin lamps',
    roof: 'black',
    interior: 'white',
    glazing: 'clear',
    wheels: 'six-hole disc',
    accessory: '',
    country: 'England',
  } as DossierFacts['features'],
  asWritten: {},
  rarity: 'scarce',
  grade: 8,
  finishState: 'restored',
  disclosure: {
    finishState: 'restored',
    madeColour: 'Ember',
    wornColour: 'Tidepool',
    wornFinish: '',
    parts,
    mark: 'PM 26',
    work: {
      finishedOn: '2026-02-20',
      fidelity: 'with deviations',
      departures: ['another colour', 'reproduction wheels'],
      closure: 'screw',
      bearings: '',
      axles: '',
      leftAsWas: 'the base',
      colour: '',
      later: [],
      who: 'P. Marrow',
    },
  },
  parts,
  lot: 'Loft find',
  isSeen: false,
  location: 'Cabinet, left',
  notes: 'From a box under the stairs.',
  cost: 1250,
  costCurrency: 'USD',
  factorySpecification: 'Candy lacquer over bare metal; black roof.',
  worths: {
    asFound: { ...range(3000, 4500, 6800), own: false },
    restored: null,
    originalFinish: { ...range(6000, 9000, 13500), own: false },
  },
  evidence: {
    sales: 4,
    castingSales: 9,
    seriesSales: 30,
    credibility: 0.5,
    shares: { variation: 0.5, casting: 0.3, series: 0.15, everything: 0.05 },
    doubtful: [],
  },
  checks: [
    { checkedOn: '2026-03-01', grade: 8, finishState: 'restored', notes: 'Under a lamp.', parts },
    { checkedOn: '2025-12-01', grade: 3, finishState: 'original', notes: 'As found.', parts: [] },
  ],
  expenses: [{ spentOn: '2026-02-10', what: 'lacquer', minor: 640, currency: 'USD' }],
  disposal: null,
  history: [{ label: 'Added Q-0007', at: '2025-12-01T10:00:00Z' }],
  photos: [
    { path: photo, caption: 'left side', alt: 'The left side before the work', state: 'before' },
    { path: photo, caption: 'left side', alt: 'The left side after the work', state: 'after' },
  ],
});

const decision: Decision = {
  id: 7,
  recommendation: 'conserve',
  expectedGain: 1200,
  probability: 0.74,
  cost: range(20, 55, 90),
  options: (['leave', 'conserve', 'restore'] as const).map((option, i) => ({
    option,
    cost: range(20 * i, 55 * i, 90 * i),
    worth: range(3000 + i, 4500 + i, 6800 + i),
    expectedGain: [0, 1200, -2100][i]!,
    gain: range(-900, 1200, 3600),
    probability: [0, 0.74, 0.05][i]!,
    guards: [],
    hours: [0, 0.8, 5][i]!,
    cash: 55 * i,
    gainPerHour: [null, 1500, -420][i]!,
  })),
  best: 'conserve',
  reasons: [
    {
      kind: 'gain',
      option: 'conserve',
      expectedGain: 1200,
      cost: range(20, 55, 90),
      afterFees: true,
      probability: 0.74,
    },
    { kind: 'nothing-pays' },
  ],
  breakEven: null,
  tornado: [],
};

const line = (key: string, name: string): WorkPlan['lines'][number] =>
  ({
    key,
    name,
    hands: { low: 5, likely: 10, high: 20 },
    why: { kind: 'always' },
  }) as unknown as WorkPlan['lines'][number];

const plan: WorkPlan = {
  kind: 'restore',
  lines: [line('look', 'Look it over and photograph it as it is'), line('strip', 'Strip the body')],
  parts: [
    {
      part: 'wheels',
      from: 'buy',
      name: '',
      originality: 'reproduction',
      cost: { low: 300, likely: 400, high: 600 },
      why: { kind: 'part-grade', part: 'wheels', grade: 3, assumed: false, after: 8 },
    },
  ],
  departures: [],
  closure: 'screw',
  hours: { low: 2, likely: 4, high: 7 },
  waiting: { low: 12, likely: 24, high: 48 },
  cost: { low: 500, likely: 850, high: 1300 },
  aim: 8,
  heldBy: null,
  grades: [
    { grade: 8, share: 0.6 },
    { grade: 7, share: 0.4 },
  ],
  partsAfter: [],
  spoilChance: 0.05,
  spoiledShare: 0.4,
  hazards: ['lead'],
};

/** Every kind of document, made of facts that nothing works out, so that its pages change by its words and form alone. */
export const samplePapers = (photo: string): Record<string, PaperDocument> => {
  const one = car(photo);
  return {
    dossier: dossierDocument(one, edition),
    'dossier-bare': dossierDocument(one, { ...edition, withoutValues: true, withoutPlaces: true }),
    'sale-sheet': saleSheetDocument(one, edition),
    claim: claimDocument(
      {
        car: one,
        isEvent: true,
        on: '2026-03-01',
        cause: 'dropped: off the shelf',
        before: {
          checkedOn: '2026-02-21',
          grade: 9,
          finishState: 'restored',
          worth: range(5000, 7000, 9900),
        },
        after: { grade: 8, finishState: 'restored', worth: range(3000, 4500, 6800) },
      },
      edition,
    ),
    bid: bidSheetDocument(
      {
        lot: 'Seen tray',
        cars: [
          { ...one, colour: 'Tidepool (made in Ember)', asFound: range(3000, 4500, 6800) },
          { ...one, inventoryNumber: 'Q-0008', colour: '', releaseName: null, grade: null, asFound: null },
        ],
        bid: 2900,
        total: 3600,
        expectedWorth: range(3000, 4500, 6800),
        margin: 0.2,
        probability: 0.8,
        premiumRate: 0.15,
        taxRate: 0.07,
        carriage: 500,
      },
      edition,
    ),
    'want-list': wantListDocument(
      {
        grade: 7,
        wanted: [
          {
            series: 'Weir',
            casting: 'Skiffle',
            year: 1970,
            variations: [],
            missing: true,
            worth: range(2000, 3000, 4500),
          },
          {
            series: 'Weir',
            casting: 'Osmerry',
            year: null,
            variations: [{ label: 'Ember, twin lamps, black roof, six-hole discs', worth: null }],
            missing: false,
            worth: null,
          },
        ],
      },
      edition,
    ),
    ledger: ledgerDocument({
      owner: 'P. Marrow',
      from: '2026-01-01',
      to: '2026-12-31',
      reader: edition.reader,
      paper: 'a4',
      lines: [
        {
          on: '2026-01-05',
          kind: 'bought',
          what: 'Loft find, from E. Tarrow',
          minor: 8000,
          currency: 'EUR',
          rate: { rate: '1.0825', on: '2026-01-01' },
          reported: 8660,
          realised: null,
        },
        {
          on: '2026-02-10',
          kind: 'spent',
          what: 'Q-0007 (now restored): lacquer',
          minor: 900,
          currency: 'JPY',
          rate: null,
          reported: null,
          realised: null,
        },
        {
          on: '2026-03-01',
          kind: 'sold',
          what: 'Q-0002, to A. Fenn',
          minor: 4000,
          currency: 'USD',
          rate: null,
          reported: 4000,
          realised: -250,
        },
      ],
      undated: [{ what: 'Shoebox', minor: 1500, currency: 'USD' }],
      soldUnrecorded: 1,
    }),
    worksheet: worksheetDocument(
      [
        { ...one, decision, recorded: null },
        {
          ...one,
          inventoryNumber: 'Q-0009',
          decision,
          recorded: { choice: 'leave', decidedOn: '2026-01-13', reason: 'A gift.' },
        },
      ],
      edition,
    ),
    'bench-sheet': benchSheetDocument(one, plan, edition, ['The wheels turn freely']),
  };
};
