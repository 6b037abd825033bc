import { Button, Textarea } from '@mantine/core';
import { useRef, useState } from 'react';
import { KeyHint } from '../../../components/keys/key-hint.tsx';
import { useKeys } from '../../../components/keys/use-keys.ts';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { readerWords } from '../../../components/words.ts';
import classes from './paste.module.css';
import { TextFile } from './text-file.tsx';

const example = `3/14/26, Brackenhall Van purple C8 original nice, $61.00
2026-03-20  Silver Kite aqua, reproduction wheels, C6, 25 EUR, toy fair`;

/** Where the lines are pasted or written, before they are read. */
export const PasteText = ({
  text,
  onText,
  onRead,
}: {
  text: string;
  onText: (text: string) => void;
  onRead: () => void;
}) => {
  const field = useRef<HTMLTextAreaElement>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const lines = text.split('\n').filter(line => line.trim() !== '').length;
  useKeys('Paste sales', [{ keys: 'mod+Enter', does: 'Read the lines', run: () => lines > 0 && onRead() }]);
  const take = (given: string) => {
    setProblem(null);
    onText(given);
    onRead();
  };
  return (
    <>
      <PageHeader
        title="Paste sales"
        facts="Sales that you saw, one a line, in your own words; nothing is recorded until you confirm"
        back={{ label: 'Sale records', to: '/sales' }}
        actions={
          <>
            <TextFile onText={take} onProblem={setProblem} />
            <Button variant="filled" disabled={lines === 0} onClick={onRead}>
              {lines === 0
                ? 'Read the lines'
                : lines === 1
                  ? 'Read the line'
                  : `Read ${lines.toLocaleString()} lines`}
            </Button>
          </>
        }
      />
      <div className={`page ${classes.write}`}>
        {problem ? (
          <p className="harm" role="alert">
            {problem}
          </p>
        ) : null}
        <Textarea
          ref={field}
          label="Sales, one a line"
          description="A date and a price are what a line needs; drop a text file anywhere on this screen, or paste"
          placeholder={example}
          data-autofocus
          autoFocus
          autosize
          minRows={12}
          maxRows={24}
          spellCheck={false}
          value={text}
          onChange={event => onText(event.currentTarget.value)}
          onPaste={event => {
            const pasted = event.clipboardData.getData('text/plain');
            if (text.trim() !== '' || pasted.trim() === '') return;
            event.preventDefault();
            take(pasted);
          }}
        />
        <p className="soft grid-text">
          {readerWords().spell(
            'Read from each line: casting, colour, base paint, rear end, grade, finish state, missing and reproduction parts, price, currency, date and source. Names and words are those of your reference and your own; what is not understood stays beside the record. ',
          )}
          <KeyHint keys="mod+Enter" />
        </p>
      </div>
    </>
  );
};
