import { listCars } from '../../../db/records/cars.ts';
import { findLot } from '../../../db/records/lots.ts';
import { listSales } from '../../../db/records/sales.ts';
import type { SearchMatch } from '../../../db/search/search.ts';
import { formatMinor } from '../../../valuation/money.ts';
import { conditionLabel } from '../../../valuation/words.ts';
import * as inputs from '../inputs.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { SearchHit } from '../views.ts';
import { searchWithOwnWords } from './search-own-words.ts';

const joined = (...parts: (string | number | null | undefined | false)[]) =>
  parts.filter(Boolean).join(' · ');

const hitOf = async (
  session: Session,
  index: ReferenceIndex,
  { kind, id }: SearchMatch,
): Promise<SearchHit | null> => {
  const { db } = openOf(session).read;
  if (kind === 'car') {
    const [car] = await listCars(db, { ids: [id] });
    if (!car) return null;
    const casting = car.castingId === null ? undefined : index.castings.get(car.castingId);
    const variation = car.variationId === null ? undefined : index.variations.get(car.variationId);
    const detail = joined(
      casting?.name ?? car.asWritten.casting,
      variation?.label ?? car.asWritten.colour,
      car.wornColour !== '' && `wears ${car.wornColour}`,
      (car.grade !== null || car.finishState !== 'original') && conditionLabel(car.grade, car.finishState),
      car.location,
    );
    return { kind, id, title: car.inventoryNumber, detail, to: `/cars/${id}` };
  }
  if (kind === 'lot') {
    const lot = await findLot(db, id);
    return lot
      ? { kind, id, title: lot.name, detail: joined(lot.boughtOn, lot.seller), to: `/lots/${id}` }
      : null;
  }
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
  if (kind === 'variation') {
    const variation = index.variations.get(id);
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
  }
  const [sale] = await listSales(db, { ids: [id] });
  if (!sale) return null;
  const casting = sale.castingId === null ? undefined : index.castings.get(sale.castingId);
  const variation = sale.variationId === null ? undefined : index.variations.get(sale.variationId);
  return {
    kind,
    id,
    title: joined(casting?.name ?? sale.asWritten.casting, variation?.label),
    detail: joined(sale.soldOn, `${formatMinor(sale.price, sale.currency)} ${sale.currency}`, sale.source),
    to: `/sales?record=${id}`,
  };
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
    const index = await referenceIndex(context.session);
    const hits: SearchHit[] = [];
    for (const match of matches) {
      if (!chosen.has(match)) continue;
      const hit = await hitOf(context.session, index, match);
      if (hit) hits.push(hit);
    }
    return hits;
  });
