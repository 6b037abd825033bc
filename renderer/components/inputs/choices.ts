import type { ReactNode } from 'react';

/** Something that can be chosen by typing. */
export interface Choice {
  value: string;
  label: string;
  /** A second, quieter line or word. */
  detail?: string;
  /** What stands before the label, such as a `LacquerChip` without its name. */
  mark?: ReactNode;
}

const fold = (text: string): string => text.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase();

const rank = (choice: Choice, words: readonly string[]): number => {
  const label = fold(choice.label);
  const all = `${label} ${fold(choice.detail ?? '')}`;
  if (!words.every(word => all.includes(word))) return -1;
  const [first = ''] = words;
  if (label === words.join(' ')) return 3;
  if (label.startsWith(first)) return 2;
  return new RegExp(`\\b${first.replaceAll(/[^\p{L}\p{N}]/gu, '.')}`, 'u').test(label) ? 1 : 0;
};

/**
 * The choices that hold every typed word, those that begin with it first; accents and capitals do not matter.
 */
export const filterChoices = (choices: readonly Choice[], text: string, limit = 50): Choice[] => {
  const words = fold(text).split(/\s+/).filter(Boolean);
  if (words.length === 0) return choices.slice(0, limit);
  return choices
    .map((choice, index) => ({ choice, index, rank: rank(choice, words) }))
    .filter(entry => entry.rank >= 0)
    .sort((a, b) => b.rank - a.rank || a.index - b.index)
    .slice(0, limit)
    .map(entry => entry.choice);
};

/**
 * The one choice that a text names outright, or else the only one that it can mean; null when it
 * could be several.
 */
export const matchChoice = (choices: readonly Choice[], text: string): Choice | null => {
  const wanted = fold(text.trim());
  if (!wanted) return null;
  const exact = choices.find(choice => fold(choice.label) === wanted || fold(choice.value) === wanted);
  if (exact) return exact;
  const starting = choices.filter(choice => fold(choice.label).startsWith(wanted));
  return starting.length === 1 ? (starting[0] ?? null) : null;
};
