import { pieces } from '../../../db/codec.ts';
import { tablesOfCars } from '../../../db/history/changes.ts';
import { recordReads } from '../../../db/reads.ts';
import { type CarTexts, carTextsOf } from '../../../db/records/cars/cars.ts';
import { listLots } from '../../../db/records/lots/lots.ts';
import { listWords } from '../../../db/records/own-words/words.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { slot } from '../session/cache.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import { identityOf } from './car-rows.ts';
import { ownSynonyms } from './own-synonyms.ts';

/** A text as it is looked for: without accents, in small letters. */
export const fold = (text: string): string =>
  // biome-ignore lint/suspicious/noControlCharactersInRegex: what is plain ASCII has no accents
  (/^[\u0000-\u007f]*$/.test(text) ? text : text.normalize('NFD').replaceAll(/\p{M}/gu, '')).toLowerCase();

/** What can be found of a car by words: what it is, which cars that are alike in it share, and what is its own. */
export interface CarText {
  identity: string;
  own: string;
}

/** True where the text of a car has all of these words, which are folded. */
export const hasWords = ({ identity, own }: CarText, words: readonly string[]): boolean =>
  words.every(word => own.includes(word) || identity.includes(word));

interface Held {
  at: number;
  reads: Set<string>;
  texts: Map<number, CarText>;
}

const heldTexts = slot<Held | null>(() => null);
/** So many cars are read at once, so that what is read of them is let go of before V8 takes it for something that stays. */
const readTogether = 1000;

/** What a car is, with that as a folded text; cars that are alike in it share both. */
const identityTextsOf = (index: ReferenceIndex) => {
  const made = new Map<string, { identity: ReturnType<typeof identityOf>; text: string }>();
  return (car: CarTexts) => {
    const found = made.get(car.identityKey);
    if (found) return found;
    const identity = identityOf(index, car);
    const { releaseName, casting, series, variation, features } = identity;
    const words = [
      releaseName,
      casting,
      series,
      variation,
      ...Object.values(features),
      ...Object.values(car.asWritten),
    ];
    const one = { identity, text: fold(words.filter(Boolean).join('\n')) };
    made.set(car.identityKey, one);
    return one;
  };
};

/**
 * All that is written of these cars, and what they are, as texts to look for words in. They are held as long as
 * words are looked for (`ids` is null where none are), and read again for those cars alone that an action touched.
 */
export const carTexts = async (
  session: Session,
  ids: readonly number[] | null,
): Promise<ReadonlyMap<number, CarText>> => {
  const { cache } = session;
  const open = openOf(session).read;
  const now = cache.now();
  let held = cache.of(heldTexts);
  if (ids === null) {
    if (held) cache.put(heldTexts, null);
    return new Map();
  }
  const byCar = tablesOfCars(open.sqlite);
  const touched = held && cache.touchedAfter(held.at);
  const isOfAll = held && cache.lastChange([...held.reads].filter(source => !byCar.has(source))) > held.at;
  if (!held || !touched || isOfAll) held = { at: now, reads: new Set(), texts: new Map() };
  else for (const id of touched) held.texts.delete(id);
  held.at = now;
  cache.put(heldTexts, held);
  const { texts, reads } = held;
  const missing = ids.filter(id => !texts.has(id));
  if (missing.length === 0) return texts;
  const db = recordReads(open.db, reads);
  const { reads: ofReference } = await referenceIndex.remembered(session);
  for (const source of ofReference) reads.add(source);
  const index = await referenceIndex(session);
  const lots = new Map((await listLots(db)).map(lot => [lot.id, lot.name]));
  const synonyms = ownSynonyms(await listWords(db));
  const identityTexts = identityTextsOf(index);
  const wanted = new Set(missing);
  for (const piece of pieces(
    missing.toSorted((a, b) => a - b),
    readTogether,
  ))
    for (const car of await carTextsOf(db, piece)) {
      if (!wanted.has(car.id)) continue;
      const { identity, text } = identityTexts(car);
      const lot = car.lotId === null ? undefined : lots.get(car.lotId);
      let own = `${car.inventoryNumber}\n${car.location}\n${car.notes}`;
      if (lot !== undefined) own += `\n${lot}`;
      for (const { text: unread } of car.unread) own += `\n${unread}`;
      const { grade, finishState } = car;
      for (const word of synonyms({ features: identity.features, grade, finishState })) own += `\n${word}`;
      texts.set(car.id, { identity: text, own: fold(own) });
    }
  return texts;
};
