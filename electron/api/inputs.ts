/** What the procedures take: one zod schema each, so that bad input is refused where it enters, with its place. */
import { z } from 'zod';
import { importKinds } from '../../db/import/types.ts';
import { paperSizes, reportFormats } from '../../reports/types.ts';
import { dateOrders } from '../../valuation/reading/date.ts';
import { encodings, separators } from '../../valuation/reading/file-formats.ts';
import { decimalSigns } from '../../valuation/reading/money.ts';
import { plainLocale } from '../../valuation/wording/reader.ts';
import {
  basePaints,
  carStatuses,
  deviationKinds,
  finishStates,
  lotCostKinds,
  options,
  originalities,
  partNames,
  planKinds,
  planLineKinds,
  rarities,
  valueBases,
  variationFeatures,
  whichWorths,
} from '../../valuation/words.ts';
import {
  amount,
  amountFrom,
  currency,
  grade,
  id,
  isoDate,
  line,
  locale,
  range,
  share,
  text,
  threePoint,
  threePointAmount,
} from './fields.ts';
import { folderInput } from './folder-input.ts';

export const byId = z.object({ id });
export const byIds = z.object({ ids: z.array(id).min(1).max(100_000) });

export const createCollection = z.object({
  dir: folderInput.optional(),
  reportingCurrency: currency.default('USD'),
  owner: line.default(''),
});
export const openCollection = z.object({ dir: folderInput });
export const saveSettings = z.object({
  owner: line.optional(),
  name: line.optional(),
  reportingCurrency: currency.optional(),
});
export const saveRate = z.object({
  currency,
  on: isoDate,
  rate: z.string().regex(/^\d+(\.\d{1,9})?$/, 'a rate is a number such as 1.2735'),
});
/** `dir` names a collection that is not open, such as one too damaged to be. */
export const listBackups = z.object({ dir: folderInput.optional() }).optional();
export const restoreBackup = z.object({
  name: z.string().min(1).max(200),
  dir: folderInput.optional(),
  /** Takes a backup whose database is sound in itself though its description is not. */
  unverified: z.boolean().default(false),
});
/** `dir` names the folder to look into; without it, the one that is open or could not be opened. */
export const surveyFolder = z.object({ dir: folderInput.optional() }).optional();
export const setAside = z.object({ dir: folderInput });
export const search = z.object({ text: z.string().max(200), limit: z.int().min(1).max(100).default(20) });

const cost = z.object({
  kind: z.enum(lotCostKinds),
  minor: amount,
  note: line.default(''),
});
// A default inside `partial()` would still fill in what a change leaves out, so defaults are added apart.
const lot = z.object({
  name: line.min(1, 'a lot needs a name'),
  boughtOn: isoDate.nullable(),
  seller: line,
  currency,
  costs: z.array(cost),
  notes: text,
});
export const createLot = lot.extend({
  boughtOn: lot.shape.boughtOn.default(null),
  seller: lot.shape.seller.default(''),
  costs: lot.shape.costs.default([]),
  notes: lot.shape.notes.default(''),
});
export const updateLot = lot.partial().extend({ id });
/** Cars with a share fixed by hand; the rest of the lot's cost is shared by relative worth. */
export const shareLotCost = z.object({
  id,
  fixed: z.array(z.object({ carId: id, minor: amount.nullable() })).default([]),
});
export const bid = z.object({
  carIds: z.array(id).optional(),
  lotId: id.optional(),
  margin: share.default(0.2),
  probability: share.default(0.8),
  premiumRate: share.default(0),
  taxRate: share.default(0),
  carriage: amount.default(0),
});

