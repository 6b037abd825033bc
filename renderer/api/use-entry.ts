import { useMutation, useQueryClient } from '@tanstack/react-query';
import { askEverythingAgain } from './query-client.ts';

/**
 * Makes or opens a collection and goes on into it; what goes wrong is left to the form, which says it in
 * place, or to whoever `onRefused` leads to.
 */
export const useEntry = (
  enter: () => Promise<unknown>,
  onEntered: () => void,
  onRefused?: (error: Error) => void,
) => {
  const client = useQueryClient();
  return useMutation<unknown, Error>({
    mutationFn: enter,
    onSuccess: async () => {
      onEntered();
      await askEverythingAgain(client);
    },
    onError: async error => {
      onRefused?.(error);
      await askEverythingAgain(client);
    },
  });
};
