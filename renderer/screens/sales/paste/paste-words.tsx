import { Drawer } from '@mantine/core';
import { AskHelp } from '../../../components/own-words/ask-help.tsx';
import { type AskedWord, AskWords } from '../../../components/own-words/ask-words.tsx';
import { useAsked } from '../../../components/own-words/use-asked.ts';

const asItIs = (word: AskedWord) => word;

const Asking = ({ words }: { words: readonly AskedWord[] }) => <AskWords {...useAsked(words, asItIs)} />;

/**
 * Asks what texts of the lines mean, beside them; each answer is one of the owner's words, and the lines are
 * read again with it.
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
