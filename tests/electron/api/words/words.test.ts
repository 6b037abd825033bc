import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { addReference, newCollectionService, refusalOf, resultOf } from '../../../helpers/api.ts';

/** Cars of one lot with texts of the column Cond. that were not understood, as an import saves them. */
const carsWith = async (texts: (string | null)[]) => {
  const service = await newCollectionService();
  const { api, session } = service;
  const { id } = await api.lots.create({ name: 'Tin', currency: 'USD' });
  const cars = texts.map((_, i) => ({ inventoryNumber: `T-${i + 1}` }));
  await api.cars.create({ lotId: id, cars });
  await session.act('Saved unread texts', async trx => {
    for (const [i, text] of texts.entries())
      if (text !== null)
        await trx
          .updateTable('car')
          .set({ unread: JSON.stringify([{ column: 'Cond.', text, field: 'grade' }]) })
          .where('inventory_number', '=', `T-${i + 1}`)
          .execute();
  });
  const grades = async () => (await api.cars.list({})).map(car => car.grade);
  return { api, grades };
};

it('waiting texts are listed once each, with a proposal where most people mean the same', async () => {
  const { api } = await carsWith(['beater', 'Beater', 'good', null]);
  const waiting = await api.words.waiting();
  expect(
    waiting.map(({ column, text, field, meaning, cars }) => [column, text, field, meaning, cars]),
  ).toEqual([
    ['Cond.', 'beater', 'grade', 'C2', 2],
    ['Cond.', 'good', 'grade', '', 1],
  ]);
});

it('one answer settles every equal text of its column, is one action, and is remembered', async () => {
  const { api, grades } = await carsWith(['beater', 'Beater ', 'good', null]);
  const settled = await api.words.set({
    words: [{ column: 'cond.', text: 'beater', field: 'grade', meaning: 'C2' }],
  });
  expect(settled).toEqual({ cars: 2, sales: 0 });
  expect(await grades()).toEqual([2, 2, null, null]);
  expect((await api.words.waiting()).map(({ text }) => text)).toEqual(['good']);
  expect((await api.words.list()).words).toMatchObject([{ text: 'beater', field: 'grade', meaning: '2' }]);
  await api.collection.undo();
  expect(await grades()).toEqual([null, null, null, null]);
  expect((await api.words.list()).words).toEqual([]);
  expect(await api.words.waiting()).toHaveLength(2);
});

it('a scale said once settles all texts of its column that lie on it', async () => {
  const { api, grades } = await carsWith(['80 %', '55 %', 'nice', '100%']);
  await api.words.set({ words: [{ column: 'Cond.', text: '*', field: 'grade scale', meaning: '100 %' }] });
  expect(await grades()).toEqual([8, 5.5, null, 10]);
  expect((await api.words.waiting()).map(({ text }) => text)).toEqual(['nice']);
});

it('a meaning that its field does not have is refused, and a word can be changed and removed', async () => {
  const { api } = await carsWith([null]);
  const wrong = api.words.set({ words: [{ column: '*', text: 'mint', field: 'grade', meaning: 'lovely' }] });
  expect((await refusalOf(wrong)).message).toContain('"lovely" is not a grade');
  await api.words.set({ words: [{ column: '*', text: 'mint', field: 'grade', meaning: 'C9.5' }] });
  const [word] = (await api.words.list()).words;
  await api.words.set({ words: [{ id: word?.id, column: '*', text: 'mint', field: 'grade', meaning: '9' }] });
  expect((await api.words.list()).words).toMatchObject([{ id: word?.id, meaning: '9' }]);
  await api.words.remove({ ids: [word?.id ?? 0] });
  expect((await api.words.list()).words).toEqual([]);
});

