import { Button, Checkbox, NumberInput, Select, TextInput } from '@mantine/core';
import { useQuery, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useEffect, useRef, useState } from 'react';
import type { ReportDefinitionView } from '../../../electron/api/reports/definitions.ts';
import type { IsoDate, LotRow, ReportResult } from '../../../electron/api/views.ts';
import { gradeLabel, grades } from '../../../valuation/words.ts';
import { api } from '../../api/client.ts';
import { errorSentence } from '../../api/error-sentence.ts';
import { askOnlyAgain } from '../../api/query-client.ts';
import { useProgress } from '../../api/use-progress.ts';
import { readerLocale } from '../../components/format.ts';
import { showProblem } from '../../components/notices/undo-notice.tsx';
import { WorkProgress } from '../../components/notices/work-progress.tsx';
import { MadePaper } from '../../components/papers/made-paper.tsx';
import {
  definedPaper,
  isNamed,
  type PaperChoice,
  paperChoiceOf,
  paperInput,
  papers,
  startingPaper,
} from './paper-choice.ts';
import classes from './reports.module.css';
import { SaveChoice } from './save-choice.tsx';

type Change = (next: Partial<PaperChoice>) => void;

const LotChoice = ({ choice, lots, change }: { choice: PaperChoice; lots: LotRow[]; change: Change }) => (
  <Select
    label="Lot"
    value={choice.lotId === null ? '' : String(choice.lotId)}
    data={[
      ...(choice.what === 'worksheet' ? [{ value: '', label: 'The whole collection' }] : []),
      ...lots.map(lot => ({ value: String(lot.id), label: lot.name })),
    ]}
    placeholder="Choose a lot"
    allowDeselect={false}
    onChange={value => change({ lotId: value ? Number(value) : null })}
  />
);

const LabelChoice = ({ choice, change }: { choice: PaperChoice; change: Change }) => {
  const sheets = useQuery({ queryKey: ['label-sheets'], queryFn: () => api.papers.sheets() });
  const sheet = sheets.data?.find(one => one.key === choice.sheet);
  return (
    <>
      <Select
        label="Sheet or roll"
        value={choice.sheet}
        data={(sheets.data ?? []).map(({ key, name }) => ({ value: key, label: name }))}
        allowDeselect={false}
        onChange={value => value && change({ sheet: value, start: 1 })}
      />
      <NumberInput
        label="First label to use"
        description="Counted along the rows, for a sheet that was begun"
        value={choice.start}
        min={1}
        max={sheet?.places ?? 1}
        onChange={value => change({ start: Number(value) || 1 })}
      />
    </>
  );
};

const lists: { value: PaperChoice['list']; label: string }[] = [
  { value: 'cars', label: 'Cars' },
  { value: 'sales', label: 'Sale records' },
  { value: 'reference', label: 'Reference' },
  { value: 'lots', label: 'Lots' },
  { value: 'expenses', label: 'Spending on cars' },
  { value: 'disposals', label: 'Cars sold' },
  { value: 'decisions', label: 'Decisions' },
  { value: 'jobs', label: 'Jobs and their steps' },
];

/** The set of which a want list is; nothing to choose where there are no sets. */
const SetChoice = ({ choice, change }: { choice: PaperChoice; change: Change }) => {
  const { data: sets = [] } = useQuery({
    queryKey: ['casting-sets'],
    queryFn: () => api.castingSets.list(),
  });
  if (sets.length === 0) return null;
  return (
    <Select
      label="Castings of"
      value={choice.setId === null ? 'all' : String(choice.setId)}
      data={[
        { value: 'all', label: 'the whole reference' },
        ...sets.map(({ id, name }) => ({ value: String(id), label: name })),
      ]}
      allowDeselect={false}
      onChange={value => value && change({ setId: value === 'all' ? null : Number(value) })}
    />
  );
};

/** A day that has to be given: one that is cleared stays as it was. */
const Day = ({
  onChange,
  ...field
}: {
  label: string;
  value: string;
  min?: string;
  max?: string;
  onChange: (day: string) => void;
}) => (
  <TextInput
    {...field}
    type="date"
    required
    withAsterisk={false}
    onChange={event => event.currentTarget.value && onChange(event.currentTarget.value)}
  />
);

