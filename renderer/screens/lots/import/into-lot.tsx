import { NativeSelect } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { api } from '../../../api/client.ts';
import type { LotDraft } from '../lot-draft.ts';
import { LotFields } from '../lot-fields.tsx';
import type { ImportChoice } from './import-choice.ts';

/** The lot that the cars go into: one that there is, or a new one with what it cost. */
export const IntoLot = ({
  choice,
  onChange,
  draft,
  onDraft,
}: {
  choice: ImportChoice;
  onChange: (choice: ImportChoice) => void;
  draft: LotDraft;
  onDraft: (draft: LotDraft) => void;
}) => {
  const { data: lots = [] } = useQuery({ queryKey: ['lots'], queryFn: () => api.lots.list() });
  return (
    <>
      {lots.length > 0 ? (
        <NativeSelect
          label="Into"
          mb="md"
          value={choice.lotId === null ? '' : String(choice.lotId)}
          data={[
            { value: '', label: 'a new lot' },
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
      {choice.lotId === null ? <LotFields draft={draft} onChange={onDraft} withNotes={false} /> : null}
    </>
  );
};
