/** What the procedures answer with: plain, serialisable shapes that the screens draw and the command line prints. */
import type {
  AdjustedRecord,
  BasePaint,
  Currency,
  Decision,
  Evidence,
  Fidelity,
  FinishState,
  Grade,
  IsoDate,
  Minor,
  Option,
  PartState,
  Range,
  Rarity,
  Recommendation,
  RestorationPlan,
  VariationFeature,
  Worth,
} from '../../valuation/index.ts';

// --- collection ----------------------------------------------------------------------------------------------------

/** Where the service stands: without an open collection the screens show the first start. */
export interface CollectionState {
  open: boolean;
  dir: string | null;
  defaultDir: string;
  demoDir: string;
  host: 'window' | 'browser' | 'command line';
  version: string;
  /** Something the owner must be told once, such as "the last session ended without closing; checked, all is well". */
  notices: string[];
}

export interface CollectionSummary {
  dir: string;
  name: string;
  owner: string;
  isDemo: boolean;
  reportingCurrency: Currency;
  /** The effective date of every worth shown: today, or the demo's own date. */
  today: IsoDate;
  counts: {
    cars: number;
    lots: number;
    castings: number;
    variations: number;
    saleRecords: number;
    photographs: number;
  };
  lastBackup: BackupInfo | null;
}

export interface BackupInfo {
  name: string;
  at: string;
  reason: string;
  bytes: number;
}

export interface HistoryEntry {
  id: number;
  label: string;
  at: string;
  undone: boolean;
}

export interface CheckFinding {
  level: 'ok' | 'warning' | 'damage';
  sentence: string;
}

export interface SearchHit {
  kind: 'car' | 'lot' | 'casting' | 'variation' | 'sale record';
  id: number;
  title: string;
  detail: string;
  /** Route of the screen that shows it, such as `/cars/12`. */
  to: string;
}

export interface ExchangeRateView {
  id: number;
  currency: Currency;
  on: IsoDate;
  /** Decimal string: reporting currency for one unit. */
  rate: string;
}

// --- shared pieces -------------------------------------------------------------------------------------------------

/** The three worths of a car, as the worth strip draws them. */
export interface Worths {
  asFound: Worth | null;
  restored: Worth | null;
  originalFinish: Worth | null;
  /** Cost of the plan behind `restored`, for its net bar; null without a plan. */
  cost: Range | null;
}

/** Photographs are read by their hash through `photos.read`. */
export interface PhotoView {
  id: number;
  sha256: string;
  width: number;
  height: number;
  view: string;
  caption: string;
  state: string;
  takenOn: IsoDate | null;
}

export interface ColourView {
  name: string;
  /** `#rrggbb`, or null where the owner has chosen none yet. */
  swatch: string | null;
}

/** What tells a variation apart. Empty strings mean "does not apply or not recorded". */
export type Features = Record<VariationFeature, string>;

// --- reference -----------------------------------------------------------------------------------------------------

export interface CastingRow {
  id: number;
  maker: string;
  series: string;
  seriesId: number;
  name: string;
  bodyType: string;
  firstYear: number | null;
  releases: number;
  variations: number;
  cars: number;
  saleRecords: number;
}

export interface VariationRow {
  id: number;
  castingId: number;
  casting: string;
  series: string;
  releaseId: number;
  releaseName: string;
  releaseYear: number | null;
  features: Features;
  swatch: string | null;
  rarity: Rarity | null;
  /** One line that names it among its casting's variations: "Ember, rear quarter, twin lamps". */
  label: string;
  factorySpecification: string;
  cars: number;
  saleRecords: number;
}

export interface CastingPage extends CastingRow {
  makerId: number;
  lengthMm: number | null;
  materials: string;
  markings: string;
  notes: string;
  parts: { part: string; detail: string }[];
  featureValues: { feature: VariationFeature; values: string[] }[];
  releaseRows: { id: number; name: string; year: number | null; changedPart: string; notes: string }[];
  variationRows: VariationRow[];
}

/** A type-ahead answer: pick one and the row is identified. */
export interface Suggestion {
  kind: 'casting' | 'variation';
  castingId: number;
  variationId: number | null;
  label: string;
  detail: string;
  swatch: string | null;
  basePaint: BasePaint | '';
}

/** What features are still open for a casting, given those already chosen, and which variations remain. */
export interface Identification {
  remaining: VariationRow[];
  open: { feature: VariationFeature; values: { value: string; variations: number }[] }[];
}

// --- lots and cars -------------------------------------------------------------------------------------------------

export interface LotRow {
  id: number;
  name: string;
  boughtOn: IsoDate | null;
  seller: string;
  currency: Currency;
  price: Minor;
  /** Price, premium, tax, carriage and other, in the lot's currency. */
  cost: Minor;
  cars: number;
  graded: number;
  identified: number;
  photographed: number;
  sold: number;
  /** Sum of the mids as found of the cars still there, in the reporting currency, and how many of them have a worth. */
  worth: Minor;
  valued: number;
  photo: string | null;
}

