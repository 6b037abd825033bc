import { os } from '@orpc/server';
import { apiErrors, isReadOnly, storageRefused, toApiError } from './errors.ts';
import { atWork } from './large-heap.ts';
import type { Session } from './session.ts';

/** What every procedure is given by its host. */
export interface ApiContext {
  session: Session;
}

/** Where the collection is only read, whatever was refused for it says why. */
const shown = (error: unknown, { session }: ApiContext): unknown => {
  const known = toApiError(error, session.collection?.dir);
  const { readOnlyBecause } = session.state();
  return readOnlyBecause !== null && isReadOnly(known)
    ? storageRefused(readOnlyBecause, 'read-only', error)
    : known;
};

/** Every procedure: what it throws becomes an error whose message may be shown. */
export const base = os
  .$context<ApiContext>()
  .errors(apiErrors)
  .use(async ({ context, next }) => {
    atWork();
    try {
      return await next();
    } catch (error) {
      throw shown(error, context);
    } finally {
      atWork();
    }
  });

/** Procedures that need an open collection; they find it as `collection`, and its readers' handle as `db`. */
export const needsCollection = base.use(({ context, next, errors }) => {
  const { collection } = context.session;
  if (!collection) throw errors.NO_COLLECTION();
  return next({ context: { collection, db: collection.read.db } });
});
