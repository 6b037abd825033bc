import { Button, Popover } from '@mantine/core';
import { useState } from 'react';
import type { VariationRow } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import classes from '../reference.module.css';
import { whatFallsBack } from './falls-back.ts';

/**
 * Removes a variation; one that cars or sale records are identified by, only after saying what
 * that does to them.
 */
export const RemoveVariation = ({
  variation,
  onRemoved,
}: {
  variation: VariationRow;
  onRemoved: () => void;
}) => {
  const [open, setOpen] = useState(false);
  const remove = useAction(() => api.reference.removeVariation({ id: variation.id }), {
    label: `${variation.label} removed`,
    onDone: onRemoved,
  });
  const why = whatFallsBack(variation);
  const button = (
    <Button
      variant="subtle"
      color="brick"
      className={classes.removeButton}
      loading={remove.isPending}
      {...(why && { 'aria-expanded': open })}
      onClick={() => (why ? setOpen(!open) : remove.mutate())}
    >
      Remove
    </Button>
  );
  if (!why) return button;
  return (
    <Popover opened={open} onChange={setOpen} position="top-start" width={300} trapFocus withRoles={false}>
      <Popover.Target>{button}</Popover.Target>
      <Popover.Dropdown>
        <p className={classes.removeWhy}>{why}</p>
        <Button color="brick" variant="filled" onClick={() => remove.mutate()}>
          Remove it anyway
        </Button>
      </Popover.Dropdown>
    </Popover>
  );
};
