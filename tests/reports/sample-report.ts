import { bases } from '../../reports/model/basis.ts';
import type { CollectionReport, ReportEntry, ReportPhoto, ReportWorth } from '../../reports/types.ts';
import type { Range } from '../../valuation/types.ts';
import { disclosureText } from '../../valuation/wording/cars/disclosure-text.ts';
import { partNames, type ValueBasis } from '../../valuation/words.ts';

const castings = [
  'Wrenmoor Lintel',
  'Hollinside Fastback',
  'Low Meadow Estate',
  'Quarryman Pick-up',
  'Silver Lane',
  'Tarn Saloon',
];
const series = ['Coach Road', 'Coach Road II', 'Moor Haulers', 'Night Drive'];
export const sampleColours: [string, string][] = [
  ['Ember', '#c2452d'],
  ['Kingfisher', '#1d7fa3'],
  ['Moss gold', '#8f8a2d'],
  ['Damson', '#6a2c57'],
  ['Larch green', '#2f7a48'],
  ['Honey', '#d59a2b'],
];

export const worth = (
  low: number | null,
  mid = 0,
  high = 0,
  more: Partial<ReportWorth> = {},
): ReportWorth => ({
  range: low === null ? null : { low, mid, high },
  expected: low === null ? null : mid,
  own: false,
  note: null,
  ...more,
});

/** What is to be said of such a car, by the one text of the program. */
const disclosureOf = ({
  finishState = 'original',
  restoration,
  parts = [],
  worn,
}: Partial<ReportEntry>): string =>
  disclosureText(
    {
      finishState,
      madeColour: 'Ember',
      wornColour: worn?.colour ?? '',
      wornFinish: worn?.finish ?? '',
      parts,
      mark: '',
      work: restoration
        ? {
            finishedOn: restoration.completedOn,
            fidelity: restoration.fidelity,
            departures: restoration.deviations,
            closure: '',
            bearings: '',
            axles: '',
            leftAsWas: '',
            colour: '',
            who: '',
            later: [],
          }
        : null,
    },
    'en-US',
  );

/** One entry, as plain as it can be; tests change what they are about. */
export const plainEntry = (changes: Partial<ReportEntry> = {}): ReportEntry => ({
  inventoryNumber: 'Q-0001',
  photos: [],
  identity: {
    maker: 'Quillon Toys of Wrenmoor',
    makerCountry: null,
    series: series[0]!,
    casting: castings[0]!,
    releaseName: castings[0]!,
    releaseYear: 1968,
    features: { colour: 'Ember' },
    swatch: '#c2452d',
    asWritten: null,
    type: null,
    materials: null,
    measurements: null,
    markings: null,
    distinguishingFeatures: null,
  },
  grade: 7,
  parts: [],
  finishState: 'original',
  restoration: null,
  status: 'kept',
  acquisition: null,
  location: null,
  documentedOn: null,
  basis: null,
  worths: { asFound: worth(8000, 12000, 18000), restored: worth(null), originalFinish: worth(null) },
  restorationCost: null,
  evidence: null,
  notes: null,
  worn: { colour: '', finish: '' },
  disclosure: disclosureOf(changes),
  ...changes,
});

