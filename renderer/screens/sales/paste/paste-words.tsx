import { Drawer } from '@mantine/core';
import { useState } from 'react';
import type { Meaning } from '../../../../valuation/wording/own-word-text.ts';
import { AskHelp } from '../../../components/own-words/ask-help.tsx';
import { type AskedWord, AskWords, wordKey } from '../../../components/own-words/ask-words.tsx';
import { mergedAsked } from '../../../components/own-words/merge-asked.ts';
import { useSayMeaning, useVocabulary } from '../../../components/own-words/use-own-words.ts';

const Asking = ({ words }: { words: readonly AskedWord[] }) => {
  const [asked, setAsked] = useState<readonly AskedWord[]>([]);
  const [said, setSaid] = useState<ReadonlyMap<string, Meaning>>(new Map());
  const [seen, setSeen] = useState<readonly AskedWord[] | null>(null);
  const vocabulary = useVocabulary();
  const say = useSayMeaning();
  if (seen !== words) {
    setSeen(words);
    setAsked(mergedAsked(asked, words, said));
  }
  const waiting = new Set(words.map(wordKey));
  return (
    <AskWords
      words={asked}
      answers={new Map([...said].filter(([key]) => !waiting.has(key)))}
      vocabulary={vocabulary}
      onAnswer={answer => {
        setSaid(before => new Map(before).set(wordKey(answer), answer));
        say.mutate([answer]);
      }}
    />
  );
};

/**
 * Asks what texts of the lines mean, beside them; each answer is one of the owner's words, and the lines are
 * read anew with it.
 */
export const PasteWords = ({
  words,
  opened,
  onClose,
}: {
  words: readonly AskedWord[];
  opened: boolean;
  onClose: () => void;
}) => (
  <Drawer
    opened={opened}
    onClose={onClose}
    position="right"
    size={760}
    title="What these texts mean"
    closeButtonProps={{ 'aria-label': 'Close' }}
    onEnterTransitionEnd={() => document.querySelector<HTMLElement>('[data-meaning-field]')?.focus()}
  >
    <AskHelp />
    <Asking words={words} />
  </Drawer>
);
