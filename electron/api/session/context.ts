import { os } from '@orpc/server';
import { asCollectionError, CollectionError } from '../../../db/errors.ts';
import { apiErrors, toApiError } from './errors.ts';
import type { Session } from './session.ts';

/** What every procedure is given by its host. */
export interface ApiContext {
  session: Session;
}

/** Where the collection is only read, whatever was refused for it says why. */
const withReason = (error: unknown, session: Session): unknown => {
  const { dir, readOnlyBecause } = session.state();
  if (readOnlyBecause === null) return error;
  const reason = asCollectionError(error, dir ?? '');
  return reason instanceof CollectionError && reason.code === 'read-only'
    ? new CollectionError('read-only', readOnlyBecause, { cause: error })
    : error;
};

/** Every procedure: what it throws becomes an error whose message may be shown. */
export const base = os
  .$context<ApiContext>()
  .errors(apiErrors)
  .use(async ({ context, next }) => {
    try {
      return await next();
    } catch (error) {
      throw toApiError(withReason(error, context.session), context.session.collection?.dir);
    }
  });

/** Procedures that need an open collection; they find it as `collection`, and its readers' handle as `db`. */
export const needsCollection = base.use(({ context, next, errors }) => {
  const { collection } = context.session;
  if (!collection) throw errors.NO_COLLECTION();
  return next({ context: { collection, db: collection.read.db } });
});
