import { Button, Menu, Modal, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { SeasonView } from '../../../../electron/api/views.ts';
import type { Currency, IsoDate } from '../../../../valuation/types.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import classes from './season.module.css';

const aside = ({ closedOn, cars }: SeasonView): string =>
  `${cars.length} ${cars.length === 1 ? 'car' : 'cars'}${closedOn === null ? '' : ', closed'}`;

/** Asks for a name, for a new season or for the one there is. */
const NameDialog = ({
  title,
  start,
  taken,
  onName,
  onClose,
}: {
  title: string | null;
  start: string;
  taken: readonly string[];
  onName: (name: string) => void;
  onClose: () => void;
}) => {
  const [name, setName] = useState(start);
  const wrong =
    name.trim() === ''
      ? 'A season needs a name.'
      : taken.some(other => other.toLowerCase() === name.trim().toLowerCase())
        ? 'There is already a season with that name.'
        : null;
  const [asked, setAsked] = useState(false);
  return (
    <Modal opened onClose={onClose} title={title} size={420} closeButtonProps={{ 'aria-label': 'Close' }}>
      <form
        noValidate
        onSubmit={event => {
          event.preventDefault();
          setAsked(true);
          if (wrong === null) onName(name.trim());
        }}
      >
        <TextInput
          label="Name"
          value={name}
          maxLength={200}
          error={asked ? wrong : null}
          onChange={event => setName(event.currentTarget.value)}
          data-autofocus
        />
        <div className={classes.dialogActions}>
          <Button variant="subtle" onClick={onClose}>
            Cancel
          </Button>
          <Button type="submit" variant="filled">
            {title}
          </Button>
        </div>
      </form>
    </Modal>
  );
};

/** Which season is planned: another one, a new one, its name, and closing or removing it. */
export const SeasonMenu = ({
  seasons,
  saved,
  currency,
  today,
  newName,
}: {
  seasons: readonly SeasonView[];
  saved: SeasonView | null;
  currency: Currency;
  today: IsoDate;
  newName: string;
}) => {
  const [asking, setAsking] = useState<'new' | 'name' | null>(null);
  const close = () => setAsking(null);
  const names = (but: number | null) => seasons.filter(({ id }) => id !== but).map(({ name }) => name);
  const choose = useAction((id: number) => api.work.setCurrentSeason({ id }), {
    label: 'Another season is current',
  });
  const make = useAction(
    (name: string) => api.work.saveSeason({ id: null, name, currency, cars: [], current: true }),
    { label: 'Season made', onDone: close },
  );
  const rename = useAction(
    (name: string) => api.work.saveSeason({ ...saved!, name, cars: saved!.cars, excluded: saved!.excluded }),
    { label: 'Season renamed', onDone: close },
  );
  const end = useAction((id: number) => api.work.closeSeason({ id, on: today }), { label: 'Season closed' });
  const remove = useAction((id: number) => api.work.removeSeason({ id }), { label: 'Season removed' });
  const others = seasons.filter(season => season !== saved);
  return (
    <>
      <Menu position="top-start" withinPortal>
        <Menu.Target>
          <button type="button" className={classes.menu} aria-label={`Season: ${saved?.name ?? 'none yet'}`}>
            <span className={classes.menuName}>{saved?.name ?? 'Season'}</span> ▾
          </button>
        </Menu.Target>
        <Menu.Dropdown>
          {others.length > 0 ? <Menu.Label>Plan another season</Menu.Label> : null}
          {others.map(season => (
            <Menu.Item
              key={season.id}
              rightSection={<span className="soft">{aside(season)}</span>}
              onClick={() => choose.mutate(season.id)}
            >
              {season.name}
            </Menu.Item>
          ))}
          {others.length > 0 ? <Menu.Divider /> : null}
          <Menu.Item onClick={() => setAsking('new')}>New season…</Menu.Item>
          {saved ? (
            <>
              <Menu.Item onClick={() => setAsking('name')}>Rename this season…</Menu.Item>
              <Menu.Item onClick={() => end.mutate(saved.id)}>Close this season</Menu.Item>
              <Menu.Item color="brick" onClick={() => remove.mutate(saved.id)}>
                Remove this season
              </Menu.Item>
            </>
          ) : null}
        </Menu.Dropdown>
      </Menu>
      {asking === 'new' ? (
        <NameDialog
          title="Make the season"
          start={newName}
          taken={names(null)}
          onName={name => make.mutate(name)}
          onClose={close}
        />
      ) : null}
      {asking === 'name' && saved ? (
        <NameDialog
          title="Rename the season"
          start={saved.name}
          taken={names(saved.id)}
          onName={name => rename.mutate(name)}
          onClose={close}
        />
      ) : null}
    </>
  );
};
