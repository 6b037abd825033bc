import { Button } from '@mantine/core';
import { useMemo, useRef } from 'react';
import type { ColourView, SeenVariationRow } from '../../../../electron/api/views.ts';
import { variationChoices } from '../../../components/inputs/casting-choices.tsx';
import { filterChoices } from '../../../components/inputs/choices.ts';
import { TypeAhead } from '../../../components/inputs/type-ahead.tsx';
import { KeyHint } from '../../../components/keys/key-hint.tsx';
import { LacquerChip } from '../../../components/lacquer-chip/lacquer-chip.tsx';
import { readerWords } from '../../../components/words.ts';
import classes from './names.module.css';

/** What is being picked for the variations that were seen. */
export type SeenPicking = 'same' | 'word' | null;

const Picker = ({
  picking,
  row,
  colours,
  onSame,
  onWord,
}: {
  picking: 'same' | 'word';
  row: SeenVariationRow;
  colours: readonly ColourView[];
  onSame: (variationId: number) => void;
  onWord: (colour: string) => void;
}) => {
  const taken = useRef(false);
  /** What is taken moves the focus back to the list, and the field that it leaves would take it again. */
  const once = (take: () => void) => {
    if (taken.current) return;
    taken.current = true;
    take();
  };
  const { castingId, colour, nearColour } = row;
  const variations = useMemo(
    () => async (text: string) => filterChoices(await variationChoices(castingId), text),
    [castingId],
  );
  const colourChoices = useMemo(() => {
    const choices = colours
      .filter(one => one.name.toLowerCase() !== colour.toLowerCase())
      .map(({ name, swatch }) => ({
        value: name,
        label: name,
        mark: <LacquerChip name="" swatch={swatch} nameless />,
      }));
    const near = choices.filter(({ label }) => label === nearColour);
    return [...near, ...choices.filter(({ label }) => label !== nearColour)];
  }, [colours, colour, nearColour]);
  return picking === 'same' ? (
    <TypeAhead
      label="The same as"
      value=""
      placeholder={`A variation of ${row.casting}`}
      choices={variations}
      autoFocus
      startOpen
      onPick={({ value }) => once(() => onSame(Number(value)))}
    />
  ) : (
    <TypeAhead
      label={`${colour} means`}
      value=""
      placeholder={`A ${readerWords().dialect.colour}`}
      choices={colourChoices}
      freeText
      autoFocus
      startOpen
      onPick={({ label }) => once(() => onWord(label))}
    />
  );
};

/** The variations under the cursor, and what they can be settled as. */
export const SeenPanel = ({
  chosen,
  picking,
  setPicking,
  colours,
  onVariation,
  onSame,
  onWord,
  onLeave,
}: {
  chosen: readonly SeenVariationRow[];
  picking: SeenPicking;
  setPicking: (picking: SeenPicking) => void;
  colours: readonly ColourView[];
  onVariation: () => void;
  onSame: (variationId: number) => void;
  onWord: (colour: string) => void;
  onLeave: () => void;
}) => {
  const [row] = chosen;
  if (!row) return null;
  const one = chosen.length === 1;
  return (
    <aside className={classes.panel} aria-label="The variation under the cursor">
      <h2 className={classes.panelTitle}>{one ? row.casting : `${chosen.length} variations`}</h2>
      {one ? (
        <>
          <p className={classes.seen}>
            {row.colour ? <LacquerChip name={row.colour} swatch={row.swatch} /> : null}
            {row.told}
          </p>
          <p className={classes.facts}>
            {[
              row.examples.join(', '),
              row.release && `of ${row.release}`,
              row.lesser > 0 && `${row.lesser} more that say less of it`,
            ]
              .filter(Boolean)
              .join(' · ')}
          </p>
        </>
      ) : (
        <p className={classes.facts}>All of them are added by one action.</p>
      )}
      {picking ? (
        // biome-ignore lint/a11y/noStaticElementInteractions: Escape leaves the field inside, whatever has the focus there
        <div
          onKeyDown={event => {
            if (event.key === 'Escape') onLeave();
          }}
        >
          <Picker
            key={`${row.key} ${picking}`}
            picking={picking}
            row={row}
            colours={colours}
            onSame={onSame}
            onWord={onWord}
          />
        </div>
      ) : (
        <div className={classes.choices}>
          <Button variant="filled" onClick={onVariation} rightSection={<KeyHint keys="Enter" />}>
            {one ? 'New variation' : `${chosen.length} new variations`}
          </Button>
          <Button onClick={() => setPicking('same')} rightSection={<KeyHint keys="S" />}>
            The same as …
          </Button>
          <Button
            disabled={!row.colour}
            onClick={() => setPicking('word')}
            rightSection={<KeyHint keys="W" />}
          >
            Another word for a {readerWords().dialect.colour} …
          </Button>
        </div>
      )}
    </aside>
  );
};