const features = z.partialRecord(z.enum(variationFeatures), line);
export const carPatch = z.object({
  inventoryNumber: line.min(1).optional(),
  lotId: id.nullable().optional(),
  castingId: id.nullable().optional(),
  variationId: id.nullable().optional(),
  candidates: z.array(id).max(500).optional(),
  /** Text as typed, by our import columns; matched against the reference where it can be. */
  asWritten: z.record(line.max(40), line).optional(),
  grade: grade.nullable().optional(),
  finishState: z.enum(finishStates).optional(),
  status: z.enum(carStatuses).optional(),
  location: line.optional(),
  notes: text.optional(),
  ownWorth: range.nullable().optional(),
});
export const createCars = z.object({ lotId: id.nullable(), cars: z.array(carPatch).min(1).max(1000) });
/** One action in history, however many cars: a cell, a fill down, a paste. */
export const updateCars = z.object({
  changes: z
    .array(z.object({ id, patch: carPatch }))
    .min(1)
    .max(100_000),
  label: line.optional(),
});
export const listCars = z.object({
  lotId: id.optional(),
  castingId: id.optional(),
  variationId: id.optional(),
  includeSold: z.boolean().default(true),
});
export const saveCheck = z.object({
  carId: id,
  checkId: id.nullable().default(null),
  checkedOn: isoDate,
  grade: grade.nullable(),
  notes: text.default(''),
  parts: z.array(
    z.object({
      part: z.enum(partNames),
      grade: grade.nullable(),
      originality: z.enum(originalities),
      note: line.default(''),
    }),
  ),
});
export const addPhotos = z.object({
  carId: id.optional(),
  lotId: id.optional(),
  variationId: id.optional(),
  files: z.array(z.file().max(100_000_000, 'a photograph may have 100 MB at most')).min(1).max(200),
  view: line.default(''),
  caption: line.default(''),
  state: line.default(''),
});
export const updatePhoto = z.object({
  id,
  view: line.optional(),
  caption: line.optional(),
  state: line.optional(),
  takenOn: isoDate.nullable().optional(),
  position: z.int().optional(),
});
/** All photographs of one car, lot or variation, in the order in which they are to stand. */
export const reorderPhotos = z.object({ ids: z.array(id).min(1).max(1000) });
export const readPhoto = z.object({
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  size: z.enum(['thumbnail', 'screen', 'original']),
});
export const dispose = z.object({
  carId: id,
  soldOn: isoDate,
  proceeds: amount,
  fees: amount.default(0),
  currency,
  buyer: line.default(''),
  venue: line.default(''),
  notes: text.default(''),
});
export const expense = z.object({ carId: id, spentOn: isoDate, what: line.min(1), minor: amount, currency });

