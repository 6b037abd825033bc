import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { galleryCars } from '../../../../electron/api/gallery/gallery-cars.ts';
import { makeReport } from '../../../../electron/api/inputs.ts';
import {
  benchPlan,
  bidFacts,
  claimFacts,
  dossierFacts,
  worksheetCars,
} from '../../../../electron/api/papers/gather.ts';
import { ledgerOf } from '../../../../electron/api/papers/ledger.ts';
import { reportData } from '../../../../electron/api/reports/report-data.ts';
import type { PaperDocument } from '../../../../reports/documents/document.ts';
import { benchSheetDocument } from '../../../../reports/documents/kinds/bench-sheet.ts';
import { bidSheetDocument } from '../../../../reports/documents/kinds/bid-sheet.ts';
import { claimDocument } from '../../../../reports/documents/kinds/claim.ts';
import {
  dossierDocument,
  type Edition,
  saleSheetDocument,
} from '../../../../reports/documents/kinds/dossier.ts';
import { ledgerDocument } from '../../../../reports/documents/kinds/ledger.ts';
import { worksheetDocument } from '../../../../reports/documents/kinds/worksheet.ts';
import { entryModel } from '../../../../reports/model/entry-model.ts';
import { disclosureText } from '../../../../valuation/wording/cars/disclosure-text.ts';
import { spell } from '../../../../valuation/wording/dialect.ts';
import { finishStates, grades } from '../../../../valuation/words.ts';
import { type Api, addReference, newCollectionService, resultOf } from '../../../helpers/api.ts';
import { readRfc4180 } from '../../../helpers/rfc-4180.ts';
import { pdfText } from '../../../reports/read-pdf.ts';

const locale = 'en-US';
const losses = finishStates.filter(state => state !== 'original');

interface Drawn {
  state: (typeof losses)[number];
  grade: number | null;
  /** Whether the reference knows which one it is. */
  known: boolean;
}

const drawn: fc.Arbitrary<Drawn> = fc.record({
  state: fc.constantFrom(...losses),
  grade: fc.constantFrom(null, ...grades),
  known: fc.boolean(),
});
/**
 * One of each state, then more, one of which is identified, as there is no bid for a lot without any value;
 * no number of a car is part of another's.
 */
const drawnCars = fc
  .tuple(
    fc.tuple(...losses.map(state => drawn.map((car): Drawn => ({ ...car, state })))),
    drawn.map((car): Drawn => ({ ...car, known: true })),
    fc.array(drawn, { maxLength: 2 }),
  )
  .map(([each, known, more]) => [...each, known, ...more]);

/** Cars without their factory finish, with a check each, money spent on them, a decision and their sale. */
const shelf = async (cars: readonly Drawn[]) => {
  const service = await newCollectionService();
  const { api } = service;
  const { variations } = await addReference(api);
  const { id: lotId } = await api.lots.create({
    name: 'Loft find',
    boughtOn: '2026-01-10',
    seller: 'E. Tarrow',
    currency: 'USD',
    costs: [{ kind: 'price', minor: 9000 }],
  });
  const { ids } = await api.cars.create({
    lotId,
    cars: cars.map(({ state, grade, known }, i) => ({
      inventoryNumber: `N${i}X`,
      variationId: known ? variations.mossTwin : null,
      grade,
      finishState: state,
    })),
  });
  for (const carId of ids) {
    const { grade } = cars[ids.indexOf(carId)]!;
    await api.cars.saveCheck({ carId, checkedOn: '2026-02-01', grade, notes: '', parts: [] });
    await api.cars.saveCheck({ carId, checkedOn: '2026-03-01', grade, notes: 'Fell', parts: [] });
    await api.cars.addExpense({ carId, spentOn: '2026-02-02', what: 'Wheels', minor: 300, currency: 'USD' });
    await api.decisions.record({ carId, choice: 'leave' });
  }
  const numbered = cars.map(({ state }, i) => ({
    number: `N${i}X`,
    carId: ids[i]!,
    word: spell(state, locale).toLowerCase(),
  }));
  return { ...service, lotId, numbered };
};
/** As tables say it, in the words that are stored. */
const asStored = (numbered: Numbered): Numbered =>
  numbered.map(car => ({ ...car, word: car.word.replace('customized', 'customised') }));
