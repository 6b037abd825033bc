import { Button, Menu, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { ChosenCars } from '../../../../electron/api/views.ts';
import { statusText } from '../../../../valuation/wording/cars/status-text.ts';
import {
  finishStates,
  type Grade,
  gradeLabel,
  grades,
  settableStatuses,
} from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { readerLocale } from '../../../components/format.ts';
import { KeyHint } from '../../../components/keys/key-hint.tsx';
import { FinishState } from '../../../components/marks/finish-state.tsx';
import { readerWords } from '../../../components/words.ts';
import { type BulkPatch, bulkChange } from './bulk-change.ts';
import classes from './list.module.css';

/** Changes all the chosen cars at once; each change is one action, taken back as one. */
export const BulkBar = ({
  chosen,
  isChoosing,
  onLetGo,
}: {
  chosen: ChosenCars;
  /** Others are chosen already, and which is not known yet: until then nothing is changed. */
  isChoosing: boolean;
  onLetGo: () => void;
}) => {
  const [location, setLocation] = useState('');
  const change = useAction(
    (input: ReturnType<typeof bulkChange>) => api.cars.update({ changes: input.changes, label: input.label }),
    { label: input => input.label },
  );
  const apply = (patch: BulkPatch, says: string) => {
    const input = bulkChange(chosen, patch, says);
    if (input.changes.length > 0) change.mutate(input);
  };
  const grade = (value: Grade | null) =>
    apply({ grade: value }, value === null ? 'ungraded' : gradeLabel(value));
  const sold = chosen.sold.length;
  const cars = chosen.ids.length;
  return (
    <section
      className={classes.bulk}
      aria-label="Change the chosen cars"
      aria-busy={isChoosing || undefined}
      inert={isChoosing}
    >
      <strong>
        {cars.toLocaleString(readerLocale())} {cars === 1 ? 'car' : 'cars'}
      </strong>
      <Menu position="bottom-start">
        <Menu.Target>
          <Button>Grade …</Button>
        </Menu.Target>
        <Menu.Dropdown className={classes.menu}>
          {grades.toReversed().map(value => (
            <Menu.Item key={value} onClick={() => grade(value)}>
              {gradeLabel(value)}
            </Menu.Item>
          ))}
          <Menu.Item onClick={() => grade(null)}>ungraded</Menu.Item>
        </Menu.Dropdown>
      </Menu>
      <Menu position="bottom-start">
        <Menu.Target>
          <Button>Finish …</Button>
        </Menu.Target>
        <Menu.Dropdown>
          {finishStates.map(state => (
            <Menu.Item key={state} onClick={() => apply({ finishState: state }, readerWords().spell(state))}>
              <FinishState state={state} />
            </Menu.Item>
          ))}
        </Menu.Dropdown>
      </Menu>
      <Menu position="bottom-start">
        <Menu.Target>
          <Button>Status …</Button>
        </Menu.Target>
        <Menu.Dropdown>
          {settableStatuses.map(status => (
            <Menu.Item key={status} onClick={() => apply({ status }, statusText(status))}>
              {statusText(status)}
            </Menu.Item>
          ))}
        </Menu.Dropdown>
      </Menu>
      <form
        className={classes.place}
        onSubmit={event => {
          event.preventDefault();
          apply({ location: location.trim() }, location.trim() ? `to ${location.trim()}` : 'to no location');
          setLocation('');
        }}
      >
        <TextInput
          aria-label="New location"
          placeholder="new location"
          maxLength={200}
          value={location}
          onChange={event => setLocation(event.currentTarget.value)}
        />
        <Button type="submit" disabled={!location.trim()}>
          Move
        </Button>
      </form>
      <span className={classes.rest}>
        {sold > 0 ? `${sold} sold: their status stays. ` : ''}each change is one undo
      </span>
      <Button variant="subtle" onClick={onLetGo}>
        <span className={classes.view}>
          Clear selection <KeyHint keys="Escape" />
        </span>
      </Button>
    </section>
  );
};
