import { Button, Modal, Textarea } from '@mantine/core';
import { useState } from 'react';
import type { DecisionSummary } from '../../../../electron/api/views.ts';
import { guardText } from '../../../../valuation/wording/values/guard-text.ts';
import type { Option } from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { RecommendationMark } from '../../../components/marks/recommendation-mark.tsx';
import { carName } from '../car-words.ts';
import classes from './record.module.css';

/** A car with what is to be recorded of it. */
export interface ToRecord {
  weighed: DecisionSummary;
  choice: Option;
}

const guardsOf = ({ weighed, choice }: ToRecord) =>
  choice === 'restore' || choice === 'customise' ? (weighed.plan?.guards ?? []) : [];

const cars = (count: number) => `${count} ${count === 1 ? 'car' : 'cars'}`;

const Body = ({ list, onClose }: { list: readonly ToRecord[]; onClose: () => void }) => {
  const [reason, setReason] = useState('');
  const [asked, setAsked] = useState(false);
  const guarded = list.filter(entry => guardsOf(entry).length > 0);
  const changed = list.filter(({ weighed, choice }) => weighed.car.decided && weighed.car.decided !== choice);
  const needsReason = guarded.length > 0 && reason.trim() === '';
  const record = useAction(
    () =>
      api.decisions.recordAll({
        decisions: list.map(entry => {
          const overruled = guardsOf(entry).map(guard => guard.kind);
          return {
            carId: entry.weighed.car.id,
            choice: entry.choice,
            overruled,
            reason: overruled.length > 0 ? reason.trim() : '',
          };
        }),
      }),
    { label: () => `${cars(list.length)} decided`, onDone: onClose },
  );
  return (
    <form
      noValidate
      onSubmit={event => {
        event.preventDefault();
        setAsked(true);
        if (!needsReason) record.mutate();
      }}
    >
      <ul className={classes.list}>
        {list.map(({ weighed, choice }) => (
          <li key={weighed.car.id}>
            <span className={classes.number}>{weighed.car.inventoryNumber}</span>
            <span className={classes.name}>{carName(weighed.car)}</span>
            <RecommendationMark recommendation={choice} />
            {weighed.car.decided && weighed.car.decided !== choice ? (
              <span className={classes.before}>before: {weighed.car.decided}</span>
            ) : (
              <span />
            )}
          </li>
        ))}
      </ul>
      {changed.length > 0 ? (
        <p className={classes.note}>
          {cars(changed.length)} decided otherwise before: the new decision takes its place.
        </p>
      ) : null}
      {guarded.length > 0 ? (
        <>
          <ul className={classes.guards}>
            {guarded.map(entry => (
              <li key={entry.weighed.car.id}>
                <b>{entry.weighed.car.inventoryNumber}</b> {guardsOf(entry).map(guardText).join(' ')}
              </li>
            ))}
          </ul>
          <Textarea
            label="Why, against these cautions"
            description="Overruling needs a reason; it stays with each of these cars."
            required
            autosize
            minRows={2}
            value={reason}
            error={asked && needsReason ? 'Say why the finish may be removed anyway.' : undefined}
            onChange={event => setReason(event.currentTarget.value)}
          />
        </>
      ) : null}
      <div className={classes.actions}>
        <Button variant="subtle" onClick={onClose}>
          Cancel
        </Button>
        <Button type="submit" variant="filled" loading={record.isPending} data-autofocus>
          Record {list.length === 1 ? 'the decision' : `${list.length} decisions`}
        </Button>
      </div>
    </form>
  );
};

/**
 * Shows what is going to be recorded, asks for a reason where a guard is overruled, and records
 * all as one action.
 */
export const RecordDialog = ({
  list,
  onClose,
}: {
  list: readonly ToRecord[] | null;
  onClose: () => void;
}) => (
  <Modal
    opened={list !== null}
    onClose={onClose}
    title="Record these decisions"
    size={560}
    closeButtonProps={{ 'aria-label': 'Close' }}
  >
    {list ? <Body list={list} onClose={onClose} /> : null}
  </Modal>
);
