import { ORPCError } from '@orpc/server';
import { z } from 'zod';
import { asCollectionError, CollectionError } from '../../../db/errors.ts';

/**
 * What a procedure can fail with. Every message is a sentence that a person can act on; `reason` is for a program.
 * Beside these, input that no schema takes is BAD_REQUEST.
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

/** What an id names is gone, or never was. `what` reads "lot", "car", … */
export const notFound = (what: string, id: number) =>
  new ORPCError('NOT_FOUND', {
    status: 404,
    message: `There is no ${what} ${id} in this collection; it may have been removed.`,
  });

const uniques: [RegExp, string][] = [
  [/car\.inventory_number/, 'Another car has this inventory number already. Give each car its own.'],
  [/lot\.name/, 'There is a lot of this name already. Choose another name.'],
  [/casting\.series_id/, 'This series has a casting of this name already.'],
  [/variation\.release_id/, 'This release has a variation with exactly these features already.'],
  [/release\.casting_id/, 'This casting has a release of this name and year already.'],
  [/part\.name/, 'There is a part of this name already.'],
  [/disposal\.car_id/, 'This car has been sold already. Take that sale back first.'],
];

const constraintMessage = (error: Error): string | undefined => {
  const code = 'code' in error ? String(error.code) : '';
  if (code === 'SQLITE_CONSTRAINT_UNIQUE')
    return uniques.find(([pattern]) => pattern.test(error.message))?.[1] ?? 'There is one like it already.';
  if (code === 'SQLITE_CONSTRAINT_FOREIGNKEY')
    return 'Something else in the collection still refers to it, or what it refers to is gone. Nothing was changed.';
  if (code.startsWith('SQLITE_CONSTRAINT'))
    return 'A value is outside what the collection can keep. Nothing was changed.';
  return undefined;
};

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
  return `This cannot be taken: ${sentences.join('; ')}.`;
};

/** Turns whatever a procedure threw into an error whose message may be shown; its own faults stay visible as such. */
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
      : new ORPCError('STORAGE', {
          status: 507,
          message: known.message,
          data: { reason: known.code },
          cause: error,
        });
  if (error instanceof RangeError)
    return new ORPCError('REFUSED', {
      status: 422,
      message: error.message,
      data: { reason: 'range' },
      cause: error,
    });
  if (error instanceof Error) {
    if (error.name === 'AbortError')
      return refused('This was cancelled; nothing was kept of it.', 'cancelled');
    // A file on disk that was changed, moved or unplugged since it was chosen.
    if (error.name === 'NotReadableError')
      return refused(
        'The file could not be read to its end; it may have been changed or moved meanwhile. Choose it again.',
        'unreadable',
      );
    const sentence = constraintMessage(error);
    if (sentence)
      return new ORPCError('REFUSED', {
        status: 422,
        message: sentence,
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
