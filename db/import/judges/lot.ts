import type { Database } from 'better-sqlite3';
import type { Kysely } from 'kysely';
import { readQuantity } from '../../../valuation/reading/amounts.ts';
import { readDate } from '../../../valuation/reading/date.ts';
import { type Cell, isAmountCell, shownNumber, understood } from '../../../valuation/reading/reading.ts';
import { readFinishState, readParts, readStatus } from '../../../valuation/reading/words.ts';
import { saysNo, saysYes } from '../../../valuation/reading/yes-no.ts';
import type { Currency, IsoDate } from '../../../valuation/types.ts';
import type { PartName } from '../../../valuation/words.ts';
import { gradeToHalf } from '../../codec.ts';
import { carInserter, type NewCar } from '../../records/cars/cars-write.ts';
import { listLots } from '../../records/lots/lots.ts';
import { readSeenLots } from '../../records/seen-lots.ts';
import { loadReference, type Match } from '../../reference/match.ts';
import type { Schema } from '../../schema.ts';
import type { Purchases } from '../purchases.ts';
import { matchExplainer } from './explain-match.ts';
import { FeatureTexts } from './feature-text.ts';
import { gradeReader } from './grades.ts';
import { identityReader, notACar, notOwned } from './identity.ts';
import { type Habits, type Judge, type Judged, keptUnread, type RowReader } from './judge.ts';
import { knownCars, type RowToKnow } from './known-cars.ts';
import { notTheirs, takeStatus } from './ownership.ts';
import { dayOrder, type MoneyOfRow, moneyReader, partPaid, soldAlone } from './purchase.ts';
import { remarksReader } from './remarks.ts';
import { remembered } from './remembered.ts';
import { lotReader, takeSeen } from './seen.ts';
import { partsSaid, takeFinish, takeParts } from './state.ts';

const readNumber = (cell: Cell) =>
  understood(
    typeof cell === 'number' || isAmountCell(cell)
      ? shownNumber(typeof cell === 'number' ? cell : cell.number)
      : String(cell ?? '').trim(),
  );

interface Target {
  /** The lot into which the cars go, where it is there already; null for a new one. */
  lotId: number | null;
  /** Its name, by which an import that is repeated finds its cars again. */
  lotName: string | null;
  /** Gives the next free number to a car that brings none. */
  nextNumber: () => string;
  /** Of amounts that name none; and of the owner's own estimates. */
  currency: Currency;
  reporting: Currency;
  /** ISO instant. */
  at: string;
  /** How the cars were bought, for the lots that this makes. */
  purchases: Purchases;
  /** A connection that sees what is recorded, for statements prepared once. */
  reader: Database;
  /** The writing connection inside the import's action; null where rows are only looked at. */
  sqlite: Database | null;
}

const mostCandidates = 500;
const sumFields: ReadonlySet<string> = new Set([
  'price_paid',
  'price_paid_currency',
  'own_estimate',
  'quantity',
  'sold_for',
]);
const longestNumber = 60;
const counted = /^(\d{1,3}) ?[x×] ?(?=\p{L})/u;

/** How many cars the row is of, by its own column or as "2x Silver Kite". */
const takeQuantity = (
  row: RowReader,
  quantityOf: (cell: Cell) => ReturnType<typeof readQuantity>,
): number => {
  const said = counted.exec(row.text('casting'))?.[1];
  if (said !== undefined && Number(said) > 0 && !row.has('quantity')) {
    row.replace('casting', row.text('casting').replace(counted, ''));
    row.give('quantity', said, 'casting');
  }
  return row.take('quantity', quantityOf) ?? 1;
};

/** Said again of a part beneath a heading that says it already. */
const saysMissing =
  /(?<!\p{L})(?:(?:is|are) )?(?:missing|gone|lost|fehl(?:t|en)|manque|manquante?s?|faltan?|mancan?o?|mancant[ei]|ontbre(?:ekt|ken))(?!\p{L})/giu;

/** What a row says of the state that its car is in, and where it is; each text is understood once. */
const stateReader = (habits: Habits) => {
  const gradeOf = gradeReader(habits);
  const finishOf = remembered(readFinishState);
  const partsOf = remembered(readParts);
  const missingOf = remembered(cell =>
    readParts(typeof cell === 'string' ? cell.replace(saysMissing, '') : cell),
  );
  return (row: RowReader) => {
    const grade = gradeOf(row);
    const finishState = takeFinish(row, finishOf) ?? 'original';
    const location = row.takeText('location');
    const parts = partsSaid(row);
    // What a list tells of each part at length goes before words of its remarks.
    const isTold = (part: PartName) => row.has('parts') && parts.some(told => told.part === part);
    const missing = takeParts(row, 'missing_parts', missingOf).filter(part => !isTold(part));
    const reproductions = takeParts(row, 'reproduction_parts', partsOf).filter(
      part => !missing.includes(part) && !isTold(part),
    );
    return {
      grade,
      finishState,
      location,
      missing,
      reproductions,
      parts,
      wornColour: row.takeText('worn_colour'),
      wornFinish: row.takeText('worn_finish'),
      restorerMark: row.takeText('restorer_mark'),
    };
  };
};

