import type { Currency, Evidence, IsoDate, Minor, PartState, Range } from '../valuation/types.ts';
import type {
  CarStatus,
  FidelityGrade,
  FinishState,
  Grade,
  ValueBasis,
  VariationFeature,
} from '../valuation/words.ts';

/** The files that a report can be. */
export const reportFormats = ['pdf', 'csv', 'xlsx'] as const;
export type ReportFormat = (typeof reportFormats)[number];

/** `a-2a`: archival and tagged (PDF/A-2a); `ua-1`: accessible (PDF/UA-1); `1.7`: tagged, neither. */
export const pdfStandards = ['a-2a', 'ua-1', '1.7'] as const;
export type PdfStandard = (typeof pdfStandards)[number];

export const paperSizes = ['a4', 'us-letter'] as const;
export type PaperSize = (typeof paperSizes)[number];

/** A basis of value with its definition and where that definition stands. */
export interface Basis {
  name: ValueBasis;
  definition: string;
  source: string;
}

/** A photograph on disk. The report prints a reduced copy without its metadata. */
export interface ReportPhoto {
  /** Absolute path of the file. */
  path: string;
  /** What it shows, for readers who cannot see it. */
  alt: string;
}

/** One of a car's three worths, in minor units of the report's currency. */
export interface ReportWorth {
  /** null where there is not enough evidence (or where `note` gives another reason). */
  range: Range | null;
  /**
   * What it is expected to bring: the mean, which adds up over cars, in minor units and not rounded; null
   * where `range` is.
   */
  expected: number | null;
  /** True where the owner's own figure stands in for evidence. */
  own: boolean;
  /**
   * A few words beside it, such as "no longer attainable"; for a null range, why (default
   * "not enough evidence").
   */
  note: string | null;
}

/** How far a finished restoration follows the variation's factory specification. */
export interface RestorationRecord {
  /** null where it is not recorded. */
  fidelity: FidelityGrade | null;
  deviations: string[];
  completedOn: IsoDate | null;
}

/**
 * Who made the car and what it is, after the categories of Object ID (ICOM, from the Getty Information
 * Institute). Empty or null: not recorded.
 */
export interface CarIdentity {
  maker: string | null;
  /** Stands for the place of origin where the car's own country is not recorded. */
  makerCountry: string | null;
  series: string | null;
  /** null where the car is not identified; `asWritten` then says what the owner wrote. */
  casting: string | null;
  releaseName: string | null;
  releaseYear: number | null;
  features: Partial<Record<VariationFeature, string>>;
  /** `#rrggbb` of the colour as the owner chose it, for the lacquer chip. */
  swatch: string | null;
  asWritten: string | null;
  /**
   * The owner's words by our import columns, for what is not identified; lists give them back in
   * their own columns.
   */
  written?: Record<string, string>;
  /** Such as "die-cast toy car". */
  type: string | null;
  materials: string | null;
  measurements: string | null;
  markings: string | null;
  distinguishingFeatures: string | null;
}

/** How the car came into the collection. */
export interface Acquisition {
  lot: string | null;
  on: IsoDate | null;
  from: string | null;
  /** The car's share of the lot's cost, minor units of `currency`; null leaves it out. */
  cost: Minor | null;
  currency: Currency | null;
  /** What is the car's own of it and not its lot's; its price is where it was paid for it alone. */
  own?: { on: IsoDate | null; from: string | null; isPaid: boolean };
}

