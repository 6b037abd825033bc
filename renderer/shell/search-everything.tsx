import { createSpotlight, Spotlight } from '@mantine/spotlight';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useLocation } from 'wouter';
import type { SearchHit } from '../../electron/api/views.ts';
import { api } from '../api/client.ts';
import { readerWords } from '../components/words.ts';
import classes from './shell.module.css';

const [searchStore, search] = createSpotlight();

export const openSearch = (): void => search.open();

const overlay = { color: '#1b1d1f', backgroundOpacity: 0.35, blur: 0 };

const groups: readonly [SearchHit['kind'], string][] = [
  ['car', 'Cars'],
  ['lot', 'Lots'],
  ['casting', 'Castings'],
  ['variation', 'Variations'],
  ['sale record', 'Sale records'],
];

/** Finds cars, lots, the reference and sale records by the beginnings of their words. */
export const SearchEverything = () => {
  const [text, setText] = useState('');
  const [, navigate] = useLocation();
  const query = text.trim();
  const { data: hits = [], isError } = useQuery({
    queryKey: ['search', query],
    queryFn: () => api.collection.search({ text: query, limit: 24 }),
    enabled: query !== '',
    placeholderData: keepPreviousData,
    gcTime: 10_000,
  });
  const shown = query === '' ? [] : hits;
  return (
    <Spotlight.Root
      store={searchStore}
      query={text}
      onQueryChange={setText}
      shortcut={null}
      lockScroll={false}
      scrollable
      maxHeight={440}
      radius="md"
      size="lg"
      overlayProps={overlay}
      classNames={{ content: classes.searchBox }}
      transitionProps={{ duration: 100 }}
    >
      <Spotlight.Search
        placeholder={`Inventory number, casting, ${readerWords().dialect.colour}, lot, seller …`}
        aria-label="Search everything"
        size="md"
      />
      <Spotlight.ActionsList className={classes.hits}>
        {groups.map(([kind, label]) => {
          const ofKind = shown.filter(hit => hit.kind === kind);
          return ofKind.length === 0 ? null : (
            <Spotlight.ActionsGroup key={kind} label={label}>
              {ofKind.map(hit => (
                <Spotlight.Action
                  key={`${hit.kind} ${hit.id}`}
                  className={classes.hit}
                  onClick={() => navigate(hit.to)}
                >
                  <span className={classes.hitTitle}>{hit.title}</span>
                  <span className={classes.hitDetail}>{hit.detail}</span>
                </Spotlight.Action>
              ))}
            </Spotlight.ActionsGroup>
          );
        })}
        {shown.length === 0 ? (
          <Spotlight.Empty>
            {isError
              ? 'The search did not answer.'
              : query === ''
                ? `Type the first letters: a number, a casting, a ${readerWords().dialect.colour}, a lot.`
                : `Nothing starts with “${query}”.`}
          </Spotlight.Empty>
        ) : null}
      </Spotlight.ActionsList>
    </Spotlight.Root>
  );
};