/** Why what was paid for the car is left out of estimates; null where nothing says so. */
const leftOutSaid = (row: RowReader): string | null => {
  const said = row.text('purchase_left_out');
  if (said === '' || said === '0' || saysNo(said)) return null;
  const why = row.takeText('purchase_left_out', 500);
  return why === '1' || saysYes(why) ? '' : why;
};

/** What a row says, as far as it is understood. */
interface Said {
  quantity: number;
  written: Record<string, string>;
  match: Match;
  notes: string;
  state: ReturnType<ReturnType<typeof stateReader>>;
  money: MoneyOfRow;
  /** Its own number; '' where it brings none. */
  number: string;
}

/** Refuses a row that says nothing about the car; null where it says something. */
const refusedAsEmpty = (row: RowReader, { written, notes, number, money }: Said): Judged | null => {
  // Words that nobody understands say which car it is where other cells tell of it.
  const isOpen =
    row.unread.some(({ field }) => field === 'casting') ||
    (row.filled > 1 && /\p{L}{3}/u.test(row.written('description')));
  // A year alone is of a row of years rather than of a car.
  if (Object.keys(written).some(column => column !== 'release_year') || notes || number || isOpen)
    return null;
  row.refuse(
    'casting',
    'the row says nothing about the car: give its number, a casting, one of its features or a note',
  );
  // An amount and nothing else, below a column of amounts, is their sum.
  const isSum = money.purchase.paid !== null && Object.keys(row.fields).every(field => sumFields.has(field));
  return (
    row.rejected(isSum ? 'a total' : null) ?? {
      outcome: 'rejected',
      column: 'casting',
      reason: '',
      not: null,
    }
  );
};

/**
 * The row without what words gave it in columns that are not read; null where they gave nothing that a car is
 * known by.
 */
const withoutUnreadColumns = (row: RowReader, said: RowToKnow): RowToKnow | null => {
  if (row.heard.length === 0) return null;
  const gave = new Set(
    row.heard.flatMap(({ field, gave: values }) => (field === '' ? Object.keys(values) : [])),
  );
  if (gave.size === 0) return null;
  return {
    ...said,
    ...(gave.has('grade') && { gradeHalf: null }),
    ...(gave.has('finish_state') && { finishState: 'original' }),
    ...(gave.has('location') && { location: '' }),
    written: Object.fromEntries(Object.entries(said.written).filter(([field]) => !gave.has(field))),
  };
};

/**
 * The number under which the car of a row is entered, '' where it is given the next free one; or that the
 * collection has this car already. The number, or what the car is, is then known for the rows that follow.
 */
const numberOrKnown = (
  row: RowReader,
  line: number,
  { quantity, written, match, notes, state, money: { purchase }, number: given }: Said,
  {
    known,
    purchases,
    lotName,
  }: Pick<Target, 'purchases' | 'lotName'> & { known: ReturnType<typeof knownCars> },
): string | Extract<Judged, { outcome: 'duplicate' }> => {
  const number = given.length > longestNumber ? '' : given;
  if (number !== given)
    row.hold('inventory_number', `an inventory number has ${longestNumber} characters at most`);
  const { finishState, location } = state;
  const gradeHalf = gradeToHalf(state.grade);
  const { castingId, variationId } = match;
  const { boughtOn, seller } = purchase;
  const lotNames = [lotName ?? '', ...purchases.namesOf(purchase)];
  const said = {
    written,
    castingId,
    variationId,
    gradeHalf,
    finishState,
    notes,
    location,
    boughtOn,
    seller,
    lotNames,
  };
  // An import before a word was said has not taken what the word gives in a column that is not read.
  const unsaid = withoutUnreadColumns(row, said);
  const likes = unsaid ? [said, unsaid] : [said];
  const before = number ? known.numbered(number, line, likes) : null;
  if (before === 'same')
    return {
      outcome: 'duplicate',
      note: `the collection has this car already, with the number ${number} and what else the row says; nothing was changed`,
    };
  if (
    (before !== null || number === '') &&
    likes.some(like =>
      known.equal(
        [JSON.stringify(like.written), like.gradeHalf, like.finishState, notes],
        purchases.namesOf(purchase),
        quantity,
      ),
    )
  )
    return { outcome: 'duplicate', note: 'this lot has the same car already; nothing was changed' };
  if (before === null) return number;
  row.hold(
    'inventory_number',
    before === 'other'
      ? `number ${number} belongs to another car of the collection; this one is given the next free number`
      : `number ${number} is on line ${before} already; this car is given the next free number`,
  );
  delete row.fields.inventory_number;
  return '';
};

