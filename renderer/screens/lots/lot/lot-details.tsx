import { Button, Modal } from '@mantine/core';
import { useState } from 'react';
import { useLocation } from 'wouter';
import type { LotPage } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { draftInput, draftOf } from '../lot-draft.ts';
import classes from '../lot-fields.module.css';
import { LotFields } from '../lot-fields.tsx';

/** The purchase itself, to be changed: its cost is shared out again over the cars when it is. */
export const LotDetails = ({ lot, onClose }: { lot: LotPage; onClose: () => void }) => {
  const [draft, setDraft] = useState(() => draftOf(lot));
  const [, navigate] = useLocation();
  const save = useAction(
    (input: ReturnType<typeof draftInput>) => {
      const before = draftInput(draftOf(lot));
      const sameCosts = JSON.stringify(before.costs) === JSON.stringify(input.costs);
      const { costs, ...rest } = input;
      return api.lots.update({
        id: lot.id,
        ...rest,
        ...(!sameCosts && { costs }),
        ...(draft.seen !== lot.isSeen && { seen: draft.seen }),
      });
    },
    { label: input => `Lot ${input.name} changed`, onDone: onClose },
  );
  const remove = useAction(() => api.lots.remove({ id: lot.id }), {
    label: `Lot ${lot.name} removed; its cars stay`,
    thenGo: () => navigate('/'),
  });
  return (
    <Modal opened onClose={onClose} title="Details and cost of the lot" size={680}>
      <form
        onSubmit={event => {
          event.preventDefault();
          if (draft.name.trim()) save.mutate(draftInput(draft));
        }}
      >
        <LotFields draft={draft} onChange={setDraft} withSeen />
        <div className={classes.foot}>
          <Button
            className={classes.apart}
            variant="subtle"
            color="brick"
            onClick={() => remove.mutate()}
            loading={remove.isPending}
          >
            Remove the lot, keep its cars
          </Button>
          <Button onClick={onClose}>Cancel</Button>
          <Button type="submit" variant="filled" disabled={!draft.name.trim()} loading={save.isPending}>
            Save
          </Button>
        </div>
      </form>
    </Modal>
  );
};