type Numbered = Awaited<ReturnType<typeof shelf>>['numbered'];

const sellAll = async (api: Api, numbered: Numbered) => {
  for (const { carId } of numbered)
    await api.cars.dispose({
      carId,
      soldOn: '2026-03-10',
      proceeds: 5000,
      currency: 'USD',
      buyer: 'O. Lind',
    });
};

const bytesOf = async (api: Api, made: { token: string }) =>
  Buffer.from(await (await api.reports.file(made)).arrayBuffer());

/** Each line that names a car says its state, and each car is named. */
const expectNamed = (where: string, lines: readonly string[], numbered: Numbered): void => {
  for (const { number, word } of numbered) {
    const own = lines.filter(line => line.includes(number));
    expect(own.length, `${where} names ${number}`).toBeGreaterThan(0);
    for (const line of own) expect(line.toLowerCase(), `${where}: ${line}`).toContain(word);
  }
};

const expectTables = async (
  api: Api,
  lists: readonly ('cars' | 'expenses' | 'decisions' | 'disposals')[],
  numbered: Numbered,
) => {
  for (const list of lists) {
    const out = async (format: 'csv' | 'jsonl') =>
      (await bytesOf(api, await resultOf(await api.exports.make({ list, format })))).toString('utf8');
    const [heads = [], ...cells] = readRfc4180(await out('csv'));
    const rows = cells.map(row => row.join(' | '));
    expectNamed(`${list} as CSV`, rows, asStored(numbered));
    // In its own column too, by which lists are sorted and taken in again, and not only in the words beside it.
    const [number, finish] = ['inventory_number', 'finish_state'].map(name => heads.indexOf(name));
    if (list === 'cars')
      expect(cells.map(row => [row[number!], row[finish!]]).toSorted()).toEqual(
        asStored(numbered)
          .map(one => [one.number, one.word])
          .toSorted(),
      );
    expectNamed(`${list} as JSON lines`, (await out('jsonl')).split('\n'), asStored(numbered));
  }
};

const edition: Edition = {
  reader: { locale, currency: 'USD' },
  owner: 'P. Marrow',
  paper: 'a4',
  withoutValues: false,
  withoutPlaces: false,
  on: '2026-03-14',
};
const year = { from: '2026-01-01', to: '2026-12-31', locale, paper: 'a4' } as const;
const bid = { margin: 0.2, probability: 0.8, premiumRate: 0, taxRate: 0, carriage: 0 };
const { signal } = new AbortController();

/** The rows, headings and paragraphs of a document, each as one line. */
const linesOf = ({ blocks }: { blocks: readonly object[] }): string[] =>
  blocks.flatMap(block =>
    'rows' in block ? (block.rows as string[][]).map(row => row.join(' | ')) : [JSON.stringify(block)],
  );

const statementsOf = ({ blocks }: PaperDocument): string[] =>
  blocks.flatMap(block => (block.kind === 'paragraph' && block.tone === 'statement' ? [block.text] : []));

