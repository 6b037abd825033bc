import { createSpotlight, Spotlight } from '@mantine/spotlight';
import { keepPreviousData, useQuery, useQueryClient } from '@tanstack/react-query';
import { type KeyboardEvent, useRef, useState } from 'react';
import { useLocation } from 'wouter';
import type { SearchHit } from '../../electron/api/views.ts';
import { api } from '../api/client.ts';
import { readerWords } from '../components/words.ts';
import { arrives, overlay } from '../theme/theme.ts';
import classes from './shell.module.css';

const [searchStore, search] = createSpotlight();

export const openSearch = (): void => search.open();

const groups: readonly [SearchHit['kind'], string][] = [
  ['car', 'Cars'],
  ['lot', 'Lots'],
  ['casting', 'Castings'],
  ['variation', 'Variations'],
  ['sale record', 'Sale records'],
];

const searched = (text: string) => ({
  queryKey: ['search', text],
  queryFn: () => api.collection.search({ text, limit: 24 }),
});

/**
 * Enter on a whole inventory number goes straight to its car, also before the answer is there: a scanner
 * types the number and Enter at once. What was chosen by the arrows goes before it.
 */
const useScannedNumber = (query: string, onCar: (to: string) => void) => {
  const client = useQueryClient();
  const walked = useRef(false);
  const press = (event: KeyboardEvent) => {
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') walked.current = true;
    if (event.key !== 'Enter' || walked.current || query === '' || event.nativeEvent.isComposing) return;
    const known = client.getQueryData<SearchHit[]>(searched(query).queryKey);
    const carOf = (hits: SearchHit[]) =>
      hits.find(({ kind, title }) => kind === 'car' && title.toLowerCase() === query.toLowerCase());
    if (known && !carOf(known)) return;
    event.preventDefault();
    event.stopPropagation();
    void client.ensureQueryData(searched(query)).then(
      hits => {
        const to = (carOf(hits) ?? hits[0])?.to;
        if (to) onCar(to);
      },
      // The list says that the search did not answer.
      () => {},
    );
  };
  return { press, forget: () => (walked.current = false) };
};

/** Finds cars, lots, the reference and sale records by the beginnings of their words. */
export const SearchEverything = () => {
  const [text, setText] = useState('');
  const [, navigate] = useLocation();
  const query = text.trim();
  const scanned = useScannedNumber(query, to => {
    search.close();
    navigate(to);
  });
  const { data: hits = [], isError } = useQuery({
    ...searched(query),
    enabled: query !== '',
    placeholderData: keepPreviousData,
    gcTime: 10_000,
  });
  const shown = query === '' ? [] : hits;
  return (
    <Spotlight.Root
      store={searchStore}
      query={text}
      onQueryChange={next => {
        scanned.forget();
        setText(next);
      }}
      shortcut={null}
      lockScroll={false}
      scrollable
      maxHeight={440}
      radius="md"
      size="lg"
      overlayProps={overlay}
      classNames={{ content: classes.searchBox }}
      transitionProps={arrives(100)}
    >
      <Spotlight.Search
        onKeyDown={scanned.press}
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
