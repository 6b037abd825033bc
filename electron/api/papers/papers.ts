import type { z } from 'zod';
import { listCastingSets } from '../../../db/records/collection/casting-sets.ts';
import { readSetting } from '../../../db/records/collection/settings.ts';
import type { PaperDocument } from '../../../reports/documents/document.ts';
import type { Edition } from '../../../reports/documents/kinds/dossier.ts';
import { createDocumentPdf } from '../../../reports/typesetting/pdf.ts';
import type { Typeset } from '../../../reports/typesetting/typeset.ts';
import { findCar } from '../cars/find-car.ts';
import { tableBytes } from '../exports/table-bytes.ts';
import { booksOf } from '../figures/books.ts';
import { refuseSeen } from '../figures/owned.ts';
import { makePaper, type PaperKind } from '../inputs.ts';
import { keepReport, madeReport, mimes } from '../reports/reports.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import { streamed } from '../session/progress.ts';
import type { Session } from '../session/session.ts';
import type { ReportResult } from '../views.ts';
import { labels, sheets } from './labels.ts';
import { paperOptions } from './paper-options.ts';

type PaperWanted = z.output<typeof makePaper>;

const needed = (value: number | undefined, what: string, kind: PaperKind): number => {
  if (value === undefined) throw refused(`A ${kind.replace('-', ' ')} is about one ${what}: say which.`);
  return value;
};

const editionOf = async (session: Session, wanted: PaperWanted): Promise<Edition> => {
  const { db } = openOf(session).read;
  const { currency } = await booksOf(session);
  return {
    reader: { locale: wanted.locale, currency },
    owner: (await readSetting(db, 'owner')) ?? '',
    paper: wanted.paper,
    withoutValues: wanted.withoutValues,
    withoutPlaces: wanted.withoutPlaces,
    on: await session.today(),
  };
};

/** The last day of the year that begins on a day. */
const lastDayOfYear = (from: string): string => {
  const [year = 0, month = 0, day = 0] = from.split('-').map(Number);
  return new Date(Date.UTC(year + 1, month - 1, day - 1)).toISOString().slice(0, 10);
};

const yearOf = (wanted: PaperWanted, today: string): { from: string; to: string } => {
  const { yearBegins } = wanted;
  const year = Number(today.slice(0, 4)) - (today.slice(5) < yearBegins ? 1 : 0);
  const from = wanted.from ?? `${year}-${yearBegins}`;
  const to = wanted.to ?? lastDayOfYear(from);
  if (to < from) throw refused(`The ledger would end on ${to}, before it begins on ${from}.`);
  return { from, to };
};

const ledgerFor = async (session: Session, wanted: PaperWanted) => {
  const { ledgerOf } = await import('./ledger.ts');
  const { paper } = wanted;
  return ledgerOf(session, { ...yearOf(wanted, await session.today()), locale: wanted.locale, paper });
};

const documentOf = async (
  session: Session,
  wanted: PaperWanted,
  edition: Edition,
  signal: AbortSignal,
): Promise<PaperDocument> => {
  const { kind } = wanted;
  const gather = await import('./gather.ts');
  switch (kind) {
    case 'worksheet': {
      const { worksheetDocument } = await import('../../../reports/documents/kinds/worksheet.ts');
      const cars = await gather.worksheetCars(session, wanted.lotId, signal);
      if (cars.length === 0) throw refused('There is no car to decide on. Add cars, or choose others.');
      return worksheetDocument(cars, edition);
    }
    case 'dossier':
    case 'sale-sheet': {
      const kinds = await import('../../../reports/documents/kinds/dossier.ts');
      const carId = needed(wanted.carId, 'car', kind);
      if (kind === 'sale-sheet') await refuseSeen(session, await findCar(openOf(session).read.db, carId));
      const facts = await gather.dossierFacts(session, carId, wanted.locale);
      return kind === 'dossier'
        ? kinds.dossierDocument(facts, edition)
        : kinds.saleSheetDocument(facts, edition);
    }
    case 'claim': {
      const { claimDocument } = await import('../../../reports/documents/kinds/claim.ts');
      const carId = needed(wanted.carId, 'car', kind);
      await refuseSeen(session, await findCar(openOf(session).read.db, carId));
      return claimDocument(await gather.claimFacts(session, carId, wanted.locale), edition);
    }
    case 'bench-sheet': {
      const { benchSheetDocument } = await import('../../../reports/documents/kinds/bench-sheet.ts');
      const carId = needed(wanted.carId, 'car', kind);
      const car = await gather.dossierFacts(session, carId, wanted.locale);
      const { plan, lookAt } = await gather.benchPlan(session, carId);
      return benchSheetDocument(car, plan, edition, lookAt);
    }
    case 'bid': {
      const { bidSheetDocument } = await import('../../../reports/documents/kinds/bid-sheet.ts');
      const lotId = needed(wanted.lotId, 'lot', kind);
      return bidSheetDocument(await gather.bidFacts(session, lotId, wanted), edition);
    }
    case 'want-list': {
      const { wantListDocument } = await import('../../../reports/documents/kinds/want-list.ts');
      const { setId, grade } = wanted;
      const [set] = setId === undefined ? [] : await listCastingSets(openOf(session).read.db, setId);
      if (setId !== undefined && !set) throw notFound('set', setId);
      const wanting = await gather.wantedCastings(session, grade, set);
      return wantListDocument({ wanted: wanting, grade, ...(set && { set: set.name }) }, edition);
    }
    case 'ledger': {
      const { ledgerDocument } = await import('../../../reports/documents/kinds/ledger.ts');
      return ledgerDocument(await ledgerFor(session, wanted));
    }
  }
};

/** Makes a paper, held under a token until it is fetched; the same data and day give the same bytes. */
const make = needsCollection.input(makePaper).handler(({ context: { session }, input, signal }) =>
  streamed<ReportResult>(async (onProgress, stop) => {
    const today = await session.today();
    const { kind, format } = input;
    const fileName = `${kind}-${today}.${format}`;
    const held = (
      bytes: Uint8Array,
      title: string,
      { pages, warnings, preview }: Pick<Typeset, 'pages' | 'warnings' | 'preview'>,
    ) => {
      const said = { kind, name: title, effectiveOn: today, total: null, currency: null, cars: null };
      const file = { fileName, mime: mimes[format], bytes, preview, pages, said };
      return { ...madeReport(file, keepReport(session, file), warnings) };
    };
    if (format !== 'pdf') {
      if (kind !== 'ledger') throw refused('Of these papers, only the ledger is a table. Make a PDF.');
      const { ledgerTable } = await import('../../../reports/documents/kinds/ledger.ts');
      return held(
        await tableBytes(session, ledgerTable(await ledgerFor(session, input)), format, stop),
        'Ledger',
        { pages: 0, warnings: [], preview: [] },
      );
    }
    const document = await documentOf(session, input, await editionOf(session, input), stop);
    const made = await createDocumentPdf(document, {
      ...paperOptions(session, today, onProgress, stop),
      standard: input.standard,
      preview: input.preview,
    });
    return held(made.pdf, document.title, made);
  }, signal),
);

export const papers = { make, labels, sheets };
