import type { Progress } from '../api/views.ts';

interface Terminal {
  isTTY?: boolean;
  columns?: number;
  write(text: string): unknown;
}

/** `Reading the file  ███████░░░░░░░  52 %`, no wider than the terminal. */
export const barText = (
  { done, total, stage, quietFor }: { done: number; total: number; stage: string; quietFor?: number },
  columns: number,
): string => {
  const share = total > 0 ? Math.min(1, Math.max(0, done / total)) : 0;
  const percent = `${Math.floor(share * 100)} %`.padStart(5);
  const news = quietFor === undefined ? '' : `  no progress for ${quietFor} s`;
  const label = stage.slice(0, 28).padEnd(28);
  const room = Math.max(0, Math.min(40, columns - label.length - percent.length - news.length - 4));
  const filled = Math.round(share * room);
  return `${label}  ${'█'.repeat(filled)}${'░'.repeat(room - filled)} ${percent}${news}`.slice(
    0,
    columns - 1,
  );
};

/** Follows long work to its result, with a bar where a person is looking. */
export const followed = async <T>(
  work: AsyncIterable<Progress<T>>,
  terminal: Terminal = process.stderr,
): Promise<T> => {
  let shown = '';
  const clear = () => {
    if (shown) terminal.write(`\r${' '.repeat(shown.length)}\r`);
    shown = '';
  };
  try {
    for await (const step of work) {
      if (step.type === 'done') return step.result;
      if (!terminal.isTTY) continue;
      const text = barText(step, terminal.columns ?? 80);
      terminal.write(`\r${text.padEnd(shown.length)}`);
      shown = text;
    }
  } finally {
    clear();
  }
  throw new Error('The work ended without a result.');
};