/** What the chosen paper wants to know besides. */
const Details = ({ choice, lots, change }: { choice: PaperChoice; lots: LotRow[]; change: Change }) => {
  switch (choice.what) {
    case 'worksheet':
    case 'bid':
      return <LotChoice choice={choice} lots={lots} change={change} />;
    case 'want-list':
      return (
        <>
          <SetChoice choice={choice} change={change} />
          <Select
            label="Grade looked for"
            value={String(choice.grade)}
            data={grades.map(grade => ({ value: String(grade), label: gradeLabel(grade) }))}
            allowDeselect={false}
            onChange={value => value && change({ grade: Number(value) })}
          />
          <Checkbox
            label="Leave out values"
            checked={choice.withoutValues}
            onChange={event => change({ withoutValues: event.currentTarget.checked })}
          />
        </>
      );
    case 'ledger':
      return (
        <>
          <Day label="First day" value={choice.from} max={choice.to} onChange={from => change({ from })} />
          <Day label="Last day" value={choice.to} min={choice.from} onChange={to => change({ to })} />
          <Checkbox
            label="As CSV instead of PDF"
            checked={choice.table}
            onChange={event => change({ table: event.currentTarget.checked })}
          />
        </>
      );
    case 'labels':
      return <LabelChoice choice={choice} change={change} />;
    case 'list':
      return (
        <>
          <Select
            label="List"
            value={choice.list}
            data={lists}
            allowDeselect={false}
            onChange={value => value && change({ list: value as PaperChoice['list'] })}
          />
          <Select
            label="As"
            value={choice.format}
            data={[
              { value: 'xlsx', label: 'Spreadsheet (XLSX)' },
              { value: 'csv', label: 'CSV' },
              { value: 'jsonl', label: 'JSON lines' },
            ]}
            allowDeselect={false}
            onChange={value => value && change({ format: value as PaperChoice['format'] })}
          />
        </>
      );
    case 'share':
      return null;
  }
};

/** Papers and lists beside the collection report: chosen, made, saved. */
export const OtherPapers = ({
  today,
  lots,
  again,
  withoutCars = false,
}: {
  today: IsoDate;
  lots: LotRow[];
  /** A saved paper, to be made at once. */
  again: ReportDefinitionView | null;
  /** There is no car yet: it begins with what can be made without one. */
  withoutCars?: boolean;
}) => {
  const defined = again && 'kind' in again.wanted ? again.wanted : null;
  const [choice, setChoice] = useState(() =>
    defined
      ? paperChoiceOf(defined, today)
      : { ...startingPaper(today), ...(withoutCars && { what: 'want-list' as const }) },
  );
  const [definition, setDefinition] = useState(defined ? again?.name : undefined);
  const client = useQueryClient();
  const [shared, setShared] = useState<ReportResult | null>(null);
  const work = useProgress<ReportResult>();
  const running = work.state.is === 'running';
  const { start } = work;
  const section = useRef<HTMLElement>(null);
  useEffect(() => {
    if (!defined) return;
    section.current?.scrollIntoView();
    void start(signal => api.papers.make({ ...defined, preview: true }, { signal }));
  }, [defined, start]);
  const change: Change = next => {
    setDefinition(undefined);
    setChoice({ ...choice, ...next });
    setShared(null);
    if (!running) work.reset();
  };
  const make = (event: FormEvent) => {
    event.preventDefault();
    const { what, list, format, sheet, start: first } = choice;
    if (what === 'share')
      api.exports
        .share()
        .then(setShared)
        .catch(error => showProblem('The market could not be written', errorSentence(error)));
    else if (what === 'list') void work.start(signal => api.exports.make({ list, format }, { signal }));
    else if (what === 'labels')
      void work.start(signal =>
        api.papers.labels(
          { sheet: sheet as 'a4-3x8', start: first, preview: true, locale: readerLocale() },
          { signal },
        ),
      );
    else void work.start(signal => api.papers.make(paperInput(choice), { signal }));
  };
  const help = papers.find(paper => paper.value === choice.what)?.help;
  const made = work.state.is === 'done' ? work.state.result : shared;
  return (
    <section ref={section} className={`page ${classes.others}`} aria-labelledby="other-papers">
      <h2 id="other-papers">Other papers and lists</h2>
      <p className="soft">
        A dossier, a sale sheet, a claim sheet or a bench sheet is made on its car’s page.
      </p>
      <form className={classes.otherForm} onSubmit={make}>
        <Select
          label="Paper"
          description={help}
          value={choice.what}
          data={papers.map(({ value, label }) => ({ value, label }))}
          allowDeselect={false}
          onChange={value => value && change({ what: value as PaperChoice['what'] })}
        />
        <Details choice={choice} lots={lots} change={change} />
        <div>
          <Button
            type="submit"
            variant="filled"
            size="sm"
            loading={running}
            disabled={choice.what === 'bid' && choice.lotId === null}
          >
            Make it
          </Button>
        </div>
      </form>
      <div className={classes.outcome} aria-live="polite">
        <WorkProgress work={work} label="Making the paper" />
        {made ? (
          <MadePaper
            result={made}
            definition={definition}
            onSaved={() => void askOnlyAgain(client, 'reports-kept')}
          />
        ) : null}
      </div>
      {isNamed(choice) && !withoutCars ? <SaveChoice wanted={() => definedPaper(choice)} /> : null}
    </section>
  );
};
