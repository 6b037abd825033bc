import { expect, test } from 'vitest';
import { fileOf, newLot, take } from './importing.ts';
import { knowing } from './strangers.ts';

const colours = { Ashlock: 'Ember', Kelderwick: 'Rosehip', Pellbrook: 'Damson' };

const cars = async (csv: string) => {
  const { rows = [] } = await take(await knowing(colours), fileOf(csv), {
    as: 'lot',
    lot: newLot('Loft'),
    rows: true,
  });
  return rows
    .filter(({ outcome }) => outcome === 'accepted')
    .map(({ fields, unread }) => ({ ...fields, unread }));
};

test('"Body" is how the paint is where its cells say so, and "Colour 1" the colour', async () => {
  expect(
    await cars(
      'Car Make,Car Model,Colour 1,Colour 2,Body\nQuillon,Ashlock,Ember,White roof,Good\nQuillon,Kelderwick,Rosehip,,chipped\n',
    ),
  ).toMatchObject([
    { maker: 'Quillon', casting: 'Ashlock', colour: 'Ember', body_state: 'Good' },
    { casting: 'Kelderwick', colour: 'Rosehip', body_state: 'chipped' },
  ]);
  expect(await cars('Car,Body\nAshlock,Ember\nKelderwick,Rosehip\n')).toMatchObject([
    { colour: 'Ember' },
    { colour: 'Rosehip' },
  ]);
});

test('an amount belongs to what the heading before it speaks of', async () => {
  const [row] = await cars('Car,Bought where,£,Sold where,Sold on,£\nAshlock,Fair,5,Online,2021-05-03,18\n');
  expect(row).toMatchObject({
    price_paid: 5,
    price_paid_currency: 'GBP',
    seller: 'Fair',
    sold_for: 18,
    sold_on: '2021-05-03',
  });
});

test('what a car was worth before and after work is no estimate of what it is worth', async () => {
  const [row] = await cars('Car,Restored Y/N,Value before,Value after\nAshlock,Y,$8,$30\n');
  expect(row).toMatchObject({ casting: 'Ashlock', finish_state: 'restored' });
  expect(row).not.toHaveProperty('own_estimate');
});

test('the inside has a colour of its own in German, and a Dutch condition is a grade', async () => {
  expect(await cars('Bezeichnung;Farbe außen;Farbe innen\nAshlock;Ember;elfenbein\n')).toMatchObject([
    { casting: 'Ashlock', colour: 'Ember', interior: expect.stringMatching(/ivory|elfenbein/) },
  ]);
  expect(await cars('naam;kleur;conditie\nAshlock;Ember;8\n')).toMatchObject([{ grade: 8 }]);
});

test('a grid of castings and colours is a list of the cars that are marked in it', async () => {
  const grid =
    'Casting,Ember,Rosehip,Notes,Damson\nAshlock,x,,dup,2\nKelderwick,,yes\nPellbrook,,,still looking\n';
  const { rows = [], notes } = await take(await knowing(colours), fileOf(grid), {
    as: 'lot',
    lot: newLot('Loft'),
    rows: true,
  });
  expect(notes).toContain('Line 1 is read as names of paint, and each mark below it as a car.');
  expect(rows.slice(1)).toMatchObject([
    { line: 2, fields: { casting: 'Ashlock', colour: 'Ember', quantity: 1, notes: 'dup' } },
    { line: 2, fields: { casting: 'Ashlock', colour: 'Damson', quantity: 2, notes: 'dup' } },
    { line: 3, fields: { casting: 'Kelderwick', colour: 'Rosehip', quantity: 1 } },
    { line: 4, outcome: 'rejected', not: 'not yours' },
  ]);
  // Colours that hold more than marks are columns of their own.
  expect(
    await cars('Car,Colour,Red,Blue\nAshlock,Ember,mine,his\nKelderwick,Rosehip,his,mine\n'),
  ).toMatchObject([{ casting: 'Ashlock' }, { casting: 'Kelderwick' }]);
});

test('a place without a car is none, and how far a restoration is waits to be settled', async () => {
  expect(await cars('Position,Car\n1A,Ashlock\n1B,(empty)\n1C,RESERVED for Kelderwick\n')).toMatchObject([
    { location: '1A', casting: 'Ashlock' },
  ]);
  expect(await cars('Car,Restoration status\nAshlock,Complete\nKelderwick,Not started\n')).toMatchObject([
    { unread: [{ column: 'Restoration status', text: 'Complete' }] },
    { unread: [{ column: 'Restoration status', text: 'Not started' }] },
  ]);
});

