import { useState } from 'react';
import { useSearch } from 'wouter';
import type { ImportResult, LedgerKind } from '../../../../electron/api/views.ts';
import { useProgress } from '../../../api/use-progress.ts';
import { useSummary } from '../../../api/use-summary.ts';
import { FileDropArea } from '../../../components/files/file-drop-area.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { emptyDraft } from '../lot-draft.ts';
import { ImportBooks } from './books/import-books.tsx';
import { ChooseFile } from './choose-file.tsx';
import classes from './import.module.css';
import {
  choiceFor,
  isBook,
  isKind,
  type ListKind,
  lotNameOf,
  pastedLotName,
  type Source,
} from './import-choice.ts';
import { ImportedResult } from './import-result.tsx';
import { ImportWork } from './import-work.tsx';

/**
 * From a list to cars, sale records, the reference or the books: chosen or pasted, looked at, mapped, taken;
 * and undone where it was wrong.
 */
export const ImportScreen = () => {
  const asked = new URLSearchParams(useSearch());
  const { data: summary } = useSummary();
  const lotId = /^[1-9]\d{0,14}$/.test(asked.get('lot') ?? '') ? Number(asked.get('lot')) : null;
  const askedKind = asked.get('as');
  const [choice, setChoice] = useState(() => choiceFor(isKind(askedKind) ? askedKind : 'lot', lotId));
  const [book, setBook] = useState<LedgerKind | null>(isBook(askedKind) ? askedKind : null);
  const [source, setSource] = useState<Source | null>(null);
  const [made, setMade] = useState(0);
  const work = useProgress<ImportResult>();
  if (!summary) return <LoadingState />;
  const take = (file: File, pasted: string | null = null) => {
    work.reset();
    setChoice(choiceFor(choice.as, choice.lotId));
    setSource({ file, pasted, turn: performance.now() });
  };
  const changeKind = (as: ListKind) => {
    setBook(isBook(as) ? as : null);
    if (!isBook(as)) setChoice(choiceFor(as, choice.lotId));
  };
  const ways = {
    onKind: changeKind,
    onFile: (file: File) => take(file),
    onText: (text: string) => take(new File([text], 'Pasted list'), text),
  };
  if (book !== null)
    return (
      <FileDropArea className={classes.area} onFile={ways.onFile}>
        <ImportBooks
          key={`${book} ${source?.turn}`}
          as={book}
          source={source}
          ways={ways}
          onAgain={() => setSource(null)}
        />
      </FileDropArea>
    );
  if (work.state.is === 'done' && source)
    return (
      <ImportedResult
        result={work.state.result}
        made={made}
        as={choice.as}
        fileName={source.file.name}
        onAgain={() => {
          work.reset();
          setSource(null);
          setChoice(choiceFor(choice.as, null));
        }}
      />
    );
  return (
    <FileDropArea className={classes.area} onFile={ways.onFile}>
      {source === null ? (
        <ChooseFile as={choice.as} ways={ways} />
      ) : (
        <ImportWork
          key={source.turn}
          source={source}
          choice={choice}
          onChange={setChoice}
          ways={ways}
          onRun={setMade}
          work={work}
          reporting={summary.reportingCurrency}
          initialDraft={{
            ...emptyDraft(summary.reportingCurrency, null),
            name: source.pasted === null ? lotNameOf(source.file.name) : pastedLotName(summary.today),
          }}
        />
      )}
    </FileDropArea>
  );
};