export interface LotPage extends LotRow {
  notes: string;
  costs: { kind: 'price' | 'premium' | 'tax' | 'carriage' | 'other'; minor: Minor; note: string }[];
  /** Sum of the cars' shares; equal to `cost` once shared. */
  shared: Minor;
  rows: CarRow[];
  result: {
    cost: Minor;
    improvements: Minor;
    proceeds: Minor;
    fees: Minor;
    /** Of the cars sold: proceeds − fees − their cost and improvements. */
    gainRealised: Minor;
    /** What was realised, and what selling the rest at its worth would add. */
    gain: Minor;
    /** Of the cars still there: their worth where it is known, and how many are without. */
    remainingWorth: Minor;
    unvalued: number;
    /** The reporting currency; amounts of `withoutRate` currencies are left out until their rate is entered. */
    currency: Currency;
    withoutRate: Currency[];
  };
}

export type CarStatus = 'kept' | 'on the bench' | 'donor' | 'sold';

export interface CarRow {
  id: number;
  inventoryNumber: string;
  lotId: number | null;
  lot: string | null;
  castingId: number | null;
  casting: string | null;
  releaseName: string | null;
  releaseYear: number | null;
  series: string | null;
  variationId: number | null;
  /** The variation's features where it is identified, else what the owner wrote. */
  features: Features;
  swatch: string | null;
  variation: string | null;
  rarity: Rarity | null;
  /** What was typed or imported, kept as it was, where it is not identified. */
  asWritten: Record<string, string>;
  identified: 'variation' | 'casting' | 'no';
  candidates: number;
  grade: Grade | null;
  finishState: FinishState;
  status: CarStatus;
  location: string;
  notes: string;
  cost: Minor | null;
  costFixed: boolean;
  costCurrency: Currency | null;
  photo: string | null;
  photos: number;
  worths: Worths;
  recommendation: Recommendation | null;
  probability: number | null;
  expectedGain: Minor | null;
  decided: Option | null;
}

export interface PartGradeView extends PartState {
  note: string;
}

export interface ConditionCheckView {
  id: number;
  checkedOn: IsoDate;
  grade: Grade | null;
  notes: string;
  parts: PartGradeView[];
}

export interface PlanView extends RestorationPlan {
  notes: string;
  /** True where it is the standard plan that the assumption set supplies, not the owner's. */
  standard: boolean;
}

export interface DecisionView extends Decision {
  inventoryNumber: string;
  casting: string | null;
  variation: string | null;
  recorded: RecordedDecision | null;
}

export interface RecordedDecision {
  choice: Option;
  decidedOn: IsoDate;
  recommended: Recommendation;
  overruled: string[];
  reason: string;
}

export interface DisposalView {
  soldOn: IsoDate;
  proceeds: Minor;
  fees: Minor;
  currency: Currency;
  buyer: string;
  venue: string;
  notes: string;
  /** Proceeds − fees − cost, where the cost is known in the same currency. */
  gain: Minor | null;
}

export interface CarPage extends CarRow {
  ownWorth: Range | null;
  candidateRows: VariationRow[];
  photoRows: PhotoView[];
  checks: ConditionCheckView[];
  plan: PlanView | null;
  decision: DecisionView;
  evidence: Evidence;
  fidelity: Fidelity;
  help: string[];
  expenses: { id: number; spentOn: IsoDate; what: string; minor: Minor; currency: Currency }[];
  disposal: DisposalView | null;
  valuations: { on: IsoDate; asFound: Range | null; restored: Range | null; originalFinish: Range | null }[];
  history: HistoryEntry[];
  factorySpecification: string;
  previousId: number | null;
  nextId: number | null;
}

// --- sales and worth -----------------------------------------------------------------------------------------------

export interface SaleRow {
  id: number;
  soldOn: IsoDate;
  price: Minor;
  currency: Currency;
  castingId: number | null;
  casting: string;
  variationId: number | null;
  variation: string;
  swatch: string | null;
  grade: Grade | null;
  finishState: FinishState;
  missingParts: string[];
  reproductionParts: string[];
  source: string;
  reference: string;
  reliabilityPercent: number | null;
  excluded: boolean;
  excludedWhy: string;
  /** Set where it came from the owner's own disposal. */
  own: boolean;
  /** Why the engine set it aside or doubts it, or null. */
  doubt: string | null;
  notes: string;
}

/** The adjustment grid behind one worth. */
export interface WorthExplanation {
  which: 'asFound' | 'restored' | 'originalFinish';
  worth: Worth | null;
  evidence: Evidence;
  /** "62 % this variation's 4 sales, 38 % its casting's 31". */
  sentence: string;
  records: (AdjustedRecord & {
    soldOn: IsoDate;
    grade: Grade | null;
    finishState: FinishState;
    variation: string;
    source: string;
  })[];
  help: string[];
}