/** Car number `i` of a collection that looks lived in: grades, finish states, parts and evidence all vary. */
export const sampleEntry = (i: number, photos: ReportPhoto[] = []): ReportEntry => {
  const [colour, swatch] = sampleColours[i % sampleColours.length]!;
  const casting = castings[(i * 5) % castings.length]!;
  const grade = 3 + ((i * 7) % 14) / 2;
  const finishState = (['original', 'original', 'restored', 'original', 'touched up', 'stripped'] as const)[
    i % 6
  ]!;
  const mid = Math.round(900 * 1.33 ** grade * (1 + ((i * 31) % 17) / 9));
  const known = i % 11 !== 4;
  return plainEntry({
    inventoryNumber: `Q-${String(i + 1).padStart(4, '0')}`,
    photos,
    identity: {
      maker: 'Quillon Toys of Wrenmoor',
      makerCountry: 'Eastholm',
      series: series[(i * 3) % series.length]!,
      casting: i % 23 === 22 ? null : casting,
      releaseName: i % 4 === 3 ? `${casting} Special` : casting,
      releaseYear: 1968 + (i % 6),
      features: {
        colour,
        bodyFinish: 'candy lacquer',
        basePaint: (['none', 'front quarter', 'rear quarter', 'full'] as const)[i % 4]!,
        rearEnd: i % 2 ? 'twin lamps' : 'wide bumper',
        roof: i % 3 ? 'smooth, black' : 'textured',
        interior: 'cream',
        glazing: i % 5 ? 'clear' : 'blue tint',
        wheels: 'medium, bright rim',
        ...(i % 4 === 1 ? { accessory: 'hamper' } : {}),
        country: i % 2 ? 'Wrenmoor' : 'Eastholm',
      },
      swatch,
      asWritten: i % 23 === 22 ? 'small red thing, base gone' : null,
      type: 'die-cast toy car',
      materials: 'zinc alloy body and base, plastic interior and glazing',
      measurements: '72 mm long',
      markings: `base: \u201c${casting}\u201d, \u201cQuillon\u201d, Wrenmoor`,
      distinguishingFeatures:
        i % 3 === 0
          ? 'small casting flaw under the left sill; owner\u2019s mark scratched inside the base'
          : null,
    },
    grade: i % 13 === 12 ? null : grade,
    finishState,
    restoration:
      finishState === 'restored'
        ? {
            fidelity: 'with deviations',
            deviations: ['another colour', 'reproduction wheels'],
            completedOn: '2026-03-14',
          }
        : null,
    parts: partNames.slice(0, 8).map((part, k) => ({
      part,
      grade: Math.min(10, Math.max(1, grade + ((i + k) % 5 === 0 ? -2 : (k % 3) * 0.5))),
      originality: (i + k) % 9 === 3 ? 'reproduction' : (i + k) % 17 === 5 ? 'missing' : 'original',
    })),
    acquisition: {
      lot: i % 2 ? 'Barn tin' : 'Harbour fair',
      on: '2025-03-14',
      from: 'estate sale',
      cost: 1850,
      currency: 'USD',
    },
    documentedOn: i % 5 === 4 ? null : '2026-10-04',
    location: `Cabinet ${1 + (i % 3)}, drawer ${1 + (i % 8)}`,
    worths: {
      asFound: known
        ? worth(Math.round(mid * 0.62), mid, Math.round(mid * 1.6), { own: i % 17 === 8 })
        : worth(null),
      restored:
        known && i % 3 !== 1
          ? worth(Math.round(mid * 1.1), Math.round(mid * 1.7), Math.round(mid * 2.7))
          : worth(null, 0, 0, { note: known ? 'no restoration planned' : null }),
      originalFinish: known
        ? worth(Math.round(mid * 1.2), mid * 2, Math.round(mid * 3.4), {
            note: finishState === 'original' ? null : 'no longer attainable',
          })
        : worth(null),
    },
    restorationCost: known && i % 3 === 0 ? { low: 800, mid: 1500, high: 2600 } : null,
    evidence: known
      ? {
          sales: 1 + (i % 5),
          castingSales: 12 + (i % 20),
          seriesSales: 60,
          credibility: 0.62,
          shares: { variation: 0.62, casting: 0.38, series: 0, everything: 0 },
          doubtful: [],
        }
      : null,
    notes:
      i % 4 === 0
        ? 'Bought with the lid of its box, which is kept apart. Axles straightened without heat.'
        : null,
  });
};

/** Sums as wide as those of cars that rise and fall together; the engine's own are tested where it is. */
const sumsOf = (entries: ReportEntry[], usual: ValueBasis): CollectionReport['sums'] =>
  Object.fromEntries(
    [...Map.groupBy(entries, entry => entry.basis ?? usual)].map(([basis, cars]) => {
      const sum = (pick: (range: Range) => number) =>
        cars.reduce(
          (total, { status, worths }) =>
            total + (status === 'sold' || !worths.asFound.range ? 0 : pick(worths.asFound.range)),
          0,
        );
      return [
        basis,
        { low: sum(({ low }) => low), mid: sum(({ mid }) => mid), high: sum(({ high }) => high) },
      ];
    }),
  );

/** A report of the given entries. */
export const sampleReport = (
  entries: ReportEntry[],
  changes: Partial<CollectionReport> = {},
): CollectionReport => ({
  title: 'The Wrenmoor cars',
  owner: 'R. Ashgrove',
  collection: 'Ashgrove collection',
  scope: null,
  basis: bases['fair market value'],
  effectiveOn: '2026-11-25',
  preparedOn: '2026-11-25T15:46:00Z',
  stampedAt: '2026-11-25T00:00:00Z',
  currency: 'USD',
  assumptionsVersion: 'version 3',
  sums: sumsOf(entries, changes.basis?.name ?? 'fair market value'),
  method: ['Each worth rests on sale records that the owner has kept.'],
  limits: ['This is an inventory made by the owner. It is not an appraisal.'],
  entries,
  ...changes,
});