/**
 * Judges the rows of a lot file. Nothing that is written refuses a row: what is not understood is saved
 * beside the car. A number that stands in the collection already for the same car is a duplicate, and so is a
 * row without a number that equals a car of the same lot; nothing that is kept is ever overwritten.
 */
export const lotJudge = async (db: Kysely<Schema>, habits: Habits, target: Target): Promise<Judge> => {
  const { at, sqlite, currency, reporting, purchases, lotName } = target;
  const today: IsoDate = at.slice(0, 10);
  const reference = await loadReference(db);
  const explain = matchExplainer(reference);
  const texts = new FeatureTexts(reference, habits.words.words);
  const identityOf = identityReader(reference, texts, remarksReader(texts, habits.words));
  const stateOf = stateReader(habits);
  const moneyOf = moneyReader(habits, { currency, reporting, today });
  const insert = sqlite && carInserter(sqlite, at);
  const known = knownCars(target.reader, target);
  const quantityOf = remembered(readQuantity);
  const statusOf = remembered(readStatus);
  const seen = await readSeenLots(db);
  const lotOf = lotReader(await listLots(db), { purchases, seen, mainId: target.lotId });
  const checkedOnOf = remembered(cell => readDate(cell, dayOrder(habits, 'documented_on'), today));

  return (row, line): Judged => {
    const notOne = notTheirs(row) ?? notOwned(reference, row);
    if (notOne) return notOne;
    const quantity = takeQuantity(row, quantityOf);
    const { written, match, remarks } = identityOf(row);
    const notCar = notACar(reference, { written, match });
    if (notCar) return notCar;
    const notes = [row.takeText('notes', 20_000), ...remarks].filter(Boolean).join('\n');
    const saysSeen = takeSeen(row);
    const state = stateOf(row);
    const money = moneyOf(row, quantity);
    const sold = soldAlone(row, money.sold, quantity);
    const status = takeStatus(row, statusOf);
    const given = row.take('inventory_number', readNumber) ?? '';
    const said: Said = { quantity, written, match, notes, state, money, number: given };
    const refused = row.rejected() ?? refusedAsEmpty(row, said);
    if (refused) return refused;
    const { purchase } = money;
    const wasBought = sold !== null || purchase.boughtOn !== null || purchase.paid !== null;
    const { lot, seenLot } = lotOf(row, saysSeen, wasBought);
    const nameOfLot = lot?.name ?? seenLot ?? lotName;
    const number = numberOrKnown(row, line, said, { known, purchases, lotName: nameOfLot });
    if (typeof number !== 'string') return number;
    const checkedOn = row.take('documented_on', checkedOnOf);
    const purchaseLeftOut = leftOutSaid(row);
    const why = explain(written, match);
    const isOriginal = row.fields.finish_state === 'original';
    const unread = row.unread.map(cell =>
      isOriginal && cell.field === '' && !cell.holds
        ? { ...keptUnread(cell), isOriginal: true as const }
        : keptUnread(cell),
    );
    const purchaseOfOne = (i: number) => ({ ...purchase, paid: partPaid(purchase.paid, quantity, i) });
    const car = (inventoryNumber: string): NewCar => ({
      inventoryNumber,
      lotId: lot?.id ?? target.lotId,
      castingId: match.castingId,
      releaseId: match.releaseId,
      variationId: match.variationId,
      asWritten: written,
      grade: state.grade,
      finishState: state.finishState,
      wornColour: state.wornColour,
      wornFinish: state.wornFinish,
      restorerMark: state.restorerMark,
      status: sold ? 'sold' : status,
      location: state.location,
      notes,
      ownWorth: money.ownWorth,
      boughtOn: purchase.boughtOn,
      seller: purchase.seller,
    });
    const addTo = (id: number, i: number): void => {
      if (seenLot === null) purchases.add(id, purchaseOfOne(i), sqlite !== null && sold !== null, lot);
      else purchases.addSeen(id, seenLot);
    };
    if (!sqlite) for (let i = 0; i < quantity; i++) addTo(0, i);
    return {
      outcome: 'accepted',
      notes: why === null ? row.notes : [...row.notes, why],
      unidentified: match.variationId === null,
      write: () => {
        for (let i = 0; i < quantity; i++) {
          const id = insert?.(car((i === 0 && number) || target.nextNumber()), {
            candidates: match.candidates.slice(0, mostCandidates),
            unread,
            heard: row.heard,
            missing: state.missing,
            reproductions: state.reproductions,
            parts: state.parts,
            checkedOn,
            purchaseLeftOut,
            sold,
          });
          if (id !== undefined) addTo(id, i);
        }
      },
    };
  };
};
