import { Button, Modal, Textarea } from '@mantine/core';
import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import { readerWords } from '../../../components/words.ts';
import choose from './choose.module.css';
import classes from './import.module.css';

/** Ctrl+Enter, or ⌘ and Enter: Enter alone begins a line. */
const isDone = (event: KeyboardEvent) => event.key === 'Enter' && (event.ctrlKey || event.metaKey);

/** Takes cells or text: whatever is pasted on the page is read at once, what is typed by the button. */
export const PasteText = ({
  example = 'Car\tColour\tGrade',
  onText,
}: {
  /** The headings that such a list has, with tabs between. */
  example?: string;
  onText: (text: string) => void;
}) => {
  const [text, setText] = useState('');
  const latest = useRef(onText);
  latest.current = onText;
  useEffect(() => {
    const paste = (event: ClipboardEvent) => {
      const field = event.target instanceof HTMLTextAreaElement ? event.target : null;
      const pasted = event.clipboardData?.getData('text/plain') ?? '';
      // Into a text that is being typed it goes as anywhere else.
      if (!pasted.trim() || field?.value) return;
      event.preventDefault();
      latest.current(pasted);
    };
    document.addEventListener('paste', paste);
    return () => document.removeEventListener('paste', paste);
  }, []);
  return (
    <div className={choose.paste}>
      <Textarea
        label="Or paste cells or text"
        description="Copied from a spreadsheet, a message or a web page"
        placeholder={readerWords().spell(example)}
        rows={5}
        value={text}
        onChange={event => setText(event.currentTarget.value)}
        onKeyDown={event => {
          if (!isDone(event) || !text.trim()) return;
          event.preventDefault();
          onText(text);
        }}
      />
      <Button size="xs" disabled={!text.trim()} onClick={() => onText(text)}>
        Read this text
      </Button>
    </div>
  );
};

/** The pasted text again, to be put right and read again. */
export const ChangeText = ({ text, onText }: { text: string; onText: (text: string) => void }) => {
  const [draft, setDraft] = useState<string | null>(null);
  const read = () => {
    if (draft?.trim()) onText(draft);
  };
  return (
    <>
      <Button size="xs" onClick={() => setDraft(text)}>
        Change the text
      </Button>
      <Modal opened={draft !== null} onClose={() => setDraft(null)} title="The pasted text" size="xl">
        <Textarea
          aria-label="The pasted text"
          classNames={{ input: choose.pasted }}
          data-autofocus
          rows={18}
          value={draft ?? ''}
          onChange={event => setDraft(event.currentTarget.value)}
          onKeyDown={event => {
            if (!isDone(event)) return;
            event.preventDefault();
            read();
          }}
        />
        <p className={classes.below}>
          <Button size="sm" variant="filled" disabled={!draft?.trim()} onClick={read}>
            Read it again
          </Button>
        </p>
      </Modal>
    </>
  );
};
