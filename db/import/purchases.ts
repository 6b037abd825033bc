import type { Transaction } from 'kysely';
import type { Currency, IsoDate, Minor } from '../../valuation/types.ts';
import { pieces } from '../codec.ts';
import { saveLotBid, usualBid } from '../records/lots/lot-bids.ts';
import {
  findLotNamed,
  insertLot,
  type LotRecord,
  lotCosts,
  replaceLotCosts,
  setShares,
} from '../records/lots/lots.ts';
import type { Schema } from '../schema.ts';
import type { Purchase } from './judges/purchase.ts';
import type { PlannedLot } from './types.ts';

/** The lot that a file is imported as. */
export interface MainLot {
  id: number;
  name: string;
  currency: Currency;
  /** True where its owner has said what all of it cost: what single cars cost is then part of that. */
  isPriced: boolean;
}

interface Bought {
  carId: number;
  paid: Minor | null;
}

interface Group {
  boughtOn: IsoDate | null;
  seller: string;
  currency: Currency | null;
  cars: Bought[];
}

/** Cars of a file that go into one lot. */
interface Part {
  /** Null is the lot that the file is imported as. */
  name: string | null;
  boughtOn: IsoDate | null;
  seller: string;
  currency: Currency;
  cars: Bought[];
  /** Bought on one day from one seller, and not one by one. */
  isTogether: boolean;
}

/** How the purchases of a file became lots. */
export interface SettledPurchases {
  /** Lots whose cost is to be shared by worth, since not every car has a price of its own. */
  toShare: number[];
  /** The lots that were made, or added to, beside the file's own. */
  lotIds: number[];
  /** The lots of the collection that cars joined, because their rows name them. */
  joinedIds: number[];
  /** The lots that were made of cars that were only seen. */
  seenIds: number[];
  soldCarIds: number[];
}

const lotNameOf = (seller: string, boughtOn: IsoDate, currency: Currency | null, own: Currency): string =>
  `${seller || 'Bought'}, ${boughtOn}${currency === null || currency === own ? '' : ` (${currency})`}`;

/**
 * How the cars of a file were bought. Two or more that its rows give the same day and seller are one lot of
 * that day; all others stay in the lot that the file is imported as, collected one by one, each with its
 * own day and price.
 */
export class Purchases {
  readonly #groups = new Map<string, Group>();
  readonly #joined = new Map<number, { lot: LotRecord; cars: Bought[] }>();
  /** Cars that were only seen, by the lots that are made of them. */
  readonly #seen = new Map<string, number[]>();
  readonly #sold: number[] = [];
  readonly #own: Currency;
  readonly #mainName: string;
  /** False where all cars go into one lot, because its owner has chosen so. */
  readonly #divides: boolean;
  /** False where the owner has chosen a lot that is there already. */
  readonly #isNew: boolean;
  /** Lots that rows name and that the collection does not have. */
  readonly unknownLots = new Set<string>();
  #count = 0;

  constructor(mainName: string, own: Currency, { divides, isNew }: { divides: boolean; isNew: boolean }) {
    this.#mainName = mainName;
    this.#own = own;
    this.#divides = divides;
    this.#isNew = isNew;
  }

