import { ORPCError } from '@orpc/server';
import { z } from 'zod';
import { brokenRule } from '../../../db/constraints.ts';
import { asCollectionError, CollectionError } from '../../../db/errors.ts';
import { ruleText } from './rule-text.ts';

/**
 * What a procedure can fail with. Every message is a sentence that a person can act on; `reason` is for a
 * program. Beside these, input that no schema takes is BAD_REQUEST.
 */
export const apiErrors = {
  NO_COLLECTION: {
    status: 409,
    message: 'No collection is open. Open one, or start a new one.',
  },
  NOT_FOUND: { status: 404, message: 'That is no longer in the collection.' },
  REFUSED: { status: 422, data: z.object({ reason: z.string() }) },
  STORAGE: { status: 507, data: z.object({ reason: z.string() }) },
};

/** The request makes no sense as things stand; nothing was changed. */
export const refused = (message: string, reason = 'refused') =>
  new ORPCError('REFUSED', { status: 422, message, data: { reason } });

/** The collection's files could not be read or written. */
export const storageRefused = (message: string, reason: string, cause: unknown) =>
  new ORPCError('STORAGE', { status: 507, message, data: { reason }, cause });

/** True for what was refused because the collection cannot be written. */
export const isReadOnly = (error: unknown): boolean =>
  error instanceof ORPCError && error.code === 'STORAGE' && error.data?.reason === 'read-only';

/** What an id names is gone, or never was. `what` reads "lot", "car", … */
export const notFound = (what: string, id: number) =>
  new ORPCError('NOT_FOUND', {
    status: 404,
    message: `There is no ${what} ${id} in this collection; it may have been removed.`,
  });

const codesOfRequests = new Set([
  'exists',
  'missing',
  'nothing-to-undo',
  'photo-refused',
  'photo-missing',
  'closed',
]);

const issueText = (error: ORPCError<string, unknown>): string => {
  const { data } = error;
  if (typeof data !== 'object' || data === null || !('issues' in data) || !Array.isArray(data.issues))
    return error.message;
  const sentences = data.issues.slice(0, 3).map((issue: { path?: PropertyKey[]; message: string }) => {
    const place = (issue.path ?? []).map(String).join(' › ');
    return place ? `${place}: ${issue.message}` : issue.message;
  });
  return `This cannot be used: ${sentences.join('; ')}.`;
};

/**
 * Turns whatever a procedure threw into an error whose message may be shown; its own faults stay
 * visible as such.
 */
export const toApiError = (error: unknown, place = 'The collection'): unknown => {
  if (error instanceof ORPCError) {
    if (error.code === 'BAD_REQUEST' && error.message === 'Input validation failed')
      return new ORPCError('BAD_REQUEST', { message: issueText(error), data: error.data, cause: error });
    return error;
  }
  const known = asCollectionError(error, place);
  if (known instanceof CollectionError)
    return codesOfRequests.has(known.code)
      ? new ORPCError('REFUSED', {
          status: 422,
          message: known.message,
          data: { reason: known.code },
          cause: error,
        })
      : storageRefused(known.message, known.code, error);
  if (error instanceof RangeError)
    return new ORPCError('REFUSED', {
      status: 422,
      message: error.message,
      data: { reason: 'range' },
      cause: error,
    });
  if (error instanceof Error) {
    if (error.name === 'AbortError') return refused('This was stopped; nothing was saved.', 'cancelled');
    // A file on disk that was changed, moved or unplugged since it was chosen.
    if (error.name === 'NotReadableError')
      return refused(
        'The file could not be read in full; it may have been changed or moved while it was being read. Choose it again.',
        'unreadable',
      );
    const rule = brokenRule(error);
    if (rule)
      return new ORPCError('REFUSED', {
        status: 422,
        message: ruleText(rule),
        data: { reason: 'constraint' },
        cause: error,
      });
    return new ORPCError('INTERNAL_SERVER_ERROR', {
      message: `Playworn itself failed here (${error.message}). Nothing was changed.`,
      cause: error,
    });
  }
  return error;
};
