import { ORPCError } from '@orpc/client';

/** What went wrong, as a sentence for the owner: the service's own words where it gave some. */
export const errorSentence = (error: unknown): string => {
  if (error instanceof TypeError && /fetch/i.test(error.message))
    return 'The data service does not answer. Is Playworn still running?';
  if (error instanceof ORPCError && error.status === 401)
    return 'Playworn has been started again since this page was opened. Open the address that it prints.';
  if (error instanceof Error && error.message) return error.message;
  return 'Something went wrong, and no reason was given.';
};

/** The service's code for why it refused, such as "needs-restoring"; null where it gave none. */
export const refusalReason = (error: unknown): string | null => {
  if (!(error instanceof ORPCError)) return null;
  const { data } = error;
  return typeof data === 'object' && data !== null && 'reason' in data ? String(data.reason) : null;
};