describe('a car whose factory finish is not whole', () => {
  it('is never named by a list, a paper, a report or the gallery without its state', async () => {
    await fc.assert(
      fc.asyncProperty(drawnCars, async cars => {
        const { api, session, lotId, numbered } = await shelf(cars);
        await expectTables(api, ['cars', 'expenses', 'decisions'], numbered);
        for (const { number, carId, word } of numbered) {
          const hits = await api.collection.search({ text: number });
          expect(hits.find(hit => hit.kind === 'car' && hit.id === carId)?.detail).toContain(
            word.replace('customized', 'customised'),
          );
        }
        const report = await reportData(session, makeReport.parse({ format: 'pdf' }), () => {}, signal);
        for (const entry of report.entries) {
          const { number, finish, grade, finishStatement } = entryModel(entry, report, null, () => null);
          expectNamed(
            'the report',
            [`${number} ${finish}`],
            numbered.filter(car => car.number === number),
          );
          const { word } = numbered.find(car => car.number === number)!;
          expect(finishStatement.toLowerCase()).toContain(word);
          if (entry.grade !== null) expect(grade).toContain(word);
        }
        for (const { carId, word } of numbered) {
          const car = await dossierFacts(session, carId, 'en-US');
          const claim = claimDocument(await claimFacts(session, carId, 'en-US'), edition);
          const documents = [
            dossierDocument(car, edition),
            saleSheetDocument(car, edition),
            benchSheetDocument(car, (await benchPlan(session, carId)).plan, edition),
            claim,
          ];
          const disclosed = disclosureText(car.disclosure, locale);
          for (const document of documents) {
            expect(document.subtitle.toLowerCase()).toContain(word);
            expect(statementsOf(document).join('\n')).toContain(disclosed);
          }
          for (const told of ['Condition before', 'Condition after']) {
            const { value } = claim.blocks
              .flatMap(block => (block.kind === 'facts' ? block.facts : []))
              .find(fact => fact.label === told)!;
            expect(value).toContain(word);
          }
        }
        const worksheet = worksheetDocument(await worksheetCars(session, lotId, signal), edition);
        expectNamed('the worksheet', linesOf(worksheet), numbered);
        const told = statementsOf(worksheet).join('\n').toLowerCase();
        for (const { word } of numbered) expect(told).toContain(word);
        expect(statementsOf(worksheet)).toHaveLength(numbered.length);
        expectNamed(
          'the bid sheet',
          linesOf(bidSheetDocument(await bidFacts(session, lotId, bid), edition)),
          numbered,
        );
        for (const { inventoryNumber, condition, statement } of await galleryCars(session, { locale })) {
          const own = numbered.filter(({ number }) => number === inventoryNumber);
          expectNamed(
            'the gallery',
            [`${inventoryNumber} ${condition}`, `${inventoryNumber} ${statement}`],
            own,
          );
        }
        await sellAll(api, numbered);
        await expectTables(api, ['cars', 'disposals'], numbered);
        expectNamed('the ledger', linesOf(ledgerDocument(await ledgerOf(session, year))), numbered);
      }),
      { numRuns: 5 },
    );
  });

  it('has its state in each printed paper', async () => {
    const { api, numbered, lotId } = await shelf(
      losses.map((state, i) => ({ state, grade: i === 0 ? null : 4 + i, known: i > 1 })),
    );
    const read = async (made: { token: string }) =>
      (await pdfText(await bytesOf(api, made))).replaceAll(/\s+/g, ' ').toLowerCase();
    const words = numbered.map(({ word }) => word);
    const report = await read(
      await resultOf(await api.reports.make({ format: 'pdf', withPhotographs: false })),
    );
    const worksheet = await read(await resultOf(await api.papers.make({ kind: 'worksheet', lotId })));
    const labels = await read(await resultOf(await api.papers.labels({ sheet: 'roll-57x32', locale })));
    for (const { number, word } of numbered)
      expect(labels).toMatch(new RegExp(`${number.toLowerCase()} (?:(?!n\\dx).)*${word}`));
    const bidSheet = await read(await resultOf(await api.papers.make({ kind: 'bid', lotId })));
    for (const { number, word } of numbered) {
      for (const text of [worksheet, bidSheet])
        expect(text).toMatch(new RegExp(`${number.toLowerCase()} (?:(?!n\\dx).)*${word}`));
      expect(report).toContain(word);
    }
    expect(words).toEqual(['touched up', 'restored', 'customized', 'stripped']);
    const { carId } = numbered.at(-1)!;
    for (const kind of ['dossier', 'sale-sheet', 'claim', 'bench-sheet'] as const)
      expect(await read(await resultOf(await api.papers.make({ kind, carId })))).toContain('c7, stripped');
    await sellAll(api, numbered);
    const ledger = await read(await resultOf(await api.papers.make({ kind: 'ledger', from: year.from })));
    for (const { number, word } of numbered)
      expect(ledger).toContain(`${number.toLowerCase()}, ${word}, to o. lind`);
  });
});
