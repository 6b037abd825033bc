import { z } from 'zod';
import { type CarRecord, listCars } from '../../../db/records/cars/cars.ts';
import type { Label } from '../../../reports/labels/label-model.ts';
import { type LabelSheetKey, labelSheetKeys, labelSheets } from '../../../reports/labels/label-sheets.ts';
import { createLabelsPdf } from '../../../reports/typesetting/pdf.ts';
import { colourNow } from '../../../valuation/wording/cars/disclosure-text.ts';
import { spell } from '../../../valuation/wording/dialect.ts';
import { plainLocale } from '../../../valuation/wording/reader.ts';
import { id, locale } from '../fields.ts';
import { isSeenOnly, ownedOf, seenLotsOf } from '../figures/owned.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { keepReport, madeReport, mimes } from '../reports/reports.ts';
import { base, needsCollection } from '../session/context.ts';
import { refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import { streamed } from '../session/progress.ts';
import type { Session } from '../session/session.ts';
import type { ReportResult } from '../views.ts';
import { paperOptions } from './paper-options.ts';

const makeLabels = z.object({
  sheet: z.enum(labelSheetKeys as [LabelSheetKey, ...LabelSheetKey[]]).default('a4-3x8'),
  /** The place of the first label on its sheet, counted from 1 along the rows. */
  start: z.int().min(1).default(1),
  lotId: id.optional(),
  /** These cars, in this order; else all of the owner's, by inventory number. */
  carIds: z.array(id).optional(),
  /** Prepares the pages for looking at, too. */
  preview: z.boolean().default(false),
  locale: locale.default(plainLocale),
});

/** The sheets and rolls that labels are printed on. */
export const sheets = base.handler((): { key: LabelSheetKey; name: string; places: number }[] =>
  labelSheetKeys.map(key => ({
    key,
    name: labelSheets[key].name,
    places: labelSheets[key].columns * labelSheets[key].rows,
  })),
);

/**
 * A car as its label names it, a car that was never identified by what its owner wrote: with what it wears
 * and what has become of its factory finish.
 */
const labelOf = (index: ReferenceIndex, car: CarRecord, reader: string): Label => {
  const casting = car.castingId === null ? undefined : index.castings.get(car.castingId);
  const variation = car.variationId === null ? undefined : index.variations.get(car.variationId);
  const release = car.releaseId === null ? undefined : index.releases.get(car.releaseId);
  return {
    number: car.inventoryNumber,
    name: release?.name ?? casting?.name ?? car.asWritten.casting ?? '',
    colour: [
      colourNow(variation?.features.colour ?? car.asWritten.colour ?? '', car.wornColour),
      car.finishState === 'original' ? '' : spell(car.finishState, reader),
    ]
      .filter(Boolean)
      .join(', '),
  };
};

const chosen = async (
  session: Session,
  { lotId, carIds }: z.output<typeof makeLabels>,
): Promise<CarRecord[]> => {
  const cars = await listCars(openOf(session).read.db);
  if (carIds) {
    const seen = await seenLotsOf(session);
    const byId = new Map(cars.filter(car => !isSeenOnly(seen, car)).map(car => [car.id, car]));
    return carIds.flatMap(carId => byId.get(carId) ?? []);
  }
  const owned = await ownedOf(session, cars);
  return owned.filter(car => lotId === undefined || car.lotId === lotId);
};

/** Labels of cars as a PDF, held under a token until it is fetched. */
export const labels = needsCollection.input(makeLabels).handler(({ context: { session }, input, signal }) =>
  streamed<ReportResult & { labels: number }>(async (onProgress, stop) => {
    const index = await referenceIndex(session);
    const cars = await chosen(session, input);
    if (cars.length === 0) throw refused('There is no car to label. Add cars, or choose others.');
    const today = await session.today();
    const { pdf, pages, warnings, preview } = await createLabelsPdf(
      cars.map(car => labelOf(index, car, input.locale)),
      { sheet: labelSheets[input.sheet], start: input.start },
      { ...paperOptions(session, today, onProgress, stop), preview: input.preview },
    );
    const fileName = `labels-${today}.pdf`;
    const file = { fileName, mime: mimes.pdf, bytes: pdf, preview, pages };
    return { ...madeReport(file, keepReport(session, file), warnings), labels: cars.length };
  }, signal),
);
