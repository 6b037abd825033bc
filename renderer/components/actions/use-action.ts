import { type UseMutationResult, useMutation, useQueryClient } from '@tanstack/react-query';
import { errorSentence } from '../../api/error-sentence.ts';
import { askEverythingAgain } from '../../api/query-client.ts';
import { showProblem, showUndoNotice } from '../notices/undo-notice.tsx';
import { sendWrite } from './in-order.ts';
import { useUndo } from './use-undo.ts';

export interface ActionOptions<Input, Output> {
  /** What was done, in the past tense: "3 cars graded". */
  label: string | ((input: Input, output: Output) => string);
  /** False for what history does not keep, such as a backup: then nothing is offered and nothing said. */
  undoable?: boolean;
  /** What to say when it fails; the reason follows. */
  failure?: string;
  onDone?: (output: Output, input: Input) => void;
  /** Goes on to another place, unless the reader has gone elsewhere before it was done. */
  thenGo?: (output: Output, input: Input) => void;
}

/** The place that is shown; its query may change under the reader's hands. */
const placeNow = (): string | undefined => location.hash.split('?', 1)[0];

/**
 * Runs a write: `const grade = useAction(input => api.cars.update(input), { label: 'Grade changed' })`, then
 * `grade.mutate(input)`. When it is done, what is shown is asked again and its undo offered; when it fails,
 * the reason is shown.
 */
export const useAction = <Input = void, Output = unknown>(
  write: (input: Input) => Promise<Output>,
  {
    label,
    undoable = true,
    failure = 'That could not be saved',
    onDone,
    thenGo,
  }: ActionOptions<Input, Output>,
): UseMutationResult<Output, Error, Input> => {
  const client = useQueryClient();
  const { undo } = useUndo();
  return useMutation<Output, Error, Input, string | undefined>({
    mutationFn: undoable ? input => sendWrite(() => write(input)) : write,
    onMutate: placeNow,
    onSuccess: async (output, input, begunAt) => {
      if (undoable)
        showUndoNotice(typeof label === 'function' ? label(input, output) : label, () => void undo());
      onDone?.(output, input);
      if (begunAt === placeNow()) thenGo?.(output, input);
      await askEverythingAgain(client);
    },
    onError: error => showProblem(failure, errorSentence(error)),
  });
};
