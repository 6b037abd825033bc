import { useState } from 'react';
import { useSearch } from 'wouter';
import type { ImportKind, ImportResult } from '../../../../electron/api/views.ts';
import { useProgress } from '../../../api/use-progress.ts';
import { useSummary } from '../../../api/use-summary.ts';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { emptyDraft } from '../lot-draft.ts';
import { ChooseFile } from './choose-file.tsx';
import { DropArea } from './drop-file.tsx';
import { choiceFor, isKind, lotNameOf } from './import-choice.ts';
import { ImportedResult } from './import-result.tsx';
import { ImportWork } from './import-work.tsx';

/** From a file to cars, sale records or the reference: chosen, looked at, mapped, taken; and undone where it was wrong. */
export const ImportScreen = () => {
  const asked = new URLSearchParams(useSearch());
  const { data: summary } = useSummary();
  const lotId = /^[1-9]\d{0,14}$/.test(asked.get('lot') ?? '') ? Number(asked.get('lot')) : null;
  const askedKind = asked.get('as');
  const [choice, setChoice] = useState(() => choiceFor(isKind(askedKind) ? askedKind : 'lot', lotId));
  const [file, setFile] = useState<{ file: File; turn: number } | null>(null);
  const work = useProgress<ImportResult>();
  if (!summary) return <LoadingState />;
  const take = (chosen: File) => {
    work.reset();
    setChoice(choiceFor(choice.as, choice.lotId));
    setFile({ file: chosen, turn: performance.now() });
  };
  const changeKind = (as: ImportKind) => setChoice(choiceFor(as, choice.lotId));
  if (work.state.is === 'done' && file)
    return (
      <ImportedResult
        result={work.state.result}
        as={choice.as}
        fileName={file.file.name}
        onAgain={() => {
          work.reset();
          setFile(null);
          setChoice(choiceFor(choice.as, null));
        }}
      />
    );
  return (
    <DropArea onFile={take}>
      {file === null ? (
        <ChooseFile as={choice.as} onKind={changeKind} onFile={take} />
      ) : (
        <ImportWork
          key={file.turn}
          file={file.file}
          turn={file.turn}
          choice={choice}
          onChange={setChoice}
          onKind={changeKind}
          onFile={take}
          work={work}
          reporting={summary.reportingCurrency}
          initialDraft={{
            ...emptyDraft(summary.reportingCurrency, null),
            name: lotNameOf(file.file.name),
          }}
        />
      )}
    </DropArea>
  );
};