test('amounts that name no currency are asked about where the next column names another one', async () => {
  const csv = 'Car,Cost,Value\nAshlock,10,£20–30\nKelderwick,8,£15\n';
  const ask = async (text: string, more = {}) =>
    await take(await knowing(colours), fileOf(text), { as: 'lot', lot: newLot('Loft'), rows: true, ...more });
  const { questions, rows = [] } = await ask(csv);
  expect(questions).toMatchObject([{ column: 'Cost', kind: 'currency', choices: ['GBP', 'USD'] }]);
  expect(rows[1]?.fields).not.toHaveProperty('price_paid');
  const answered = await ask(csv, { bareCurrency: { Cost: 'GBP' } });
  expect(answered.rows?.[1]?.fields).toMatchObject({ price_paid: 10, price_paid_currency: 'GBP' });
  // The owner's own currency beside them asks nothing.
  expect((await ask('Car,Cost,Value\nAshlock,10,$20\nKelderwick,8,$15\n')).questions).toEqual([]);
});

test('what somebody would pay is no price that they paid', async () => {
  const [row] = await cars("Car,What I'd pay,Box Y/N\nAshlock,15,Y\n");
  expect(row).not.toHaveProperty('price_paid');
  expect(row).toMatchObject({ packaging: 'Y' });
});

test('crowns are told apart by one answer, which holds for those with a sign as well', async () => {
  const csv = 'Bil;Farve;Pris;Købt;Hylde\nAshlock;Ember;kr. 120,-;14-03-2019;A1\nKelderwick;Rosehip;80;;A2\n';
  const ask = async (more = {}) =>
    await take(await knowing(colours), fileOf(csv), { as: 'lot', lot: newLot('Loft'), rows: true, ...more });
  const { questions } = await ask();
  expect(questions).toMatchObject([
    { column: 'Pris', choices: expect.arrayContaining(['DKK', 'SEK', 'NOK']) },
  ]);
  const { rows = [] } = await ask({ bareCurrency: { Pris: 'DKK' } });
  expect(rows.slice(1).map(({ fields }) => fields)).toMatchObject([
    { price_paid: 120, price_paid_currency: 'DKK', bought_on: '2019-03-14', location: 'A1' },
    { price_paid: 80, price_paid_currency: 'DKK' },
  ]);
});

test.each([
  [
    'Italian',
    'Modello;Colore;Condizioni;Pagato;Data acquisto;Venduto;Prezzo vendita;Data vendita;Scatola\nAshlock;Ember;C7;€ 12,50;14/03/2019;no;;;sì\nKelderwick;Rosehip;C6;8 €;;sì;25 €;13/4/2021;no\n',
  ],
  [
    'Dutch',
    'Model;Kleur;Staat;Aankoopprijs;Gekocht op;Verkocht?;Verkoopprijs;Verkoopdatum;Doos\nAshlock;Ember;C7;€ 12,50;14-3-2019;Nee;;;Ja\nKelderwick;Rosehip;C6;€ 8;;Ja;€ 25;13-4-2021;Nee\n',
  ],
  [
    'Polish',
    'Nazwa;Kolor;Stan;Cena;Data zakupu;Sprzedane;Cena sprzedaży;Data sprzedaży;Pudełko\nAshlock;Ember;C7;EUR 12,50;14.03.2019;nie;;;tak\nKelderwick;Rosehip;C6;EUR 8;;tak;EUR 25;13.04.2021;nie\n',
  ],
  [
    'Portuguese',
    'Modelo;Cor;Estado;Preço;Comprado em;Vendido;Preço de venda;Data de venda;Caixa\nAshlock;Ember;C7;€ 12,50;14/03/2019;não;;;sim\nKelderwick;Rosehip;C6;€ 8;;sim;€ 25;13/04/2021;não\n',
  ],
])('a list in %s is read by its headings, its yes and its no', async (_, csv) => {
  const [first, second] = await cars(csv);
  expect(first).toMatchObject({
    casting: 'Ashlock',
    colour: 'Ember',
    grade: 7,
    price_paid: 12.5,
    price_paid_currency: 'EUR',
    bought_on: '2019-03-14',
    packaging: expect.any(String),
    unread: [],
  });
  expect(second).toMatchObject({
    casting: 'Kelderwick',
    price_paid: 8,
    sold_for: 25,
    sold_on: '2021-04-13',
    unread: [],
  });
  expect(second).not.toHaveProperty('packaging');
});

