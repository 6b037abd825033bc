import type { Transaction } from 'kysely';
import { sayWords, unsayWords } from '../../../db/records/own-words/say-words.ts';
import { countUses, type Settled } from '../../../db/records/own-words/settle-words.ts';
import { waitingWords } from '../../../db/records/own-words/waiting-words.ts';
import { listWords } from '../../../db/records/own-words/words.ts';
import type { Schema } from '../../../db/schema.ts';
import type { FittedMarket } from '../../../valuation/market/fitted-market.ts';
import { featureColumns } from '../../../valuation/reading/feature-columns.ts';
import { readMeaning, wordField, wordFields } from '../../../valuation/reading/meanings.ts';
import type { OwnWord } from '../../../valuation/reading/sale-line/lexicon.ts';
import { variationFeatures } from '../../../valuation/words.ts';
import { marketBefore } from '../figures/market.ts';
import { reshareLot } from '../figures/shares.ts';
import * as inputs from '../inputs.ts';
import { followOwnSales } from '../reference/own-sales.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import { refused } from '../session/errors.ts';
import type { SettledWords, WaitingWordView, WordsView } from '../views.ts';

/**
 * A word as it is kept: its field by our name, its meaning as the field writes it. Throws where the field has
 * no such meaning.
 */
const checkedWord = ({ column, text, field, meaning }: OwnWord): OwnWord => {
  const read = readMeaning(field, meaning);
  if (!read.ok) throw refused(`What "${text}" means: ${read.reason}.`, 'meaning');
  return { column: column || '*', text, field: wordField(field) ?? field, meaning: read.value };
};

const list = needsCollection.handler(async ({ context }): Promise<WordsView> => {
  const known = await listWords(context.db);
  const uses = await countUses(context.db, known);
  return {
    words: known.map((word, i) => ({ ...word, ...(uses[i] ?? { cars: 0, sales: 0 }) })),
    fields: [...wordFields],
  };
});

/** Does what a change of words does, and lets shares of lots and sale records of sold cars follow. */
const followed = async (
  market: () => Promise<FittedMarket>,
  trx: Transaction<Schema>,
  change: () => Promise<Settled>,
): Promise<SettledWords> => {
  const { carIds, saleIds, toShare } = await change();
  for (const lotId of toShare) await reshareLot(trx, await market(), lotId);
  await followOwnSales(trx, carIds);
  return { cars: carIds.length, sales: saleIds.length };
};

/** Texts of cars and sale records that were not understood, each once, with what they may mean. */
const waiting = needsCollection.handler(
  async ({ context }): Promise<WaitingWordView[]> =>
    (await waitingWords(context.db)).map(({ carIds, saleIds, ...word }) => ({
      ...word,
      cars: carIds.length,
      sales: saleIds.length,
      carIds: carIds.slice(0, 100),
      saleIds: saleIds.slice(0, 100),
    })),
);

/** Adds or changes words, and settles with them all that waited for their meaning, as one action. */
const set = needsCollection
  .input(inputs.setWords)
  .handler(async ({ context, input }): Promise<SettledWords> => {
    const { session } = context;
    const words = input.words.map(word => ({ ...checkedWord(word), id: word.id }));
    const [only] = words;
    const label =
      words.length === 1 && only ? `Said what "${only.text}" means` : `Said what ${words.length} texts mean`;
    const market = marketBefore(session);
    return session.act(label, trx => followed(market, trx, () => sayWords(trx, words, session.at())));
  });

/** Removes words; what they settled stays, or waits again where that is asked for. */
const remove = needsCollection
  .input(inputs.removeWords)
  .handler(async ({ context, input }): Promise<SettledWords> => {
    const { session } = context;
    const { ids, rows } = input;
    const market = marketBefore(session);
    return session.act(ids.length === 1 ? 'Removed a word' : `Removed ${ids.length} words`, trx =>
      followed(market, trx, () => unsayWords(trx, ids, { rows: rows === 'wait again' }, session.at())),
    );
  });

/** What the reference calls things: for each field that has names of its own, those names. */
const vocabulary = needsCollection.handler(async ({ context }): Promise<Record<string, string[]>> => {
  const index = await referenceIndex(context.session);
  const names = (texts: Iterable<string>) =>
    [...new Set(texts)].filter(text => text !== '').sort((a, b) => a.localeCompare(b, 'en'));
  const variations = [...index.variations.values()];
  return {
    casting: names([...index.castings.values()].map(casting => casting.name)),
    release_name: names([...index.releases.values()].map(release => release.name)),
    ...Object.fromEntries(
      variationFeatures.map(feature => [
        featureColumns[feature],
        names(variations.map(({ features }) => features[feature])),
      ]),
    ),
  };
});

export const words = { list, waiting, vocabulary, set, remove };
