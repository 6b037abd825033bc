import { Button, Drawer, MultiSelect, NumberInput, Select, Textarea, TextInput } from '@mantine/core';
import { DateInput } from '@mantine/dates';
import { type FormEvent, useMemo, useRef, useState } from 'react';
import type { Currency, IsoDate } from '../../../valuation/types.ts';
import { type FinishState, finishStates, type PartName, partNames } from '../../../valuation/words.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { readGrade } from '../../components/condition/condition-draft.ts';
import {
  pickedCasting,
  suggestCastings,
  variationChoices,
} from '../../components/inputs/casting-choices.tsx';
import { type Choice, filterChoices } from '../../components/inputs/choices.ts';
import { CurrencyField } from '../../components/inputs/currency-field.tsx';
import { MoneyInput } from '../../components/inputs/money-input.tsx';
import { TypeAhead } from '../../components/inputs/type-ahead.tsx';
import { readerWords } from '../../components/words.ts';
import { emptyRecord, nextRecord, type RecordDraft, recordInput, whatIsMissing } from './record-draft.ts';
import classes from './sales.module.css';

const IdentityFields = ({
  draft,
  set,
}: {
  draft: RecordDraft;
  set: (change: Partial<RecordDraft>) => void;
}) => {
  const variations = useMemo(
    () =>
      draft.castingId === null
        ? []
        : async (text: string) => filterChoices(await variationChoices(draft.castingId ?? 0), text),
    [draft.castingId],
  );
  const pickCasting = async (choice: Choice) => {
    const picked = pickedCasting(choice);
    if (!picked) return;
    const page = await api.reference.casting({ id: picked.castingId });
    const variation = page.variationRows.find(({ id }) => id === picked.variationId);
    set({ ...picked, casting: page.name, variation: variation?.label ?? '' });
  };
  return (
    <>
      <TypeAhead
        label="Casting"
        value={draft.casting}
        choices={suggestCastings}
        autoFocus
        placeholder={`Casting, or casting and ${readerWords().dialect.colour}`}
        onPick={choice => void pickCasting(choice)}
        onClear={() => set({ castingId: null, casting: '', variationId: null, variation: '' })}
      />
      <TypeAhead
        label="Variation"
        value={draft.variation}
        choices={variations}
        disabled={draft.castingId === null}
        placeholder="Not known, or any"
        onPick={({ value, label }) => set({ variationId: Number(value), variation: label })}
        onClear={() => set({ variationId: null, variation: '' })}
      />
    </>
  );
};

const ConditionFields = ({
  draft,
  set,
}: {
  draft: RecordDraft;
  set: (change: Partial<RecordDraft>) => void;
}) => (
  <>
    <div className={classes.pair}>
      <TextInput
        label="Grade"
        value={draft.grade}
        placeholder="C1 to C10"
        error={readGrade(draft.grade) === undefined ? 'C1 to C10, in half points' : null}
        onChange={event => set({ grade: event.currentTarget.value })}
      />
      <Select
        label="Finish"
        value={draft.finishState}
        data={finishStates.map(state => ({ value: state, label: readerWords().spell(state) }))}
        allowDeselect={false}
        onChange={state => set({ finishState: (state ?? 'original') as FinishState })}
      />
    </div>
    <MultiSelect
      label="Missing parts"
      value={draft.missingParts}
      data={partNames.filter(part => !draft.reproductionParts.includes(part))}
      onChange={parts => set({ missingParts: parts as PartName[] })}
    />
    <MultiSelect
      label="Reproduction parts"
      value={draft.reproductionParts}
      data={partNames.filter(part => !draft.missingParts.includes(part))}
      onChange={parts => set({ reproductionParts: parts as PartName[] })}
    />
  </>
);

const SeenFields = ({
  draft,
  sources,
  set,
}: {
  draft: RecordDraft;
  sources: readonly Choice[];
  set: (change: Partial<RecordDraft>) => void;
}) => (
  <>
    <div className={classes.pair}>
      <TypeAhead
        label="Source"
        value={draft.source}
        choices={sources}
        freeText
        placeholder="auction, dealer, fair …"
        onPick={({ label }) => set({ source: label })}
        onClear={() => set({ source: '' })}
      />
      <TextInput
        label="Reference"
        value={draft.reference}
        maxLength={200}
        placeholder="Where to find it again"
        onChange={event => set({ reference: event.currentTarget.value })}
      />
    </div>
    <NumberInput
      label="Trust in this record, %"
      description="Leave empty to use the setting for its source"
      value={draft.reliabilityPercent ?? ''}
      min={0}
      max={100}
      allowDecimal={false}
      onChange={value => set({ reliabilityPercent: typeof value === 'number' ? value : null })}
    />
    <Textarea
      label="Notes"
      autosize
      minRows={2}
      value={draft.notes}
      onChange={event => set({ notes: event.currentTarget.value })}
    />
  </>
);

const RecordForm = ({
  currency,
  today,
  sources,
  onAdded,
  onClose,
}: {
  currency: Currency;
  today: IsoDate;
  sources: readonly Choice[];
  onAdded: (id: number) => void;
  onClose: () => void;
}) => {
  const [draft, setDraft] = useState(() => emptyRecord(currency, today));
  const [turn, setTurn] = useState(0);
  const [lacking, setLacking] = useState<string | null>(null);
  const another = useRef(false);
  const set = (change: Partial<RecordDraft>) => setDraft(before => ({ ...before, ...change }));
  const create = useAction((record: RecordDraft) => api.sales.create(recordInput(record)), {
    label: 'Sale record added',
    onDone: ({ id }) => {
      onAdded(id);
      if (!another.current) return onClose();
      setDraft(nextRecord);
      setTurn(turn + 1);
    },
  });
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const missing = whatIsMissing(draft);
    setLacking(missing);
    if (!missing) create.mutate(draft);
  };
  return (
    <form key={turn} className={classes.form} onSubmit={submit}>
      <IdentityFields draft={draft} set={set} />
      <DateInput
        label="Sold on"
        value={draft.soldOn}
        maxDate={today}
        valueFormat="YYYY-MM-DD"
        placeholder="YYYY-MM-DD"
        onChange={soldOn => set({ soldOn })}
      />
      <div className={classes.pair}>
        <MoneyInput
          label="Price"
          currency={draft.currency}
          value={draft.price}
          onChange={price => set({ price })}
          asTyped
        />
        <CurrencyField value={draft.currency} onChange={next => set({ currency: next })} />
      </div>
      <ConditionFields draft={draft} set={set} />
      <SeenFields draft={draft} sources={sources} set={set} />
      {lacking ? (
        <p className="harm" role="alert">
          {lacking}
        </p>
      ) : null}
      <div className={classes.formFoot}>
        <Button
          type="submit"
          loading={create.isPending}
          onClick={() => {
            another.current = true;
          }}
        >
          Add, then another
        </Button>
        <Button
          type="submit"
          variant="filled"
          loading={create.isPending}
          onClick={() => {
            another.current = false;
          }}
        >
          Add
        </Button>
      </div>
    </form>
  );
};

/** The form of a new sale record, beside the list. */
export const NewRecord = ({ opened, ...form }: { opened: boolean } & Parameters<typeof RecordForm>[0]) => (
  <Drawer
    opened={opened}
    onClose={form.onClose}
    position="right"
    size={420}
    title="Add a sale record"
    closeButtonProps={{ 'aria-label': 'Close' }}
  >
    <RecordForm {...form} />
  </Drawer>
);