test('sales whose prices all have a sign of several currencies ask for it once', async () => {
  const csv =
    'Datum;Modell;Färg;Pris;Plats\n2024-03-14;Ashlock;Ember;420 kr;mässa\n2024-03-20;Kelderwick;Rosehip;250 kr;auktion\n';
  const sales = async (more = {}) =>
    await take(await knowing(colours), fileOf(csv), { as: 'sales', rows: true, ...more });
  expect((await sales()).questions).toMatchObject([
    { column: 'Pris', cells: 2, examples: ['420 kr', '250 kr'] },
  ]);
  const { rows = [] } = await sales({ bareCurrency: { Pris: 'SEK' } });
  expect(rows.slice(1).map(({ fields }) => fields)).toMatchObject([
    { price: 420, currency: 'SEK', source: 'mässa' },
    { price: 250, currency: 'SEK' },
  ]);
});

test.each([
  [
    'French',
    'Date vente;Désignation;Coloris;Adjudication;Maison\n14 mars 2024;Ashlock;Ember;42 €;Salle\n20/03/2024;Kelderwick;Rosehip;invendu;Salle\n',
    'EUR',
  ],
  [
    'Japanese',
    '落札日,品名,色,落札価格\n2024/03/14,Ashlock,Ember,"42円"\n2024/03/20,Kelderwick,Rosehip,unsold\n',
    'JPY',
  ],
])('a list of sales in %s is read, and what was not sold is none', async (_, csv, currency) => {
  const { rows = [] } = await take(await knowing(colours), fileOf(csv), { as: 'sales', rows: true });
  expect(rows.slice(1)).toMatchObject([
    { fields: { sold_on: '2024-03-14', casting: 'Ashlock', colour: 'Ember', price: 42, currency } },
    { outcome: 'rejected', not: 'not sold' },
  ]);
});

test('a year under "Bought" is a day that is not told wholly, and no price', async () => {
  for (const heading of ['Bought', 'Yr Bought', 'Purchased', 'Year bought']) {
    const [row] = await cars(
      `Car,${heading},Amt,Frm,Rmk\nAshlock,2019,$12,fair,bent\nKelderwick,2020,$8,web,\n`,
    );
    expect(row).toMatchObject({
      price_paid: 12,
      seller: 'fair',
      notes: 'bent',
      unread: [{ column: heading, text: '2019' }],
    });
  }
  const { rows = [] } = await take(await knowing(colours), fileOf('Car,Sold,Amount\nAshlock,2019,$12\n'), {
    as: 'sales',
    rows: true,
  });
  expect(rows[1]).toMatchObject({ outcome: 'rejected', column: 'Sold' });
});

test('how much of the paint is left is no colour', async () => {
  expect(await cars('Car,Paint %,Chrome %\nAshlock Ember,90,80\nKelderwick Rosehip,75,60\n')).toMatchObject([
    { casting: 'Ashlock', colour: 'Ember' },
    { casting: 'Kelderwick', colour: 'Rosehip' },
  ]);
});

test('a second price belongs to the day before it, and a maker before a name is no part of it', async () => {
  const rows = await cars(
    'car,bought,price,sold,price\nQuillon Ashlock,3/14/19,$8,4/13/21,$25\nKelderwick,3/20/19,$9,,\n',
  );
  expect(rows).toMatchObject([
    { casting: 'Ashlock', price_paid: 8, sold_for: 25, sold_on: '2021-04-13' },
    { casting: 'Kelderwick', price_paid: 9 },
  ]);
  // Other words beside a name make another name.
  expect(await cars('Car\nSuper Ashlock\nAshlock\n')).toMatchObject([
    { casting: 'Super Ashlock' },
    { casting: 'Ashlock' },
  ]);
});