export interface ReportEntry {
  inventoryNumber: string;
  photos: ReportPhoto[];
  identity: CarIdentity;
  grade: Grade | null;
  /** As its newest check found them, with what it noted of each. */
  parts: (PartState & { note?: string })[];
  finishState: FinishState;
  /** For cars that were worked on; null says that it is not recorded. */
  restoration: RestorationRecord | null;
  /**
   * What is to be said of its finish and the work on it; it cannot be switched off. Empty where there
   * is nothing to say.
   */
  disclosure: string;
  /** What it wears now, where that is recorded and not what it was made in; empty texts otherwise. */
  worn: { colour: string; finish: string };
  status: CarStatus;
  acquisition: Acquisition | null;
  location: string | null;
  /** The day on which the car was last looked at part by part; null where that has not been recorded. */
  documentedOn: IsoDate | null;
  /** Where it is not the report's: such a car is totalled apart. */
  basis: ValueBasis | null;
  worths: { asFound: ReportWorth; restored: ReportWorth; originalFinish: ReportWorth };
  /**
   * Cost of the restoration behind `worths.restored`, minor units; the worth strip then shows the
   * worth net of its mid.
   */
  restorationCost: Range | null;
  /**
   * What the worth as found rests on, unless that is its owner's own figure; null where there is no worth.
   */
  evidence: Evidence | null;
  notes: string | null;
  /** What was written beside its fields and is not understood, as it stands; null where there is nothing. */
  notUnderstood?: string | null;
  /** What only lists tell, so that they can be read back. */
  listed?: ListedCar;
}

/** What a list says of a car beside what papers say. */
export interface ListedCar {
  /** Of a lot that was only seen: it is not the owner's. */
  isSeen: boolean;
  restorerMark: string;
  /** The owner's own figure, in the reporting currency. */
  ownWorth: Range | null;
  /** Why what was paid is left out of estimates; null where it counts. */
  purchaseLeftOut: string | null;
}

/** What a report said of one car. */
export interface SaidOfCar {
  /** By which the same car is known again, whatever its number is by then. */
  id: number;
  number: string;
  name: string;
  grade: Grade | null;
  finishState: FinishState;
  status: CarStatus;
  /** The middle figure as found, in minor units; null where there was none or the copy told no values. */
  value: Minor | null;
}

/** Why a car of the earlier report is not in this one. */
export type WhyGone = 'sold' | 'removed' | 'not among these cars';

/** What is otherwise than in the report that was saved before. */
export interface ReportChanges {
  /** The report that is compared; null where none was saved on an earlier day. */
  since: {
    name: string;
    on: IsoDate;
    total: Minor | null;
    currency: Currency | null;
    cars: number | null;
  } | null;
  added: SaidOfCar[];
  gone: { car: SaidOfCar; why: WhyGone }[];
  changed: { before: SaidOfCar; now: SaidOfCar; what: ChangedField[] }[];
  /** Cars of which nothing but the value differs, and that by too little to be listed. */
  slightly: number;
}

export type ChangedField = 'number' | 'grade' | 'finishState' | 'status' | 'value';

/** All that a collection report says, as plain data. Amounts are whole minor units of `currency`. */
export interface CollectionReport {
  title: string;
  owner: string;
  collection: string;
  /** What the report covers where that is not the whole collection, such as "Lot: Barn tin". */
  scope: string | null;
  basis: Basis;
  /** The day for which the worths hold. */
  effectiveOn: IsoDate;
  /**
   * ISO 8601 instant with its offset, such as `2026-11-25T15:46:00Z`, that the report says it was prepared;
   * null where it says none.
   */
  preparedOn: string | null;
  /**
   * ISO 8601 instant that is stamped into the files as that of their making; not the clock's, so that the
   * same report is the same file.
   */
  stampedAt: string;
  currency: Currency;
  /**
   * BCP 47 tag of the reader, by which amounts are written and words spelled; `en-US` where it is left out.
   */
  locale?: string;
  assumptionsVersion: string;
  /**
   * What the cars that are not sold are expected to bring together, with the 80 % range of that sum, for each
   * basis of value.
   */
  sums: Partial<Record<ValueBasis, Range>>;
  method: string[];
  limits: string[];
  /** A copy that tells no value and no price; its entries then have none. */
  withoutValues?: boolean;
  /** What is otherwise than in the report that was saved before; absent where that is not told. */
  changes?: ReportChanges | null;
  entries: ReportEntry[];
}
