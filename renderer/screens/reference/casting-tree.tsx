import { Button, TextInput } from '@mantine/core';
import { type KeyboardEvent, useEffect, useMemo, useRef } from 'react';
import { Link, useLocation } from 'wouter';
import type { CastingRow } from '../../../electron/api/views.ts';
import { groupCastings } from './group-castings.ts';
import classes from './reference.module.css';

/** Up and down walk from casting to casting; from the search field, down enters the list. */
const walk = (event: KeyboardEvent<HTMLElement>) => {
  if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return;
  const links = [...event.currentTarget.querySelectorAll<HTMLElement>('a, input')];
  const next = links[links.indexOf(event.target as HTMLElement) + (event.key === 'ArrowDown' ? 1 : -1)];
  if (!next) return;
  event.preventDefault();
  next.focus();
};

/** Makers, series and castings, to search and to walk through. */
export const CastingTree = ({
  castings,
  text,
  onText,
  onAdd,
}: {
  castings: readonly CastingRow[];
  /** What is looked for. */
  text: string;
  onText: (text: string) => void;
  onAdd: () => void;
}) => {
  const [location] = useLocation();
  const groups = useMemo(() => groupCastings(castings, text), [castings, text]);
  const list = useRef<HTMLElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the casting that is shown is brought in sight
  useEffect(() => {
    list.current?.querySelector('[aria-current]')?.scrollIntoView({ block: 'nearest' });
  }, [location]);
  const makers = [...new Set(groups.map(group => group.maker))];
  const current = (id: number) => location === `/${id}` || location === `/castings/${id}`;
  return (
    <nav ref={list} className={classes.tree} aria-label="Castings" onKeyDown={walk}>
      <div className={classes.treeHead}>
        <TextInput
          aria-label="Find a casting"
          placeholder={`Find among ${castings.length} castings`}
          value={text}
          onChange={event => onText(event.currentTarget.value)}
        />
        <Button onClick={onAdd}>Add</Button>
      </div>
      <div className={classes.treeList}>
        {groups.length === 0 ? <p className={classes.noneFound}>No casting has that name.</p> : null}
        {makers.map(maker => (
          <section key={maker} aria-label={maker}>
            <Link href="/" className={classes.maker}>
              {maker}
            </Link>
            {groups
              .filter(group => group.maker === maker)
              .map(group => (
                <section key={group.series} aria-label={group.series}>
                  <h3 className={classes.series}>
                    {group.series} <span>{group.castings.length}</span>
                  </h3>
                  <ul className={classes.castings}>
                    {group.castings.map(casting => (
                      <li key={casting.id}>
                        <Link
                          href={`/${casting.id}`}
                          className={classes.castingLink}
                          aria-current={current(casting.id) ? 'page' : undefined}
                        >
                          <span className={classes.castingName}>{casting.name}</span>
                          <span className={classes.castingYear}>{casting.firstYear ?? ''}</span>
                          <span className={classes.castingCars}>
                            {casting.cars > 0 ? `${casting.cars} yours` : ''}
                          </span>
                        </Link>
                      </li>
                    ))}
                  </ul>
                </section>
              ))}
          </section>
        ))}
      </div>
    </nav>
  );
};