export const suggest = z.object({
  text: z.string().max(200),
  castingId: id.optional(),
  limit: z.int().min(1).max(50).default(12),
});
export const identify = z.object({ castingId: id, features });
export const saveCasting = z.object({
  id: id.optional(),
  maker: line.min(1),
  series: line.min(1),
  name: line.min(1),
  bodyType: line.default('saloon'),
  firstYear: z.int().min(1900).max(2100).nullable().default(null),
  lengthMm: z.number().positive().nullable().default(null),
  materials: text.default(''),
  markings: text.default(''),
  notes: text.default(''),
});
export const saveVariation = z.object({
  id: id.optional(),
  castingId: id,
  releaseName: line.min(1),
  releaseYear: z.int().min(1900).max(2100).nullable().default(null),
  features: features.refine(
    f => !f.basePaint || (basePaints as readonly string[]).includes(f.basePaint),
    'base paint is none, front quarter, rear quarter or full',
  ),
  rarity: z.enum(rarities).nullable().default(null),
  factorySpecification: text.default(''),
});
export const saveColour = z.object({ name: line.min(1), swatch: z.string().regex(/^#[0-9a-f]{6}$/) });

const sale = z.object({
  soldOn: isoDate,
  price: amountFrom(1, 'enter a price of more than zero'),
  currency,
  castingId: id,
  variationId: id.nullable(),
  grade: grade.nullable(),
  finishState: z.enum(finishStates),
  missingParts: z.array(z.enum(partNames)),
  reproductionParts: z.array(z.enum(partNames)),
  source: line,
  reference: line,
  reliabilityPercent: z.int().min(0).max(100).nullable(),
  notes: text,
});
export const saleRecord = sale.extend({
  variationId: sale.shape.variationId.default(null),
  grade: sale.shape.grade.default(null),
  finishState: sale.shape.finishState.default('original'),
  missingParts: sale.shape.missingParts.default([]),
  reproductionParts: sale.shape.reproductionParts.default([]),
  source: sale.shape.source.default(''),
  reference: sale.shape.reference.default(''),
  reliabilityPercent: sale.shape.reliabilityPercent.default(null),
  notes: sale.shape.notes.default(''),
});
export const salePatch = sale.partial();
export const updateSale = salePatch.extend({ id });
/** One action in history, however many records: a cell, a fill down, a paste. */
export const updateSales = z.object({
  changes: z
    .array(z.object({ id, patch: salePatch }))
    .min(1)
    .max(100_000),
});
export const excludeSales = z.object({
  ids: z.array(id).min(1),
  excluded: z.boolean(),
  why: line.default(''),
});
export const listSales = z.object({ castingId: id.optional(), variationId: id.optional() });

export const explainWorth = z.object({ carId: id, which: z.enum(whichWorths) });
export const onDate = z.object({ on: isoDate.optional() });

export const savePlan = z.object({
  carId: id,
  kind: z.enum(planKinds).default('restore'),
  targetGrade: grade,
  deviations: z.array(z.enum(deviationKinds)).default([]),
  partsAfter: z
    .array(z.object({ part: z.enum(partNames), grade: grade.nullable(), originality: z.enum(originalities) }))
    .default([]),
  hours: threePoint,
  spoilChance: share.default(0),
  spoiledShare: share.default(0.5),
  lines: z
    .array(
      z.object({
        name: line.min(1),
        kind: z.enum(planLineKinds),
        cost: threePointAmount,
        part: line.optional(),
        quantity: z.int().min(1).default(1),
      }),
    )
    .default([]),
  notes: text.default(''),
});
export const recordDecision = z.object({
  carId: id,
  choice: z.enum(options),
  overruled: z.array(z.string().max(40)).default([]),
  reason: text.default(''),
});
export const recordDecisions = z.object({ decisions: z.array(recordDecision).min(1).max(2000) });
export const listDecisions = z.object({
  lotId: id.optional(),
  finishStates: z.array(z.enum(finishStates)).optional(),
  belowGrade: grade.optional(),
  excludeRarities: z.array(z.enum(rarities)).optional(),
});
export const chooseCars = z.object({
  carIds: z.array(id).max(2000),
  hours: z.number().min(0).nullable().default(null),
  cash: amount.nullable().default(null),
  parts: z.record(line, z.int().min(0)).default({}),
  perCasting: z.int().min(1).nullable().default(null),
  must: z.array(id).default([]),
  mustNot: z.array(id).default([]),
});

const importOptions = z.object({
  as: z.enum(importKinds),
  sheet: z.string().optional(),
  encoding: z.enum(encodings).optional(),
  separator: z.enum(separators).optional(),
  /** Their heading → our column; null leaves a column out. */
  map: z.record(z.string(), z.string().nullable()).default({}),
  decimal: z.record(z.string(), z.enum(decimalSigns)).default({}),
  dateOrder: z.record(z.string(), z.enum(dateOrders)).default({}),
  currency: currency.optional(),
});
const ownWord = z.object({ column: line.default('*'), text: line, field: line, meaning: line });
/** A text of sales, one a line, and how it is meant. */
export const readSaleLines = z.object({
  text: z.string().max(5_000_000),
  dates: z.enum(['dmy', 'mdy']).optional(),
  currency: currency.optional(),
  words: z.array(ownWord).max(10_000).default([]),
});
/** Only these lines, by their numbers; without them, all. */
export const addSaleLines = readSaleLines.extend({ lines: z.array(id).optional() });

export const previewImport = importOptions.extend({
  file: z.file().max(2_000_000_000),
  addReference: z.boolean().default(false),
  lotId: id.optional(),
});
export const runImport = importOptions.extend({
  file: z.file().max(2_000_000_000),
  dryRun: z.boolean().default(false),
  addReference: z.boolean().default(false),
  /** For a lot: an existing one, or a new one with its price. */
  lotId: id.optional(),
  lot: createLot.optional(),
});

export const makeReport = z.object({
  format: z.enum(reportFormats),
  title: line.default('Collection report'),
  basis: z.enum(valueBases).default('fair market value'),
  lotId: id.optional(),
  carIds: z.array(id).optional(),
  on: isoDate.optional(),
  paper: z.enum(paperSizes).default('a4'),
  /** Of the reader, for amounts and spelling. */
  locale: locale.default(plainLocale),
  withPhotographs: z.boolean().default(true),
  includeSold: z.boolean().default(false),
});
export const reportFile = z.object({ token: z.string().min(1) });
export const saveAssumptions = z.object({ body: z.unknown(), note: line.default('') });
export const savePart = z.object({
  id: id.optional(),
  name: line.min(1),
  inStock: z.int().min(0),
  unit: amount.nullable().default(null),
  currency: currency.nullable().default(null),
});

/** What a cell, a fill or a paste changes of a car or of a sale record, as a screen sends it. */
export type CarPatch = z.input<typeof carPatch>;
export type SalePatch = z.input<typeof salePatch>;
export type ReportRequest = z.input<typeof makeReport>;
