import { Button } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import type { ImportPreview, ImportResult } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { api } from '../../../api/client.ts';
import type { Work } from '../../../api/use-progress.ts';
import { Section } from '../../../components/layout/section.tsx';
import { WorkProgress } from '../../../components/notices/work-progress.tsx';
import { draftInput, type LotDraft } from '../lot-draft.ts';
import type { WaysIn } from './before-list.tsx';
import { ColumnTable } from './column-table.tsx';
import { FileFacts } from './file-facts.tsx';
import classes from './import.module.css';
import { type ImportChoice, kindWords, previewInput, type Source } from './import-choice.ts';
import { ImportWords } from './import-words.tsx';
import { IntoLot } from './into-lot.tsx';
import { FileNotes, ListUnderWay } from './list-under-way.tsx';
import { RowCounts } from './row-counts.tsx';
import { SalesChoices } from './sales-choices.tsx';
import { SampleRows } from './sample-rows.tsx';
import { WhatFileShows } from './what-file-shows.tsx';

interface Props {
  source: Source;
  choice: ImportChoice;
  onChange: (choice: ImportChoice) => void;
  ways: WaysIn;
  /** Told how many cars, records or variations the rows make. */
  onRun: (made: number) => void;
  work: Work<ImportResult>;
  reporting: Currency;
  initialDraft: LotDraft;
}

const Looked = ({
  preview,
  choice,
  onChange,
  pasted,
}: Pick<Props, 'choice' | 'onChange'> & { preview: ImportPreview; pasted: boolean }) => {
  // What stands among what the file shows is said there.
  const said = [...preview.questions, ...preview.learned].map(({ column }) => `"${column}"`);
  const warnings = preview.warnings.filter(warning => !said.some(column => warning.startsWith(column)));
  return (
    <>
      <FileFacts preview={preview} choice={choice} onChange={onChange} pasted={pasted} />
      <FileNotes notes={warnings} />
      <Section title="Columns" aside="* needed">
        <ColumnTable preview={preview} choice={choice} onChange={onChange} />
      </Section>
      <WhatFileShows preview={preview} choice={choice} onChange={onChange} />
      <ImportWords preview={preview} />
      {preview.sample.length > 0 ? (
        <Section title="Rows">
          <SampleRows preview={preview} />
        </Section>
      ) : null}
    </>
  );
};

/** A list under way: how it is read at the left, what will be taken and the button for it at the right. */
export const ImportWork = (props: Props) => {
  const { source, choice, onChange, onRun, work, reporting } = props;
  const { file, turn, pasted } = source;
  const [draft, setDraft] = useState(props.initialDraft);
  // The rows are read again once a name stands, not at each of its letters.
  const [name] = useDebouncedValue(draft.name.trim(), 400);
  const preview = useQuery({
    queryKey: ['import preview', turn, choice, name, draft.currency],
    queryFn: ({ signal }) =>
      api.imports.preview(previewInput(file, choice, { name, currency: draft.currency }), { signal }),
    placeholderData: keepPreviousData,
    retry: false,
    gcTime: 0,
    enabled: work.state.is !== 'running',
  });
  const { data } = preview;
  const accepted = data?.counts.accepted ?? 0;
  // What is shown was read before the last answer or letter.
  const isOld = preview.isPlaceholderData || name !== draft.name.trim();
  const [pressedAt, setPressedAt] = useState<number | null>(null);
  const needsName = choice.as === 'lot' && choice.lotId === null && !draft.name.trim();
  const running = work.state.is === 'running';
  const run = () => {
    const input = {
      ...previewInput(file, choice),
      ...(choice.as === 'lot' && choice.lotId === null && { lot: draftInput(draft) }),
    };
    onRun(cars);
    void work.start(signal => api.imports.run(input, { signal }));
  };
  // A row may stand for several cars.
  const cars = Math.max(
    accepted,
    choice.as === 'lot' ? (data?.lots ?? []).reduce((sum, lot) => sum + lot.cars, 0) : 0,
  );
  const words = cars === 1 ? kindWords[choice.as].row : kindWords[choice.as].rows;
  // A press while the rows are read again waits for them, and stands where they are as many as it was pressed for.
  useEffect(() => {
    if (pressedAt === null || isOld) return;
    setPressedAt(null);
    if (pressedAt === cars && !needsName) run();
  });
  return (
    <ListUnderWay
      as={choice.as}
      source={source}
      ways={props.ways}
      error={preview.error}
      busy={preview.isFetching || isOld}
      read={
        data ? <Looked preview={data} choice={choice} onChange={onChange} pasted={pasted !== null} /> : null
      }
      taken={
        data ? (
          <>
            <RowCounts preview={data} as={choice.as} />
            {choice.as === 'lot' ? (
              <IntoLot preview={data} choice={choice} onChange={onChange} draft={draft} onDraft={setDraft} />
            ) : null}
            {choice.as === 'sales' ? (
              <SalesChoices preview={data} choice={choice} onChange={onChange} reporting={reporting} />
            ) : null}
            <div className={classes.go}>
              {running ? null : (
                <Button
                  fullWidth
                  size="sm"
                  variant="filled"
                  disabled={accepted === 0 || needsName}
                  loading={pressedAt !== null}
                  onClick={() => (isOld ? setPressedAt(cars) : run())}
                >
                  {accepted === 0
                    ? 'No row can be imported yet'
                    : needsName
                      ? 'The lot needs a name'
                      : `Import ${cars.toLocaleString()} ${words}`}
                </Button>
              )}
              <WorkProgress work={work} label="Importing" />
              <p className="soft grid-text">One undo reverses the whole import.</p>
            </div>
          </>
        ) : null
      }
    />
  );
};