  /** True where some of the cars were bought together, so that they can be a lot of their own. */
  get hasPurchases(): boolean {
    return (
      this.#isNew &&
      [...this.#groups.values()].some(({ boughtOn, cars }) => boughtOn !== null && cars.length > 1)
    );
  }

  /** The lots in which an earlier import may have put such a car. */
  namesOf({ boughtOn, seller, paid }: Purchase): string[] {
    const names = [this.#mainName];
    if (paid && paid.currency !== this.#own) names.push(this.#nameOf(paid.currency));
    if (boughtOn !== null && this.#isNew)
      names.push(lotNameOf(seller, boughtOn, paid?.currency ?? null, this.#own));
    return names;
  }

  /** Adds a car; `lot` is the lot of the collection that its row names, which has its costs already. */
  add(
    carId: number,
    { boughtOn, seller, paid }: Purchase,
    isSold: boolean,
    lot: LotRecord | null = null,
  ): void {
    this.#count++;
    if (isSold) this.#sold.push(carId);
    if (lot !== null) {
      const joined = this.#joined.get(lot.id) ?? { lot, cars: [] };
      joined.cars.push({ carId, paid: paid?.currency === lot.currency ? paid.minor : null });
      this.#joined.set(lot.id, joined);
      return;
    }
    if (boughtOn === null && seller === '' && paid === null) return;
    const currency = paid?.currency ?? null;
    const key = JSON.stringify([boughtOn, seller.toLowerCase(), currency ?? this.#own]);
    const group = this.#groups.get(key) ?? { boughtOn, seller, currency, cars: [] };
    group.cars.push({ carId, paid: paid?.minor ?? null });
    this.#groups.set(key, group);
  }

  /** Adds a car that was only seen, of a lot that the collection does not have. */
  addSeen(carId: number, lotName: string): void {
    this.#count++;
    const cars = this.#seen.get(lotName);
    if (cars) cars.push(carId);
    else this.#seen.set(lotName, [carId]);
  }

  #nameOf(currency: Currency): string {
    return currency === this.#own ? this.#mainName : `${this.#mainName} (${currency})`;
  }

  /** The cars of which something is said, by the lots into which they go. */
  #parts(main: Currency): Part[] {
    const parts: Part[] = [];
    const single = new Map<Currency, Bought[]>();
    for (const { boughtOn, seller, currency, cars } of this.#groups.values()) {
      const ofLot = currency ?? main;
      if (boughtOn === null || cars.length < 2 || !this.#divides) {
        single.set(ofLot, [...(single.get(ofLot) ?? []), ...cars]);
        continue;
      }
      const name = lotNameOf(seller, boughtOn, currency, this.#own);
      parts.push({ name, boughtOn, seller, currency: ofLot, cars, isTogether: true });
    }
    for (const [currency, cars] of single)
      parts.push({
        name: currency === main ? null : this.#nameOf(currency),
        boughtOn: null,
        seller: '',
        currency,
        cars,
        isTogether: false,
      });
    return parts;
  }

  /** The lots that these cars would make, the file's own last; nothing is written. */
  planned({ name, currency }: Pick<MainLot, 'name' | 'currency'>): PlannedLot[] {
    const shown = (part: Part): PlannedLot => ({
      name: part.name ?? name,
      boughtOn: part.boughtOn,
      seller: part.seller,
      currency: part.currency,
      cars: part.cars.length,
      priced: part.cars.filter(({ paid }) => paid !== null).length,
      paid: part.cars.reduce<Minor>((sum, { paid }) => sum + (paid ?? 0), 0),
      isTogether: part.isTogether,
    });
    const parts = this.#parts(currency);
    const joined = [...this.#joined.values()].map(({ lot, cars }) =>
      shown({ ...lot, cars, isTogether: false }),
    );
    const seen = [...this.#seen].map(([lotName, ids]) =>
      shown({
        name: lotName,
        boughtOn: null,
        seller: '',
        currency,
        cars: ids.map(carId => ({ carId, paid: null })),
        isTogether: false,
      }),
    );
    const lots = [...joined, ...seen, ...parts.filter(part => part.name !== null).map(shown)];
    const cars = this.#count - lots.reduce((sum, lot) => sum + lot.cars, 0);
    if (cars === 0) return lots;
    const rest = parts.find(part => part.name === null);
    const own: Part = { name, boughtOn: null, seller: '', currency, cars: [], isTogether: false };
    return [...lots, { ...shown(rest ?? own), cars }];
  }

  /**
   * Makes the lots and writes what they and their cars cost, inside the import's action; `at` is the
   * instant of entering.
   */
  async settle(trx: Transaction<Schema>, main: MainLot, at: string): Promise<SettledPurchases> {
    const settled: SettledPurchases = {
      toShare: [],
      lotIds: [],
      joinedIds: [],
      seenIds: [],
      soldCarIds: this.#sold,
    };
    for (const [id, { lot, cars }] of this.#joined) {
      settled.joinedIds.push(id);
      await this.#fix(trx, cars);
      if (lot.priceFrom !== 'cars') settled.toShare.push(id);
    }
    for (const [name, ids] of this.#seen) {
      const bare = { name, boughtOn: null, seller: '', currency: main.currency };
      const cars = ids.map(carId => ({ carId, paid: null }));
      const id = await this.#moveTo(trx, bare, cars, at);
      await saveLotBid(trx, id, usualBid);
      settled.seenIds.push(id);
    }
    for (const { name, cars, isTogether, ...lot } of this.#parts(main.currency)) {
      const id = name === null ? main.id : await this.#moveTo(trx, { name, ...lot }, cars, at);
      if (id !== main.id) settled.lotIds.push(id);
      if (id === main.id && main.isPriced) await this.#fix(trx, cars);
      else if (await this.#addCost(trx, id, cars, isTogether)) settled.toShare.push(id);
    }
    return settled;
  }

  async #moveTo(
    trx: Transaction<Schema>,
    lot: { name: string; boughtOn: IsoDate | null; seller: string; currency: Currency },
    cars: Bought[],
    at: string,
  ): Promise<number> {
    const known = await findLotNamed(trx, lot.name);
    const id = known?.id ?? (await insertLot(trx, { ...lot, notes: '', costs: [], priceFrom: 'cars' }, at));
    for (const piece of pieces(cars))
      await trx
        .updateTable('car')
        .set({ lot_id: id })
        .where(
          'id',
          'in',
          piece.map(car => car.carId),
        )
        .execute();
    return id;
  }

  async #fix(trx: Transaction<Schema>, cars: Bought[]): Promise<void> {
    await setShares(
      trx,
      cars.flatMap(({ carId, paid }) => (paid === null ? [] : [{ carId, minor: paid, fixed: true }])),
    );
  }

  /**
   * Adds what these cars cost to their lot. Where each has a price, or they were bought one by one, the
   * prices are the cars' own; else what is known of the lot's price is shared, and this is said with true.
   */
  async #addCost(
    trx: Transaction<Schema>,
    lotId: number,
    cars: Bought[],
    isOneLot: boolean,
  ): Promise<boolean> {
    const sum = cars.reduce<Minor>((all, { paid }) => all + (paid ?? 0), 0);
    const priced = cars.filter(({ paid }) => paid !== null);
    if (priced.length === 0) return false;
    const costs = (await lotCosts(trx, lotId)).get(lotId) ?? [];
    await replaceLotCosts(trx, lotId, [...costs, { kind: 'price', minor: sum, note: '' }]);
    if (isOneLot && priced.length < cars.length) return true;
    await this.#fix(trx, cars);
    return false;
  }
}
