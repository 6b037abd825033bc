import { Button, ColorPicker, Popover, TextInput } from '@mantine/core';
import { useEffect, useState } from 'react';
import type { ColourView } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { LacquerChip } from '../../components/lacquer-chip/lacquer-chip.tsx';
import classes from './reference.module.css';

const isHex = (text: string): boolean => /^#[0-9a-f]{6}$/i.test(text);
const unchosen = '#8a8f94';

/** A colour's chip; pressed, it lets the owner choose how the colour is shown. */
export const SwatchButton = ({ colour }: { colour: ColourView }) => {
  const [open, setOpen] = useState(false);
  const [swatch, setSwatch] = useState(colour.swatch ?? unchosen);
  // A swatch that is chosen or undone is shown also where the form stands open again before it has come back.
  useEffect(() => setSwatch(colour.swatch ?? unchosen), [colour.swatch]);
  const save = useAction(
    (hex: string) => api.reference.saveColour({ name: colour.name, swatch: hex.toLowerCase() }),
    { label: `Swatch of ${colour.name} chosen`, onDone: () => setOpen(false) },
  );
  const toggle = () => {
    setSwatch(colour.swatch ?? unchosen);
    setOpen(!open);
  };
  return (
    <Popover opened={open} onChange={setOpen} position="bottom-start" trapFocus withRoles={false}>
      <Popover.Target>
        <button
          type="button"
          className={classes.swatchButton}
          aria-expanded={open}
          aria-label={`${colour.name}: choose its swatch`}
          onClick={toggle}
        >
          <LacquerChip name={colour.name} swatch={colour.swatch} size="card" />
        </button>
      </Popover.Target>
      <Popover.Dropdown>
        <form
          className={classes.swatchForm}
          onSubmit={event => {
            event.preventDefault();
            if (isHex(swatch)) save.mutate(swatch);
          }}
        >
          <div className={classes.swatchShown}>
            <LacquerChip name={colour.name} swatch={isHex(swatch) ? swatch : null} size="large" />
          </div>
          <ColorPicker
            format="hex"
            value={isHex(swatch) ? swatch : unchosen}
            saturationLabel={`Depth of ${colour.name}`}
            hueLabel={`Hue of ${colour.name}`}
            onChange={setSwatch}
          />
          <div className={classes.swatchFoot}>
            <TextInput
              aria-label="As #rrggbb"
              data-autofocus
              value={swatch}
              error={!isHex(swatch)}
              maxLength={7}
              onChange={event => setSwatch(event.currentTarget.value)}
            />
            <Button type="submit" variant="filled" disabled={!isHex(swatch)} loading={save.isPending}>
              Choose
            </Button>
          </div>
        </form>
      </Popover.Dropdown>
    </Popover>
  );
};
