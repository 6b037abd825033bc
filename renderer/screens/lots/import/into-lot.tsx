import { NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { ImportPreview } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { CurrencyField } from '../../../components/inputs/currency-field.tsx';
import type { LotDraft } from '../lot-draft.ts';
import { LotFields } from '../lot-fields.tsx';
import type { ImportChoice } from './import-choice.ts';
import { PlannedLots } from './planned-lots.tsx';

/** The lots that the cars go into: one that there is, or new ones with what they cost. */
export const IntoLot = ({
  preview,
  choice,
  onChange,
  draft,
  onDraft,
}: {
  preview: ImportPreview;
  choice: ImportChoice;
  onChange: (choice: ImportChoice) => void;
  draft: LotDraft;
  onDraft: (draft: LotDraft) => void;
}) => {
  const { data: lots = [] } = useQuery({ queryKey: ['lots'], queryFn: () => api.lots.list() });
  const planned = preview.lots;
  const isNew = choice.lotId === null;
  const own = planned.find(({ name }) => name === draft.name.trim());
  // Where every car has a lot of its day and seller, nothing is left to be said of the file's own.
  const hasOwn = planned.length === 0 || own !== undefined || planned.every(({ isTogether }) => !isTogether);
  const priced = planned.reduce((sum, lot) => sum + lot.priced, 0);
  return (
    <>
      {lots.length > 0 ? (
        <NativeSelect
          label="Into"
          mb="md"
          value={isNew ? '' : String(choice.lotId)}
          data={[
            { value: '', label: preview.hasPurchases ? 'new lots' : 'a new lot' },
            ...lots.map(lot => ({ value: String(lot.id), label: lot.name })),
          ]}
          onChange={event =>
            onChange({
              ...choice,
              lotId: event.currentTarget.value === '' ? null : Number(event.currentTarget.value),
            })
          }
        />
      ) : null}
      {isNew ? (
        <>
          <PlannedLots
            lots={planned}
            hasChoice={preview.hasPurchases || choice.lots === 'one'}
            value={choice.lots ?? 'by purchase'}
            onChange={value => onChange({ ...choice, lots: value })}
          />
          {hasOwn ? (
            <LotFields
              draft={draft}
              onChange={onDraft}
              withNotes={false}
              costs={
                priced > 0
                  ? 'The prices in the rows are used. What is entered here counts for the lot as a whole instead; each car’s own price is then its share.'
                  : undefined
              }
            />
          ) : (
            <CurrencyField
              label="Currency of prices that name none"
              value={draft.currency}
              onChange={currency => onDraft({ ...draft, currency })}
            />
          )}
        </>
      ) : null}
    </>
  );
};
