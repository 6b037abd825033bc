import { Button, Checkbox, TextInput } from '@mantine/core';
import { DateInput } from '@mantine/dates';
import type { ReactNode } from 'react';
import { sentenceCase } from '../../../valuation/wording/reader.ts';
import { Amount } from '../../components/amounts/amount.tsx';
import { CurrencyField } from '../../components/inputs/currency-field.tsx';
import { MoneyInput } from '../../components/inputs/money-input.tsx';
import { NotesField } from '../../components/inputs/notes-field.tsx';
import { readerWords } from '../../components/words.ts';
import { costKinds, draftTotal, type LotDraft } from './lot-draft.ts';
import classes from './lot-fields.module.css';

const costWords = () =>
  ({
    price: 'Price',
    premium: 'Premium',
    tax: 'Tax',
    carriage: sentenceCase(readerWords().dialect.carriage),
  }) satisfies Record<(typeof costKinds)[number], string>;

const OtherCosts = ({ draft, onChange }: FieldsProps) => {
  const set = (index: number, change: Partial<LotDraft['others'][number]>) =>
    onChange({
      ...draft,
      others: draft.others.map((other, place) => (place === index ? { ...other, ...change } : other)),
    });
  return (
    <>
      {draft.others.map((other, index) => (
        <div key={index} className={classes.other}>
          <TextInput
            label="What for"
            value={other.note}
            maxLength={200}
            onChange={event => set(index, { note: event.currentTarget.value })}
          />
          <MoneyInput
            label="Amount"
            currency={draft.currency}
            value={other.minor}
            onChange={minor => set(index, { minor })}
            asTyped
          />
          <Button
            variant="subtle"
            onClick={() => onChange({ ...draft, others: draft.others.toSpliced(index, 1) })}
          >
            Remove
          </Button>
        </div>
      ))}
      <Button
        variant="subtle"
        className={classes.add}
        onClick={() => onChange({ ...draft, others: [...draft.others, { note: '', minor: null }] })}
      >
        Add another cost
      </Button>
    </>
  );
};

/** The costs, in sight or, where something is to be said of them first, folded away behind that. */
const Costs = ({ hint, children }: { hint: string | undefined; children: ReactNode }) =>
  hint === undefined ? (
    <fieldset className={classes.costs}>
      <legend>What it cost</legend>
      {children}
    </fieldset>
  ) : (
    <details className={classes.folded}>
      <summary>A price for the whole lot</summary>
      <p className="soft grid-text">{hint}</p>
      {children}
    </details>
  );

interface FieldsProps {
  draft: LotDraft;
  onChange: (draft: LotDraft) => void;
}

/** The fields of a purchase: what, when, of whom, and all that it cost. */
export const LotFields = ({
  draft,
  onChange,
  autoFocus = false,
  withNotes = true,
  withSeen = false,
  costs,
}: FieldsProps & {
  autoFocus?: boolean;
  withNotes?: boolean;
  /** It can be said that the lot was only seen. */
  withSeen?: boolean;
  /** What is to be said of the costs where they are known elsewhere: they are then folded away. */
  costs?: string | undefined;
}) => {
  const set = (change: Partial<LotDraft>) => onChange({ ...draft, ...change });
  return (
    <div className={classes.fields}>
      <TextInput
        className={classes.wide}
        label="Name of the lot"
        placeholder="What you call it, such as Barn tin"
        required
        data-autofocus={autoFocus || undefined}
        autoFocus={autoFocus}
        maxLength={200}
        value={draft.name}
        onChange={event => set({ name: event.currentTarget.value })}
      />
      <div className={classes.pair}>
        <DateInput
          label="Bought on"
          disabled={draft.seen}
          value={draft.seen ? null : draft.boughtOn}
          onChange={boughtOn => set({ boughtOn })}
          valueFormat="YYYY-MM-DD"
          placeholder="YYYY-MM-DD"
          clearable
          clearButtonProps={{ tabIndex: -1, 'aria-label': 'Clear the date' }}
        />
        <TextInput
          label="Seller"
          maxLength={200}
          value={draft.seller}
          onChange={event => set({ seller: event.currentTarget.value })}
        />
        <CurrencyField value={draft.currency} onChange={currency => set({ currency })} />
      </div>
      {draft.seen ? null : (
        <Costs hint={costs}>
          <div className={classes.four}>
            {costKinds.map(kind => (
              <MoneyInput
                key={kind}
                label={costWords()[kind]}
                currency={draft.currency}
                value={draft.usual[kind]}
                onChange={minor => set({ usual: { ...draft.usual, [kind]: minor } })}
                asTyped
              />
            ))}
          </div>
          <OtherCosts draft={draft} onChange={onChange} />
          <p className={classes.total}>
            <span>Total</span>
            <strong>
              <Amount minor={draftTotal(draft)} currency={draft.currency} /> {draft.currency}
            </strong>
          </p>
        </Costs>
      )}
      {withSeen ? (
        <Checkbox
          className={classes.wide}
          label="Only seen so far, not bought"
          description="Its cars are valued and bid for, but do not count among yours until you save it as bought."
          checked={draft.seen}
          onChange={event => set({ seen: event.currentTarget.checked })}
        />
      ) : null}
      {withNotes ? (
        <NotesField minRows={2} value={draft.notes} onChange={text => set({ notes: text })} />
      ) : null}
    </div>
  );
};