it('a colour settled by a word leads to the variation that it names', async () => {
  const { api, session } = await newCollectionService();
  const { variations } = await addReference(api);
  const { id } = await api.lots.create({ name: 'Tin', currency: 'USD' });
  await api.cars.create({
    lotId: id,
    cars: [
      { inventoryNumber: 'T-1', asWritten: { casting: 'Dovetail', colour: 'embr', rear_end: 'twin lamps' } },
    ],
  });
  await session.act('Saved unread texts', trx =>
    trx
      .updateTable('car')
      .set({ unread: JSON.stringify([{ column: 'Paint', text: 'embr', field: 'colour' }]) })
      .execute(),
  );
  expect(await api.words.waiting()).toMatchObject([{ field: 'colour', meaning: 'Ember', cars: 1 }]);
  await api.words.set({ words: [{ column: 'Paint', text: 'embr', field: 'colour', meaning: 'Ember' }] });
  expect(await api.cars.list({})).toMatchObject([{ variationId: variations.emberTwin }]);
});

it('a field that is given by hand settles the text that waited there, for that car alone', async () => {
  const { api, grades } = await carsWith(['beater', 'beater']);
  const [first] = await api.cars.list({});
  await api.cars.update({ changes: [{ id: first!.id, patch: { location: 'shelf' } }] });
  expect((await api.words.waiting()).map(({ cars }) => cars)).toEqual([2]);
  await api.cars.update({ changes: [{ id: first!.id, patch: { grade: 3 } }] });
  expect(await grades()).toEqual([3, null]);
  expect((await api.words.waiting()).map(({ cars }) => cars)).toEqual([1]);
  expect((await api.cars.list({})).map(({ unread }) => unread.map(({ text }) => text))).toEqual([
    [],
    ['beater'],
  ]);
});

it('the vocabulary of the reference is its own names, field by field', async () => {
  const { api } = await newCollectionService();
  await addReference(api);
  const vocabulary = await api.words.vocabulary();
  const castings = await api.reference.castings();
  expect(vocabulary.casting?.toSorted()).toEqual(castings.map(({ name }) => name).toSorted());
  expect(vocabulary.colour).toContain('Ember');
  expect(vocabulary.casting).not.toContain('');
});

it('cars are found by the words of their owner, in the search and among the cars', async () => {
  const { api } = await carsWith(['beater', null, null]);
  await api.words.set({
    words: [
      { column: 'Cond.', text: 'beater', field: 'grade', meaning: 'C2' },
      { column: 'Paint', text: 'lt grn', field: 'colour', meaning: 'Limewash' },
    ],
  });
  const [, second] = await api.cars.list({});
  await api.cars.update({ changes: [{ id: second!.id, patch: { asWritten: { colour: 'Limewash' } } }] });
  const found = async (text: string) => (await api.collection.search({ text })).map(({ title }) => title);
  expect(await found('beater')).toEqual(['T-1']);
  expect(await found('lt grn')).toEqual(['T-2']);
  expect(await found('beater T-2')).toEqual([]);
  expect((await api.cars.list({})).map(({ said }) => said)).toEqual([['beater'], ['lt grn'], []]);
});

it('what is not understood goes out with a list as a column of its own, and is printed', async () => {
  const { api } = await carsWith(['=beater', null]);
  const made = await resultOf(await api.reports.make({ format: 'csv' }));
  const file = await api.reports.file({ token: made.token });
  const [headings, first] = (await file.text()).split('\r\n');
  expect(headings?.split(',')).toContain('not_understood');
  expect(first).toContain('Cond.: =beater');
  const { token } = await resultOf(await api.reports.make({ format: 'pdf', withPhotographs: false }));
  const path = join(mkdtempSync(join(tmpdir(), 'playworn-')), 'report.pdf');
  writeFileSync(path, Buffer.from(await (await api.reports.file({ token })).arrayBuffer()));
  const pdf = execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
  rmSync(dirname(path), { recursive: true });
  expect(pdf.replace(/\s+/g, ' ')).toContain('Written and not understood: Cond.: =beater');
});
