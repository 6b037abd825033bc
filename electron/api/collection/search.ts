import { type CarRecord, listCars } from '../../../db/records/cars/cars.ts';
import { findLot, type LotRecord } from '../../../db/records/lots/lots.ts';
import { listSales, type SaleEntry } from '../../../db/records/sales/sales.ts';
import type { SearchMatch } from '../../../db/search/search.ts';
import { formatMinor } from '../../../valuation/money.ts';
import { statusText } from '../../../valuation/wording/cars/status-text.ts';
import { conditionLabel } from '../../../valuation/words.ts';
import { isSeenOnly, seenLotsOf } from '../figures/owned.ts';
import * as inputs from '../inputs.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { SearchHit } from '../views.ts';
import { searchWithOwnWords } from './search-own-words.ts';

const joined = (...parts: (string | number | null | undefined | false)[]) =>
  parts.filter(Boolean).join(' · ');

const carHit = (index: ReferenceIndex, car: CarRecord, isSeen: boolean): SearchHit => {
  const casting = car.castingId === null ? undefined : index.castings.get(car.castingId);
  const variation = car.variationId === null ? undefined : index.variations.get(car.variationId);
  const detail = joined(
    isSeen ? statusText('seen') : car.status === 'sold' && statusText('sold'),
    casting?.name ?? car.asWritten.casting,
    variation?.label ?? car.asWritten.colour,
    car.wornColour !== '' && `wears ${car.wornColour}`,
    (car.grade !== null || car.finishState !== 'original') && conditionLabel(car.grade, car.finishState),
    car.location,
  );
  return { kind: 'car', id: car.id, title: car.inventoryNumber, detail, to: `/cars/${car.id}` };
};

const lotHit = ({ id, name, boughtOn, seller }: LotRecord, isSeen: boolean): SearchHit => ({
  kind: 'lot',
  id,
  title: name,
  detail: joined(isSeen && statusText('seen'), boughtOn, seller),
  to: `/lots/${id}`,
});

const saleHit = (index: ReferenceIndex, sale: SaleEntry): SearchHit => {
  const casting = sale.castingId === null ? undefined : index.castings.get(sale.castingId);
  const variation = sale.variationId === null ? undefined : index.variations.get(sale.variationId);
  return {
    kind: 'sale record',
    id: sale.id,
    title: joined(casting?.name ?? sale.asWritten.casting, variation?.label),
    detail: joined(sale.soldOn, `${formatMinor(sale.price, sale.currency)} ${sale.currency}`, sale.source),
    to: `/sales?record=${sale.id}`,
  };
};

const referenceHit = (index: ReferenceIndex, { kind, id }: SearchMatch): SearchHit | null => {
  if (kind === 'casting') {
    const casting = index.castings.get(id);
    return casting
      ? {
          kind,
          id,
          title: casting.name,
          detail: joined(casting.series, casting.firstYear),
          to: `/reference/${id}`,
        }
      : null;
  }
  const variation = kind === 'variation' ? index.variations.get(id) : undefined;
  if (!variation) return null;
  const casting = index.castings.get(variation.castingId)?.name ?? '';
  const release = variation.releaseName === casting ? null : variation.releaseName;
  return {
    kind,
    id,
    title: `${casting}, ${variation.label}`,
    detail: joined(release, variation.releaseYear, variation.rarity),
    to: `/reference/${variation.castingId}`,
  };
};

/** What is to be said of each match, every kind read at once; those that are gone are left out. */
const hitsOf = async (session: Session, matches: readonly SearchMatch[]): Promise<SearchHit[]> => {
  const { db } = openOf(session).read;
  const index = await referenceIndex(session);
  const seen = await seenLotsOf(session);
  const idsOf = (kind: SearchMatch['kind']) =>
    matches.flatMap(match => (match.kind === kind ? [match.id] : []));
  const hits = new Map<string, SearchHit | null>();
  const add = (hit: SearchHit) => hits.set(`${hit.kind} ${hit.id}`, hit);
  for (const car of await listCars(db, { ids: idsOf('car') })) add(carHit(index, car, isSeenOnly(seen, car)));
  for (const sale of await listSales(db, { ids: idsOf('sale record') })) add(saleHit(index, sale));
  for (const id of idsOf('lot')) {
    const lot = await findLot(db, id);
    if (lot) add(lotHit(lot, seen.has(id)));
  }
  return matches.flatMap(match => hits.get(`${match.kind} ${match.id}`) ?? referenceHit(index, match) ?? []);
};

/** Finds anything; of each kind a fair part of the limit, and the rest to whatever has more. */
export const search = needsCollection
  .input(inputs.search)
  .handler(async ({ context, input }): Promise<SearchHit[]> => {
    const matches = await searchWithOwnWords(context.db, input.text, input.limit);
    const kinds = [...new Set(matches.map(match => match.kind))];
    const fair = Math.max(1, Math.floor(input.limit / Math.max(1, kinds.length)));
    const first = kinds.flatMap(kind => matches.filter(match => match.kind === kind).slice(0, fair));
    const rest = matches.filter(match => !first.includes(match));
    const chosen = new Set([...first, ...rest].slice(0, input.limit));
    return hitsOf(
      context.session,
      matches.filter(match => chosen.has(match)),
    );
  });
