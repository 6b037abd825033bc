import { expect, test } from 'vitest';
import { newCollection } from '../../helpers/collections.ts';
import { fileOf, lookAt, take } from './importing.ts';

const sales = (cells: string[][]) =>
  fileOf(`date;price;casting\n${cells.map(row => `${row.join(';')};Osmerry`).join('\n')}\n`);

test('how a column writes its days and amounts is learned from all its cells, and said with them', async () => {
  const collection = await newCollection();
  const { learned, questions } = await lookAt(
    collection,
    sales([
      ['3/4/25', '12,50'],
      ['3/14/25', '9,00'],
    ]),
    { as: 'sales' },
  );
  expect(learned).toEqual([
    { column: 'date', kind: 'dates', value: 'mdy', from: 'its cells', cells: 1, examples: ['3/14/25'] },
    {
      column: 'price',
      kind: 'decimal',
      value: ',',
      from: 'its cells',
      cells: 2,
      examples: ['12,50', '9,00'],
    },
  ]);
  expect(questions).toEqual([]);
});

test('what no cell tells is asked, once for its column, and the answer settles it', async () => {
  const collection = await newCollection();
  const file = sales([
    ['3/4/25', '12.50'],
    ['5/6/25', '2.400'],
  ]);
  const { questions } = await lookAt(collection, file, { as: 'sales' });
  expect(questions).toEqual([
    { column: 'date', kind: 'dates', choices: ['dmy', 'mdy'], cells: 2, examples: ['3/4/25', '5/6/25'] },
    { column: 'price', kind: 'decimal', choices: ['.', ','], cells: 1, examples: ['2.400'] },
  ]);
  const answered = await take(collection, file, {
    as: 'sales',
    dateOrder: { date: 'dmy' },
    decimal: { price: '.' },
    addReference: true,
  });
  expect(answered.questions).toEqual([]);
  expect(answered.learned.map(({ value, from }) => [value, from])).toEqual([
    ['dmy', 'your answer'],
    ['.', 'your answer'],
  ]);
  expect(
    collection.write.sqlite.prepare('SELECT sold_on, price_minor FROM sale_record ORDER BY 1').raw().all(),
  ).toEqual([
    ['2025-04-03', 1250],
    ['2025-06-05', 240],
  ]);
});

test('a column that contradicts itself is asked about, whatever others show', async () => {
  const collection = await newCollection();
  const { questions } = await lookAt(
    collection,
    sales([
      ['13/4/25', '1'],
      ['4/13/25', '2'],
      ['4/5/25', '3'],
    ]),
    { as: 'sales' },
  );
  expect(questions).toEqual([
    { column: 'date', kind: 'dates', choices: ['dmy', 'mdy'], cells: 1, examples: ['4/5/25'] },
  ]);
});
