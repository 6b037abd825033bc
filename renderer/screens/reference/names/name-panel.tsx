import { Button, TextInput } from '@mantine/core';
import { type RefObject, useCallback, useEffect, useRef, useState } from 'react';
import type { WaitingName } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { TypeAhead } from '../../../components/inputs/type-ahead.tsx';
import { KeyHint } from '../../../components/keys/key-hint.tsx';
import classes from './names.module.css';
import { keyOf, rowsText } from './waiting-words.ts';

/** What is being picked a casting for. */
export type Picking = 'same' | 'release' | null;

const Spellings = ({ name }: { name: WaitingName }) => {
  const part = useAction((text: string) => api.names.part({ text }), {
    label: text => `${text} separated from ${name.name}`,
  });
  return (
    <ul className={classes.spellings}>
      {name.spellings.map(({ text, cars, sales }) => (
        <li key={text}>
          <span className={classes.spelling}>
            {text}
            <span className={classes.counts}>{rowsText(cars, sales, ', ')}</span>
          </span>
          {name.spellings.length > 1 ? (
            <Button
              variant="subtle"
              size="compact-xs"
              aria-label={`${text} is another name`}
              onClick={() => part.mutate(text)}
            >
              Separate
            </Button>
          ) : null}
        </li>
      ))}
    </ul>
  );
};

const Facts = ({ name }: { name: WaitingName }) => (
  <p className={classes.facts}>
    {[
      name.examples.length > 0
        ? `${name.cars === 1 ? 'Car' : 'Cars'} ${name.examples.join(', ')}${name.cars > name.examples.length ? ' …' : ''}`
        : '',
      name.years.length > 0 ? `of ${name.years.join(', ')}` : '',
      [name.maker, name.series].filter(Boolean).join(' '),
    ]
      .filter(Boolean)
      .join(' · ')}
  </p>
);

const Picker = ({
  picking,
  name,
  onPick,
}: {
  picking: 'same' | 'release';
  name: WaitingName;
  onPick: (castingId: number) => void;
}) => {
  const asked = name.name;
  const taken = useRef(false);
  const choices = useCallback(
    async (text: string) =>
      (await api.names.near({ name: asked, text })).map(found => ({
        value: String(found.castingId),
        label: found.name,
        detail: [found.series, found.firstYear].filter(Boolean).join(' · '),
      })),
    [asked],
  );
  return (
    <TypeAhead
      key={picking}
      label={picking === 'same' ? 'The same as' : 'Another release of'}
      value=""
      placeholder="A casting; the nearest come first"
      choices={choices}
      autoFocus
      startOpen
      onPick={({ value }) => {
        // What is taken moves the focus back to the list, and the field that it leaves would take it again.
        if (taken.current) return;
        taken.current = true;
        onPick(Number(value));
      }}
    />
  );
};

/** The names under the cursor: what they are written like, and what they can be settled as. */
export const NamePanel = ({
  chosen,
  picking,
  setPicking,
  field,
  hasCastings,
  onCasting,
  onPicked,
  onNotACar,
  onLeave,
}: {
  /** One name, or several that are settled alike. */
  chosen: readonly WaitingName[];
  picking: Picking;
  setPicking: (picking: Picking) => void;
  field: RefObject<HTMLInputElement | null>;
  hasCastings: boolean;
  onCasting: (name?: string) => void;
  onPicked: (castingId: number) => void;
  onNotACar: () => void;
  /** Back to the list, with nothing settled. */
  onLeave: () => void;
}) => {
  const [name] = chosen;
  const key = name ? keyOf(name) : '';
  const [typed, setTyped] = useState('');
  useEffect(() => setTyped(name?.name ?? ''), [name?.name]);
  if (!name) return null;
  const one = chosen.length === 1;
  const near = one ? name.near : null;
  return (
    <aside className={classes.panel} aria-label="The name under the cursor">
      <h2 className={classes.panelTitle}>{one ? name.name : `${chosen.length} names`}</h2>
      {one ? (
        <>
          <Facts name={name} />
          <Spellings key={key} name={name} />
        </>
      ) : (
        <p className={classes.facts}>All are settled the same way, in one action.</p>
      )}
      <div className={classes.choices}>
        {near ? (
          <Button
            variant="filled"
            onClick={() => onPicked(near.castingId)}
            rightSection={<KeyHint keys="Enter" />}
          >
            The same as {near.name}
          </Button>
        ) : null}
        {one ? (
          <form
            className={classes.newCasting}
            onSubmit={event => {
              event.preventDefault();
              if (typed.trim()) onCasting(typed.trim());
            }}
          >
            <TextInput
              ref={field}
              label="Name of a new casting"
              value={typed}
              maxLength={200}
              onChange={event => setTyped(event.currentTarget.value)}
              onKeyDown={event => {
                if (event.key !== 'Escape') return;
                event.stopPropagation();
                setTyped(name.name);
                onLeave();
              }}
            />
            <Button
              type="submit"
              variant={near ? 'default' : 'filled'}
              disabled={typed.trim() === ''}
              rightSection={<KeyHint keys={near ? 'N' : 'Enter'} />}
            >
              New casting
            </Button>
          </form>
        ) : (
          <Button variant="filled" onClick={() => onCasting()} rightSection={<KeyHint keys="Enter" />}>
            {chosen.length} new castings
          </Button>
        )}
        {picking ? (
          // biome-ignore lint/a11y/noStaticElementInteractions: Escape leaves the field inside, whatever has the focus there
          <div
            onKeyDown={event => {
              if (event.key === 'Escape') onLeave();
            }}
          >
            <Picker key={`${key} ${picking}`} picking={picking} name={name} onPick={onPicked} />
          </div>
        ) : (
          <>
            <Button
              disabled={!hasCastings}
              onClick={() => setPicking('same')}
              rightSection={<KeyHint keys="S" />}
            >
              The same as …
            </Button>
            <Button
              disabled={!hasCastings}
              onClick={() => setPicking('release')}
              rightSection={<KeyHint keys="R" />}
            >
              Another release of …
            </Button>
          </>
        )}
        <Button onClick={onNotACar} rightSection={<KeyHint keys="X" />}>
          Not a car
        </Button>
      </div>
    </aside>
  );
};
