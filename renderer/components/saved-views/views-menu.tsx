import { Button, Menu } from '@mantine/core';
import { IconBookmark } from '@tabler/icons-react';
import { useQuery } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import { useLocation, useSearch } from 'wouter';
import type { SavedViewView, ViewedList } from '../../../electron/api/lists/saved-views.ts';
import { lookIn } from '../../../valuation/reading/list-address.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../actions/use-action.ts';
import { unknownOf, viewQuery } from './list-look.ts';
import { NameDialog } from './name-dialog.tsx';
import classes from './saved-views.module.css';
import type { ListLookState } from './use-list-look.ts';

/** The views of a list, the one that its address names, and how to get to another. */
export const useSavedViews = (list: ViewedList) => {
  const { data: views = [] } = useQuery({
    queryKey: ['saved-views', list],
    queryFn: () => api.savedViews.list({ list }),
  });
  const search = useSearch();
  const [, navigate] = useLocation();
  const { saved } = lookIn(search);
  const chosen = views.find(view => view.name === saved) ?? null;
  const go = (query: string, name: string | null) => {
    const next = new URLSearchParams(query);
    if (name !== null) next.set('saved', name);
    const text = next.toString();
    navigate(text ? `~/${list}?${text}` : `~/${list}`, { replace: true });
  };
  const query = viewQuery(search);
  // An address with nothing but the name of a view means all of it.
  const whole = chosen && query === '' ? viewQuery(chosen.query) : '';
  // biome-ignore lint/correctness/useExhaustiveDependencies: once for each view that is named alone
  useEffect(() => {
    if (chosen && whole) go(whole, chosen.name);
  }, [whole, chosen?.name]);
  return { list, views, chosen, query, changed: chosen !== null && viewQuery(chosen.query) !== query, go };
};

type SavedViews = ReturnType<typeof useSavedViews>;

/** Chooses, saves, renames and removes the views of a list. */
export const ViewsMenu = ({ list, views, chosen, query, changed, go }: SavedViews) => {
  const [asks, setAsks] = useState<'save' | 'rename' | null>(null);
  const save = useAction((name: string) => api.savedViews.save({ list, name, query }), {
    label: name => `View “${name}” saved`,
    onDone: (_, name) => {
      setAsks(null);
      go(query, name);
    },
  });
  const rename = useAction(
    ({ view, name }: { view: SavedViewView; name: string }) => api.savedViews.rename({ id: view.id, name }),
    {
      label: ({ name }) => `View renamed to “${name}”`,
      onDone: (_, { name }) => {
        setAsks(null);
        go(query, name);
      },
    },
  );
  const remove = useAction((view: SavedViewView) => api.savedViews.remove({ id: view.id }), {
    label: view => `View “${view.name}” removed`,
    onDone: () => go(query, null),
  });
  return (
    <>
      <Menu position="bottom-end" withInitialFocusPlaceholder={false}>
        <Menu.Target>
          <Button
            className={classes.target}
            leftSection={<IconBookmark size={14} aria-hidden="true" />}
            aria-label={chosen ? `View: ${chosen.name}${changed ? ', changed' : ''}` : 'Saved views'}
          >
            {chosen ? `${chosen.name}${changed ? ' (changed)' : ''}` : 'Saved views'}
          </Button>
        </Menu.Target>
        <Menu.Dropdown>
          {views.map(view => (
            <Menu.Item
              key={view.id}
              aria-current={view === chosen || undefined}
              fw={view === chosen ? 600 : undefined}
              onClick={() => go(view.query, view.name)}
            >
              {view.name}
            </Menu.Item>
          ))}
          {views.length > 0 ? <Menu.Divider /> : null}
          {chosen && changed ? (
            <Menu.Item onClick={() => save.mutate(chosen.name)}>Replace “{chosen.name}” with this</Menu.Item>
          ) : null}
          <Menu.Item onClick={() => setAsks('save')}>Save this view as …</Menu.Item>
          {chosen ? (
            <>
              <Menu.Item onClick={() => setAsks('rename')}>Rename “{chosen.name}” …</Menu.Item>
              <Menu.Item onClick={() => remove.mutate(chosen)}>Remove “{chosen.name}”</Menu.Item>
              <Menu.Item onClick={() => go('', null)}>Show the whole list</Menu.Item>
            </>
          ) : null}
        </Menu.Dropdown>
      </Menu>
      {asks === 'save' ? (
        <NameDialog
          title="Save this view"
          says="Filter, sorting and columns as they are now"
          begin=""
          verb="Save"
          taken={views.map(({ name }) => name)}
          busy={save.isPending}
          onName={name => save.mutate(name)}
          onClose={() => setAsks(null)}
        />
      ) : null}
      {asks === 'rename' && chosen ? (
        <NameDialog
          title="Rename the view"
          says={`Now called “${chosen.name}”`}
          begin={chosen.name}
          verb="Rename"
          taken={views.filter(view => view !== chosen).map(({ name }) => name)}
          busy={rename.isPending}
          onName={name => rename.mutate({ view: chosen, name })}
          onClose={() => setAsks(null)}
        />
      ) : null}
    </>
  );
};

/** What the chosen view names and is no longer there. */
export const LeftOut = <Row,>({
  chosen,
  state,
}: {
  chosen: SavedViewView | null;
  state: ListLookState<Row>;
}) => {
  if (!chosen) return null;
  const leftOut = [...chosen.leftOut, ...unknownOf(state.columns, lookIn(chosen.query))];
  if (leftOut.length === 0 && chosen.noted.length === 0) return null;
  return (
    <p className={classes.leftOut} role="status">
      {leftOut.length > 0
        ? `Left out of “${chosen.name}”, because it is no longer there: ${leftOut.join(', ')}. `
        : ''}
      {chosen.noted.length > 0 ? `Since it was saved, ${chosen.noted.join(', and ')}.` : ''}
    </p>
  );
};