test.each([
  [
    'English',
    'Car,Repainted?,Anything missing?,Box condition\nAshlock,no,none,C5\nKelderwick,yes,screen,\n',
    null,
  ],
  [
    'German',
    'Modell;Restauriert;Fehlteile;Zustand Karton\nAshlock;nein;keine;C5\nKelderwick;ja;Scheibe;\n',
    'restored',
  ],
  [
    'French',
    'Modèle;Restaurée;Pièces manquantes;État boîte\nAshlock;non;aucune;C5\nKelderwick;oui;pare-brise;\n',
    'restored',
  ],
  [
    'Spanish',
    'Modelo;Restaurado;Piezas que faltan;Estado caja\nAshlock;no;ninguna;C5\nKelderwick;sí;parabrisas;\n',
    'restored',
  ],
])('what was done to a car, what it lacks and how its box is are read in %s', async (_, csv, finish) => {
  const [first, second] = await cars(csv);
  expect(first).toMatchObject({ casting: 'Ashlock', packaging_grade: 5, unread: [] });
  expect(first).not.toHaveProperty('finish_state');
  expect(second).toMatchObject({ casting: 'Kelderwick', missing_parts: 'glazing' });
  // What "repainted" means is asked; a restored car is said to be restored.
  if (finish === null) expect(second?.unread).toMatchObject([{ column: 'Repainted?', text: 'yes' }]);
  else expect(second).toMatchObject({ finish_state: finish, unread: [] });
});

test('what a car in another state brings, or brought when new, is said of none of theirs', async () => {
  const [row] = await cars(
    'Car,Cond.,Cost,Original price,Value (mint),Value boxed,Value\nAshlock,C6,$8,$0.59,$120,$200,$35\nKelderwick,C7,$9,$0.59,$90,$150,$30\n',
  );
  expect(row).toMatchObject({ grade: 6, price_paid: 8, own_estimate: 35, unread: [] });
  // A fair market value is its owner's estimate.
  expect(await cars('Car,Fair market value\nAshlock,$35\nKelderwick,$30\n')).toMatchObject([
    { own_estimate: 35 },
    { own_estimate: 30 },
  ]);
  const [other] = await cars('Car,Mint value,Price new\nAshlock,$120,$0.59\nKelderwick,$90,$0.59\n');
  expect(other).not.toHaveProperty('own_estimate');
  expect(other).not.toHaveProperty('price_paid');
});

test('what became of the paint is no finish that a car left the factory in, and a label no car', async () => {
  expect(
    await cars('Name,Finish,Grade\nAshlock,candy,7\nKelderwick,enamel (respray),6\nPellbrook,bare metal,4\n'),
  ).toMatchObject([
    { body_finish: 'candy' },
    { unread: [{ column: 'Finish', text: 'enamel (respray)' }] },
    { unread: [{ column: 'Finish', text: 'bare metal' }] },
  ]);
  expect(
    await cars('Car,Colour\nAshlock,Ember\nBought:,20/04/2020 online\nKelderwick,Rosehip\n'),
  ).toHaveLength(2);
  expect(await cars('Car,Sold/Kept\nAshlock,Kept\nKelderwick,Sold\n')).toMatchObject([{ status: 'kept' }]);
});

test('a day, a grade or an amount of something else is none of the car’s own', async () => {
  const [row] = await cars(
    'Car,Date added,Date restored,Seller’s grade,Condition when bought,Colour code,For sale,Paint cost,Valued,Purchase notes\n' +
      'Ashlock,2024-01-02,2023-05-06,C8,C5,A4,$40,$5,2019,a bargain\nKelderwick,2024-01-03,2023-05-07,C7,C4,B2,$30,$6,2020,\n',
  );
  expect(row).toEqual({ casting: 'Ashlock', notes: 'a bargain', unread: [] });
  // Where nothing else is said, a day is the one of buying.
  expect(
    await cars('Car,When I got it,Date of purchase notes\nAshlock,2019-03-14,\nKelderwick,2019-03-15,\n'),
  ).toMatchObject([{ bought_on: '2019-03-14' }, { bought_on: '2019-03-15' }]);
});

test.each(['Date rec’d', 'Order date', 'Date of purchase', 'Day I got it'])(
  '"%s" is the day of buying',
  async heading => {
    expect(await cars(`Car,${heading}\nAshlock,2019-03-14\n`)).toMatchObject([{ bought_on: '2019-03-14' }]);
  },
);