/** The worths of every car that is not sold, on one date. */
export interface ValuationList {
  on: IsoDate;
  currency: Currency;
  cars: {
    inventoryNumber: string;
    casting: string | null;
    variation: string | null;
    grade: Grade | null;
    finishState: FinishState;
    asFound: Range | null;
    restored: Range | null;
    originalFinish: Range | null;
    evidence: Pick<Evidence, 'sales' | 'credibility'>;
  }[];
}

export interface HomeView {
  summary: CollectionSummary;
  /** Of the cars not sold; `valued` of `cars` have a worth, the others are not in the sums. */
  totals: { cars: number; valued: number; asFound: Range; cost: Minor; currency: Currency };
  overTime: { on: IsoDate; asFound: Minor; cars: number }[];
  bySeries: { name: string; cars: number; worth: Minor }[];
  byGrade: { grade: string; cars: number; worth: Minor }[];
  byColour: { name: string; swatch: string | null; cars: number; worth: Minor }[];
  byRecommendation: { recommendation: Recommendation; cars: number; gain: Minor }[];
  /** What to do next, most useful first. */
  next: { sentence: string; to: string; count: number }[];
  best: CarRow[];
}

export interface DiagnosticsView {
  /** Past valuations against what was later realised. */
  pairs: {
    carId: number;
    inventoryNumber: string;
    valuedOn: IsoDate;
    low: Minor;
    mid: Minor;
    high: Minor;
    soldOn: IsoDate;
    realised: Minor;
  }[];
  /** Typical ratio of what was realised to the mid, less 1, with its 95 % interval. */
  bias: number | null;
  biasRange: { low: number; high: number } | null;
  /** Share of the realised prices inside their range, 80 % wanted, with its 95 % interval. */
  coverage: number | null;
  coverageRange: { low: number; high: number } | null;
  typicalError: number | null;
  verdict: string;
}

// --- decide --------------------------------------------------------------------------------------------------------

export interface DecideRow {
  car: CarRow;
  decision: Decision;
  hours: number;
  cash: Minor;
  parts: Record<string, number>;
}

export interface Portfolio {
  /** Ids of cars in the order in which to take them. */
  chosen: number[];
  gain: Minor;
  used: { hours: number; cash: Minor; parts: Record<string, number> };
  /** Gain that one more hour, one more 10 of cash, or one more part would add. */
  worthOfOneMore: { hours: Minor | null; cash: Minor | null; parts: Record<string, Minor> };
}

export interface BidView {
  bid: Minor;
  total: Minor;
  expectedWorth: Range;
  probability: number;
  sentence: string;
}

// --- imports and reports -------------------------------------------------------------------------------------------

export type ImportKind = 'lot' | 'reference' | 'sales';

/** What a file looks like before anything is taken in. */
export interface ImportPreview {
  file: string;
  format: 'csv' | 'xlsx';
  encoding: string;
  separator: string;
  sheets: string[];
  sheet: string | null;
  headingLine: number;
  /** Columns in file order: the heading as it stands, our column or null, why it was so mapped, the first values. */
  columns: {
    index: number;
    heading: string;
    ours: string | null;
    how: 'same name' | 'recognised' | 'chosen' | 'not used';
    decimal: ',' | '.' | null;
    dateOrder: 'ymd' | 'dmy' | 'mdy' | null;
    samples: string[];
  }[];
  ourColumns: { name: string; required: boolean; help: string }[];
  rows: number;
  /** What becomes of the rows, as the file is mapped now. */
  counts: { accepted: number; rejected: number; duplicates: number; unidentified: number };
  /** First rows as they would be taken, and the first rejected ones. */
  sample: ImportRowView[];
  /** Castings that sale records name and the reference lacks. */
  missingCastings: string[];
  warnings: string[];
}

export interface ImportRowView {
  line: number;
  outcome: 'accepted' | 'rejected' | 'duplicate';
  column: string | null;
  reason: string | null;
  values: Record<string, string>;
  note: string | null;
}

export interface ImportResult {
  accepted: number;
  rejected: { line: number; column: string | null; reason: string }[];
  duplicates: number;
  duplicateLines: number[];
  unidentified: number;
  addedCastings: number;
  lot?: { id: number; name: string };
  notes: string[];
}

/** Long work streams these; the last one carries the result. */
export type Progress<T> =
  | { type: 'progress'; done: number; total: number; stage: string }
  | { type: 'done'; result: T };

export interface ReportResult {
  fileName: string;
  mime: string;
  bytes: number;
  /** Fetched with `reports.file`. */
  token: string;
  warnings: string[];
}

export interface AssumptionsView {
  version: number;
  note: string;
  madeAt: string | null;
  body: import('../../valuation/index.ts').AssumptionSet;
  /** True while the owner has not changed the project's own starting points. */
  untouched: boolean;
  versions: { version: number; madeAt: string; note: string }[];
}

export interface PartStock {
  id: number;
  name: string;
  inStock: number;
  unit: Minor | null;
  currency: Currency | null;
  planned: number;
}

export type { Currency, FinishState, Grade, IsoDate, Minor, Range, Rarity };
