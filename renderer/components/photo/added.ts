import type { RefusedFile } from '../../../electron/api/views.ts';
import { showProblem } from '../notices/undo-notice.tsx';

export const photographsAdded = (count: number): string =>
  count === 1 ? 'Photograph added' : `${count} photographs added`;

const named = 5;

/** Tells which of several files were not taken and why; nothing where all were. */
export const tellRefused = (refused: readonly RefusedFile[]): void => {
  if (refused.length === 0) return;
  const more = refused.length - named;
  showProblem(
    refused.length === 1 ? 'One file was not added' : `${refused.length} files were not added`,
    [
      ...refused.slice(0, named).map(({ name, reason }) => `${name}: ${reason}`),
      ...(more > 0 ? [`And ${more} more.`] : []),
    ].join(' '),
  );
};
