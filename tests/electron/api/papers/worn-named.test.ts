import { expect, it } from 'vitest';
import { galleryCars } from '../../../../electron/api/gallery/gallery-cars.ts';
import { makeReport } from '../../../../electron/api/inputs.ts';
import { dossierFacts } from '../../../../electron/api/papers/gather.ts';
import { reportData } from '../../../../electron/api/reports/report-data.ts';
import { dossierDocument, saleSheetDocument } from '../../../../reports/documents/kinds/dossier.ts';
import { entryModel } from '../../../../reports/model/entry-model.ts';
import { addReference, newCollectionService, resultOf } from '../../../helpers/api.ts';
import { readRfc4180 } from '../../../helpers/rfc-4180.ts';
import { pdfText } from '../../../reports/read-pdf.ts';
import { playworn } from '../../cli/run-command.ts';

/**
 * Made in Ember, restored in Teal and closed with a screw; beside it one that never was identified, and one
 * as it was made.
 */
const repainted = async () => {
  const service = await newCollectionService();
  const { api } = service;
  const { variations } = await addReference(api);
  const { ids } = await api.cars.create({
    lotId: null,
    cars: [
      { inventoryNumber: 'W-1', variationId: variations.emberTwin, grade: 3 },
      { inventoryNumber: 'W-2', asWritten: { casting: 'Sled', colour: 'grey' } },
      { inventoryNumber: 'W-3', variationId: variations.mossTwin, grade: 6 },
    ],
  });
  for (const carId of ids.slice(0, 2))
    await api.cars.finishWork({
      carId,
      jobId: null,
      kind: 'restore',
      finishedOn: '2026-03-10',
      finishState: 'restored',
      grade: carId === ids[0] ? 9 : null,
      parts: [],
      colour: 'Teal',
      bodyFinish: 'pearl lacquer',
      closure: 'screw',
    });
  return { ...service, ids };
};

const locale = 'en-US';
const { signal } = new AbortController();
const edition = {
  reader: { locale, currency: 'USD' },
  owner: '',
  paper: 'a4',
  withoutValues: false,
  withoutPlaces: false,
  on: '2026-03-14',
} as const;

it('a car that wears another colour is never named by the one it was made in alone', async () => {
  const { api, session, ids } = await repainted();
  const [carId = 0] = ids;
  const bytesOf = async (made: { token: string }) =>
    Buffer.from(await (await api.reports.file(made)).arrayBuffer());

  const labels = await pdfText(
    await bytesOf(await resultOf(await api.papers.labels({ sheet: 'roll-57x32' }))),
  );
  const printed = labels.replaceAll(/\s+/g, ' ');
  expect(printed).toMatch(/W-1 Dovetail Teal, was Ember, restored/);
  expect(printed).toMatch(/W-2 Sled Teal, was grey, restored/);
  expect(printed).toMatch(/W-3 Dovetail Moss(?!,)/);

  const facts = await dossierFacts(session, carId, 'en-US');
  const sale = saleSheetDocument(facts, edition);
  expect(sale.subtitle).toBe('Teal, was Ember, C9, restored');
  for (const { blocks } of [sale, dossierDocument(facts, edition)]) {
    const said = blocks.flatMap(block => (block.kind === 'facts' ? block.facts : []));
    expect(said).toContainEqual({ label: 'Color', value: 'Teal, was Ember' });
    expect(said).toContainEqual({ label: 'Body finish', value: 'pearl lacquer' });
  }
  const [shown] = await galleryCars(session, { locale });
  expect(shown?.colour).toBe('Teal, was Ember');
  expect(shown?.facts).toContainEqual({ label: 'Color', value: 'Teal, was Ember' });

  const report = await reportData(session, makeReport.parse({ format: 'pdf' }), () => {}, signal);
  const { shortName, facts: lines } = entryModel(report.entries[0]!, report, null, () => null);
  expect(shortName).toBe('Dovetail, Teal, was Ember');
  expect(lines).toContainEqual(['Color', 'Teal, was Ember']);
  expect(lines).toContainEqual(['Body finish', 'pearl lacquer']);

  const csv = readRfc4180(
    (await bytesOf(await resultOf(await api.exports.make({ list: 'cars', format: 'csv' })))).toString('utf8'),
  );
  const cell = (name: string) => csv[1]?.[csv[0]!.indexOf(name)];
  expect([cell('colour'), cell('worn_colour'), cell('finish_state')]).toEqual(['Ember', 'Teal', 'restored']);
  expect(cell('disclosure')).toContain('It wears Teal, pearl lacquer; it was made in Ember.');

  for (const text of ['teal', 'ember', 'W-1']) {
    const hit = (await api.collection.search({ text })).find(one => one.kind === 'car' && one.id === carId);
    expect(hit?.detail, text).toMatch(/Ember.* · wears Teal · C9, restored/);
  }
  const ungraded = (await api.collection.search({ text: 'W-2' }))[0];
  expect(ungraded?.detail).toContain('ungraded, restored');
  expect((await api.collection.home()).byColour.map(({ name, cars }) => [name, cars]).toSorted()).toEqual([
    ['Moss', 1],
    ['Teal', 2],
  ]);
});

it('grades of cars without their factory finish are summed apart, and the command line says their state', async () => {
  const { api, session } = await repainted();
  expect(
    (await api.collection.home()).byGrade.map(({ grade, finishState, cars }) => [grade, finishState, cars]),
  ).toEqual([
    [6, null, 1],
    [null, 'restored', 2],
  ]);
  const { dir } = session.collection!;
  await session.close();
  const run = async (command: string) => (await playworn([command, '--collection', dir])).stdout;
  const value = await run('value');
  expect(value).toMatch(/W-1 .*wears Teal .*C9, restored/);
  expect(value).toMatch(/W-2 .*ungraded, restored/);
  const decide = await run('decide');
  expect(decide).toMatch(/W-1 +C9, restored/);
  expect(decide).toMatch(/W-2 +ungraded, restored/);
  expect(decide).toMatch(/W-3 +C6 /);
});
