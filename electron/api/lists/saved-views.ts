import type { Kysely } from 'kysely';
import { z } from 'zod';
import {
  findSavedView,
  listSavedViews,
  removeView,
  renameView,
  saveView,
} from '../../../db/records/collection/saved-views.ts';
import { listLots } from '../../../db/records/lots/lots.ts';
import { listSales } from '../../../db/records/sales/sales.ts';
import type { Schema } from '../../../db/schema.ts';
import { line } from '../fields.ts';
import * as inputs from '../inputs.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import type { Session } from '../session/session.ts';
import { type NamedThings, namesIn, standingQuery } from './view-query.ts';

/** A named way to look at a list: what the list's address says of filter, order and columns. */
export interface SavedViewView {
  id: number;
  name: string;
  /** As the list's address has it, without what is no longer there. */
  query: string;
  /** What the filter named and is gone, each in words. */
  leftOut: string[];
  /** What has another name now, each in words. */
  noted: string[];
}

const listName = z.enum(['cars', 'sales']);
export type ViewedList = z.infer<typeof listName>;

/** What of a view is stored; `named`: what the numbers in its query were called. */
const body = z.object({ query: z.string().max(20_000), named: z.record(z.string(), z.string()) });

const thingsOf = async (session: Session, db: Kysely<Schema>, text: string): Promise<NamedThings> => {
  const { castings, variations } = await referenceIndex(session);
  const names = [...castings.values()].flatMap(({ series }) => series ?? []);
  const wantsSources = new URLSearchParams(text).has('source');
  return {
    lot: new Map((await listLots(db)).map(({ id, name }) => [id, name])),
    casting: new Map([...castings].map(([id, { name }]) => [id, name])),
    variation: new Map([...variations].map(([id, { label }]) => [id, label])),
    series: new Set(names),
    source: new Set(wantsSources ? (await listSales(db)).map(({ source }) => source) : []),
  };
};

const list = needsCollection
  .input(z.object({ list: listName }))
  .handler(async ({ context: { session, db }, input }): Promise<SavedViewView[]> => {
    const saved = (await listSavedViews(db, input.list)).flatMap(({ id, name, body: written }) => {
      // One that a newer version has written is left where it is.
      const read = body.safeParse(JSON.parse(written));
      return read.success ? [{ id, name, ...read.data }] : [];
    });
    if (saved.length === 0) return [];
    const things = await thingsOf(session, db, saved.map(({ query }) => query).join('&'));
    return saved.map(({ id, name, query, named }) => ({ id, name, ...standingQuery(query, named, things) }));
  });

const nameOf = (text: string): string => {
  const name = text.trim();
  if (name === '') throw refused('Give the view a name.', 'name');
  return name;
};

const isNamed = (name: string) => (view: { name: string }) => view.name.toLowerCase() === name.toLowerCase();

/** Saves a view, or puts it in the place of the one that has its name. */
const save = needsCollection
  .input(z.object({ list: listName, name: line.min(1), query: z.string().max(20_000) }))
  .handler(async ({ context: { session, db }, input }) => {
    const name = nameOf(input.name);
    const replaces = (await listSavedViews(db, input.list)).some(isNamed(name));
    const named = namesIn(input.query, await thingsOf(session, db, ''));
    return session.act(`${replaces ? 'Replaced' : 'Saved'} the view “${name}”`, async trx => ({
      id: await saveView(trx, {
        list: input.list,
        name,
        body: JSON.stringify({ query: input.query, named }),
        at: session.at(),
      }),
    }));
  });

const rename = needsCollection
  .input(inputs.byId.extend({ name: line.min(1) }))
  .handler(async ({ context: { session, db }, input }) => {
    const view = await findSavedView(db, input.id);
    if (!view) throw notFound('view', input.id);
    const name = nameOf(input.name);
    const others = (await listSavedViews(db, view.list)).filter(({ id }) => id !== input.id);
    if (others.some(isNamed(name))) throw refused(`Another view is called “${name}” already.`, 'name');
    await session.act(`Renamed the view “${view.name}” to “${name}”`, trx => renameView(trx, input.id, name));
  });

const remove = needsCollection.input(inputs.byId).handler(async ({ context: { session, db }, input }) => {
  const view = await findSavedView(db, input.id);
  if (!view) throw notFound('view', input.id);
  await session.act(`Removed the view “${view.name}”`, trx => removeView(trx, input.id));
});

export const savedViews = { list, save, rename, remove };
